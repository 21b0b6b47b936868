import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { lookAtFile } from "../../app/intake/look-at-file";
import type { Database } from "../../db/connection";
import { featureHistory } from "../../db/queries/history";
import { WORDS } from "../../lib/words/words";
import { bringIn, emptyPlant } from "../db/plant";

const HEADER = "piece,taken_at,part,feature,nominal,lower_tolerance,upper_tolerance,unit,value";
const at = (minute: number) => `2026-01-05T06:${String(minute).padStart(2, "0")}:00Z`;
const row = (minute: number, value: number) =>
  `S${minute},${at(minute)},P-1,face,112,111.95,112.05,mm,${value}`;
const text = (...rows: string[]) => `${[HEADER, ...rows].join("\n")}\n`;
/** The same feature in a file that states neither limits nor nominal. */
const bare = (unit: string, ...values: number[]) =>
  `taken_at,part,feature,unit,value\n${values.map((value, i) => `${at(30 + i)},P-1,face,${unit},${value}\n`).join("")}`;

async function lookAt(database: Database, content: string) {
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-far-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const path = join(folder, "file");
  writeFileSync(path, content);
  return lookAtFile(database, { path, name: "file.csv" }, { plantZone: "UTC" });
}

const ONE_FAR =
  "1 value lies more than 10 tolerance widths from nominal, in row 3 (“face”, 1120.2): likely another unit or a misplaced decimal. It is stored as it is.";

test("a misplaced decimal is remarked on before and after it is stored, and nothing is thrown away", async () => {
  const database = await emptyPlant();
  const file = text(row(0, 112.02), row(1, 1120.2), row(2, 112.4));
  // Before the plan knows the feature, the file's own limits tell.
  expect((await lookAt(database, file)).far).toBe(ONE_FAR);
  const outcome = await bringIn(database, file, { subgroupSize: 1 });
  expect(outcome).toMatchObject({ accepted: 3, refused: 0, message: ONE_FAR });
  expect([...((await featureHistory(database, 1))?.series.value ?? [])]).toEqual([112.02, 1120.2, 112.4]);
  // The same again adds nothing, so nothing is remarked on.
  expect((await bringIn(database, file)).message).toContain("nothing was added");
  // A correction is looked at like anything new.
  const corrected = await bringIn(database, text(row(2, 11.24)));
  expect(corrected).toMatchObject({
    corrections: 1,
    message: expect.stringContaining("in row 2 (“face”, 11.24)"),
  });
});

test("the control plan tells where the file states no limits, in whatever unit it is written", async () => {
  const database = await emptyPlant();
  await bringIn(database, text(row(0, 112.02)));
  expect((await lookAt(database, bare("mm", 112.02, 4.41))).far).toContain("in row 3 (“face”, 4.41)");
  // 112.02 mm are 4.4102 in; 112.02 in would be 2845 mm.
  expect((await lookAt(database, bare("in", 4.4102))).far).toBe("");
  expect((await lookAt(database, bare("in", 4.4102, 112.02))).far).toContain("in row 3 (“face”, 112.02)");
  expect((await bringIn(database, bare("in", 4.4102, 112.02))).message).toContain(
    "in row 3 (“face”, 2845.308)",
  );
});

test("by hand: a position, whose nominal nobody states, counts from its natural bound: ten times 0.15 mm", async () => {
  const database = await emptyPlant();
  const of = (...values: number[]) =>
    `taken_at,part,feature,lower_tolerance,upper_tolerance,unit,value\n${values.map((value, i) => `${at(i)},P-1,hole position,,0.15,mm,${value}\n`).join("")}`;
  expect((await bringIn(database, of(0.08, 0.05, 0.1), { subgroupSize: 1 })).message).toBe("");
  expect((await lookAt(database, of(0.08, 1.49))).far).toBe("");
  expect((await lookAt(database, of(0.08, 1.51))).far).toContain("in row 3 (“hole position”, 1.51)");
  expect((await bringIn(database, `${of(0.08)}${at(9)},P-1,hole position,,0.15,mm,80\n`)).message).toContain(
    "in row 3",
  );
});

test("it is said in German", () => {
  expect(WORDS.de.storedTexts.say(ONE_FAR)).toMatch(
    /^1 Wert liegt mehr als 10 .* Zeile 3 \(“face”, 1120\.2\)/,
  );
});
