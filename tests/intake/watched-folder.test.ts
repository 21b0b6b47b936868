import {
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, beforeEach, describe, expect, onTestFinished, test } from "vitest";
import { folderState, lyingIn, moveTo, settledSince } from "../../app/intake/watched/folder";
import { takeFromFolder } from "../../app/intake/watched/take";
import { bundle } from "../../app/start/bundle.mjs";
import { undoIntake } from "../../db/commands/undo-intake";
import { type Database, openDatabase } from "../../db/connection";
import { migrate } from "../../db/migrate";
import { listIntakes } from "../../db/queries/intakes";
import { SOMEBODY, tidyFile } from "../db/plant";

/** The worker that reads files is a bundle of its own, as in the running program. */
beforeAll(() => bundle(join(import.meta.dirname, "../..")), 60_000);

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "steadyrest-watched-"));
  const made = folder;
  onTestFinished(() => rmSync(made, { recursive: true, force: true }));
});

const put = (name: string, text: string) => writeFileSync(join(folder, name), text);
const names = (place = "") =>
  existsSync(join(folder, place)) ? readdirSync(join(folder, place)).sort() : [];

describe("what lies in the folder", () => {
  test("files by name; not folders, links, hidden files or what is still written by its name", async () => {
    put("b.csv", "12345");
    put("a.csv", "1");
    put(".hidden.csv", "1");
    put("c.csv.part", "1");
    put("~$d.xlsx", "1");
    mkdirSync(join(folder, "done"));
    symlinkSync(join(folder, "a.csv"), join(folder, "link.csv"));
    expect((await lyingIn(folder)).map(({ name, size }) => [name, size])).toEqual([
      ["a.csv", 1],
      ["b.csv", 5],
    ]);
  });

  test("a file counts as written once two looks find it alike", () => {
    const file = { name: "a.csv", size: 10, changedAt: 5 };
    expect(settledSince([], [file])).toEqual([]);
    expect(settledSince([{ ...file, size: 9 }], [file])).toEqual([]);
    expect(settledSince([{ ...file, changedAt: 4 }], [file])).toEqual([]);
    expect(settledSince([file, { ...file, name: "gone.csv" }], [file])).toEqual([file]);
  });
});

describe("moving", () => {
  test("files of one name are kept apart, each with what there is to say of it", async () => {
    for (const text of ["first", "second", "third"]) {
      put("lot.csv", text);
      await moveTo(folder, "lot.csv", "refused", [{ suffix: ".why.txt", text: `why ${text}` }]);
    }
    expect(names("refused")).toEqual([
      "lot-2.csv",
      "lot-2.csv.why.txt",
      "lot-3.csv",
      "lot-3.csv.why.txt",
      "lot.csv",
      "lot.csv.why.txt",
    ]);
    expect(readFileSync(join(folder, "refused", "lot-2.csv"), "utf8")).toBe("second");
    expect(readFileSync(join(folder, "refused", "lot-2.csv.why.txt"), "utf8")).toBe("why second");
    expect(names()).toEqual(["refused"]);
    expect(await folderState(folder, { most: 2 })).toMatchObject({ waiting: 0, done: 0, refused: 3 });
  });

  test("a move that was cut off after the file had its new name is finished, not made twice", async () => {
    put("lot.csv", "text");
    mkdirSync(join(folder, "done"));
    linkSync(join(folder, "lot.csv"), join(folder, "done", "lot.csv"));
    expect(await moveTo(folder, "lot.csv", "done", [])).toBe("lot.csv");
    expect(names()).toEqual(["done"]);
    expect(names("done")).toEqual(["lot.csv"]);
  });
});

describe("taking", () => {
  async function plant(): Promise<Database> {
    const data = mkdtempSync(join(tmpdir(), "steadyrest-watched-data-"));
    const database = await openDatabase(join(data, "steadyrest.db"));
    onTestFinished(async () => {
      await database.close();
      rmSync(data, { recursive: true, force: true });
    });
    await migrate(database);
    return database;
  }

  async function takeAll(database: Database, mostBytes = 1_000_000): Promise<void> {
    for (const file of await lyingIn(folder)) await takeFromFolder(database, { folder, file, mostBytes });
  }

  const rows = (from: number, count: number) =>
    Array.from({ length: count }, (_, i) => ({
      takenAt: SOMEBODY.at + (from + i) * 1000,
      piece: `p${from + i}`,
      value: from + i === 3 ? "no number" : 10 + 0.001 * i,
    }));

  test("a known layout is stored and then lies in done, its refused rows beside it", async () => {
    const database = await plant();
    put("lot.csv", tidyFile(rows(0, 6)));
    await takeAll(database);
    expect(await listIntakes(database, { limit: 9 })).toMatchObject([
      { file: "lot.csv", kind: "folder", state: "done", accepted: 5, refused: 1 },
    ]);
    expect(names()).toEqual(["done"]);
    expect(names("done")).toEqual(["lot.csv", "lot.csv.refusals.csv"]);
    expect(readFileSync(join(folder, "done", "lot.csv.refusals.csv"), "utf8")).toContain("no number");
  });

  test("one that was stored but not yet moved when the program stopped is moved and not stored again", async () => {
    const database = await plant();
    put("lot.csv", tidyFile(rows(10, 3)));
    await takeAll(database);
    put("again.csv", tidyFile(rows(10, 3)));
    await takeAll(database);
    expect(await listIntakes(database, { limit: 9 })).toHaveLength(1);
    expect(names("done")).toEqual(["again.csv", "lot.csv"]);
    // Once that intake is undone, the same file is news again.
    await undoIntake(database, { id: 1, actor: SOMEBODY });
    put("lot.csv", tidyFile(rows(10, 3)));
    await takeAll(database);
    expect(await listIntakes(database, { limit: 9 })).toMatchObject([{ accepted: 3 }, { state: "undone" }]);
    expect(names("done")).toEqual(["again.csv", "lot-2.csv", "lot.csv"]);
  });

  test.each([
    ["a layout nobody has mapped", "x1,x2,x3\n1,2,3\n", 1_000_000, /tell there once which column is which/],
    ["an empty file", "", 1_000_000, /^Nothing stored: /],
    ["one that is too large", tidyFile(rows(0, 6)), 100, /this server takes 100 bytes/],
  ])("%s lies in refused with the reason, and nothing is stored", async (_, text, mostBytes, why) => {
    const database = await plant();
    put("lot.csv", text);
    await takeAll(database, mostBytes);
    expect(names("refused")).toEqual(["lot.csv", "lot.csv.why.txt"]);
    expect(readFileSync(join(folder, "refused", "lot.csv.why.txt"), "utf8")).toMatch(why);
    expect((await listIntakes(database, { limit: 9 })).filter(({ accepted }) => accepted > 0)).toEqual([]);
    const { latestRefused } = await folderState(folder, { most: 5 });
    expect(latestRefused).toMatchObject([{ name: "lot.csv", why: expect.stringMatching(why) }]);
  });
});
