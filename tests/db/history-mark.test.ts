import { expect, test } from "vitest";
import { freezeLimits } from "../../db/commands/limits";
import { tell } from "../../db/commands/news";
import { updatePart } from "../../db/commands/plan";
import { undoIntake } from "../../db/commands/undo-intake";
import { type Database, write } from "../../db/connection";
import { measuredSince } from "../../db/queries/grown-history";
import { featureHistory, type HistoryMark, historyMark, laterMark } from "../../db/queries/history";
import { grownSeries } from "../../lib/measurements/grown";
import type { MeasurementSeries } from "../../lib/measurements/series";
import { bringIn, emptyPlant, SOMEBODY, tidyFile } from "./plant";

/*
 * Whoever holds a history may go on holding it while its mark has a later one. What changes a history, by DESIGN: its
 * measurements, the feature and its part, its limits, what is left out, the alarms that were closed.
 */

const MINUTE = 60_000;
const START = SOMEBODY.at - 300 * MINUTE;

const rowsOf = (feature: string, from: number, to: number) =>
  Array.from({ length: to - from }, (_, i) => ({
    feature,
    takenAt: START + (from + i) * MINUTE,
    value: 10 + 0.001 * (((from + i) * 7) % 11),
  }));

async function twoFeatures(): Promise<{ database: Database; mark: HistoryMark }> {
  const database = await emptyPlant();
  const file = tidyFile([...rowsOf("bore", 0, 120), ...rowsOf("face", 0, 120)]);
  await bringIn(database, file, { subgroupSize: 1 });
  return { database, mark: await historyMark(database, 1) };
}

const isHeld = async (database: Database, mark: HistoryMark) =>
  (await laterMark(database, { id: 1, mark })) !== null;

test("nothing, another feature's measurements and what concerns no history leave it as it is", async () => {
  const { database, mark } = await twoFeatures();
  expect(await isHeld(database, mark)).toBe(true);
  await bringIn(database, tidyFile(rowsOf("face", 120, 130)), { subgroupSize: 1 });
  await write(database, (connection) => tell(connection, { kind: "drift", partId: null }));
  const later = await laterMark(database, { id: 1, mark });
  expect(later?.news).toBeGreaterThan(mark.news);
  expect(await isHeld(database, later!)).toBe(true);
});

test("its own measurements, and taking them back, make it another; so do more features than are named", async () => {
  const { database, mark } = await twoFeatures();
  const { id } = await bringIn(database, tidyFile(rowsOf("bore", 120, 121)), { subgroupSize: 1 });
  expect(await isHeld(database, mark)).toBe(false);
  const measured = await historyMark(database, 1);
  await undoIntake(database, { id: id!, actor: SOMEBODY });
  expect(await isHeld(database, measured)).toBe(false);
  const undone = await historyMark(database, 1);
  await write(database, (connection) => tell(connection, { kind: "intake", intakeId: 9, featureIds: null }));
  expect(await isHeld(database, undone)).toBe(false);
});

test("limits that were frozen and a part that expands otherwise make it another", async () => {
  const { database, mark } = await twoFeatures();
  const frozen = await freezeLimits(database, {
    featureId: 1,
    baselineFrom: START,
    baselineTo: START + 60 * MINUTE,
    effectiveFrom: null,
    reason: "first baseline",
    actor: SOMEBODY,
  });
  expect(frozen.ok).toBe(true);
  expect(await isHeld(database, mark)).toBe(false);

  const limited = await historyMark(database, 1);
  const entry = { number: "P-1", revision: "", name: "", line: "", material: "steel", expansion: 11.5e-6 };
  const changed = await updatePart(database, { id: 1, entry, reason: "material stated", actor: SOMEBODY });
  expect(changed.ok).toBe(true);
  expect(await isHeld(database, limited)).toBe(false);
});

/** The history as who holds it goes on with it; null where it has to be read anew. */
async function goneOn(database: Database, mark: HistoryMark, known: MeasurementSeries) {
  const since = await measuredSince(database, { id: 1, mark, known });
  return since && { series: grownSeries(known, since.measured), mark: since.mark };
}

test("later measurements are all there is to read, whether they wait or have settled", async () => {
  const { database, mark } = await twoFeatures();
  const known = (await featureHistory(database, 1))!.series;
  await bringIn(database, tidyFile(rowsOf("face", 120, 130)), { subgroupSize: 1 });
  expect((await goneOn(database, mark, known))!.series.count).toBe(120);
  // A few wait, some hundred go to blocks; the first of them is of the very moment of the last that is known.
  const again = { ...rowsOf("bore", 119, 120)[0]!, piece: "another" };
  await bringIn(database, tidyFile([again, ...rowsOf("bore", 120, 125)]), { subgroupSize: 1 });
  await bringIn(database, tidyFile(rowsOf("bore", 125, 500)), { subgroupSize: 1 });
  const grown = await goneOn(database, mark, known);
  expect(grown!.series).toEqual((await featureHistory(database, 1))!.series);
  expect(grown!.series.count).toBe(501);
  await bringIn(database, tidyFile(rowsOf("bore", 500, 501)), { subgroupSize: 1 });
  const further = await goneOn(database, grown!.mark, grown!.series);
  expect(further!.series).toEqual((await featureHistory(database, 1))!.series);
});

test("what came late, was corrected or taken back, and limits, make it another history", async () => {
  const { database, mark } = await twoFeatures();
  const known = (await featureHistory(database, 1))!.series;
  const { id } = await bringIn(database, tidyFile(rowsOf("bore", 120, 121)), { subgroupSize: 1 });
  const later = (await goneOn(database, mark, known))!;
  await undoIntake(database, { id: id!, actor: SOMEBODY });
  expect(await goneOn(database, later.mark, later.series)).toBeNull();
  expect(await goneOn(database, mark, known)).toBeNull();

  const undone = await historyMark(database, 1);
  const late = [{ ...rowsOf("bore", 50, 51)[0]!, takenAt: START + 50.5 * MINUTE }];
  await bringIn(database, tidyFile(late), { subgroupSize: 1 });
  expect(await goneOn(database, undone, known)).toBeNull();

  const afterLate = await historyMark(database, 1);
  const withLate = (await featureHistory(database, 1))!.series;
  await bringIn(database, tidyFile([{ ...rowsOf("bore", 60, 61)[0]!, value: 10.5 }]), { subgroupSize: 1 });
  expect(await goneOn(database, afterLate, withLate)).toBeNull();

  const corrected = await historyMark(database, 1);
  const now = (await featureHistory(database, 1))!.series;
  expect(await goneOn(database, corrected, now)).not.toBeNull();
  await freezeLimits(database, {
    featureId: 1,
    baselineFrom: START,
    baselineTo: START + 60 * MINUTE,
    effectiveFrom: null,
    reason: "first baseline",
    actor: SOMEBODY,
  });
  expect(await goneOn(database, corrected, now)).toBeNull();
});
