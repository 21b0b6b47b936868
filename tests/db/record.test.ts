import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { beforeEach, describe, expect, onTestFinished, test } from "vitest";
import { backUp, restore } from "../../db/backup";
import { createPart } from "../../db/commands/plan";
import { rebuild } from "../../db/commands/rebuild";
import { connectionOf, type Database, openDatabase } from "../../db/connection";
import { migrate } from "../../db/migrate";
import { verify } from "../../db/verify";
import { bringIn, emptyPlant, SOMEBODY, tidyFile } from "./plant";

const part = (number: string) => ({
  number,
  revision: "",
  name: "",
  line: "",
  material: "",
  expansion: null,
});
let database: Database;

beforeEach(async () => {
  database = await emptyPlant();
  for (const number of ["P-1", "P-2", "P-3", "P-4"]) await createPart(database, part(number), SOMEBODY);
});

/** Does to the record what its triggers refuse: whoever has the file can take them away. */
function tamper(sql: string): void {
  const { sqlite } = connectionOf(database);
  sqlite.exec("drop trigger audit_stays; drop trigger audit_is_kept;");
  sqlite.exec(sql);
}
const faults = async () => (await verify(database)).record.faults;

describe("the record", () => {
  test("is whole as it was written", async () => {
    expect(await verify(database)).toMatchObject({ ok: true, record: { lines: 4, faults: [] } });
  });

  test("refuses to be changed or shortened", () => {
    const { sqlite } = connectionOf(database);
    expect(() => sqlite.exec("update audit set reason = 'x'")).toThrow(/append-only/);
    expect(() => sqlite.exec("delete from audit")).toThrow(/append-only/);
    // REPLACE takes a row away without the triggers against removal.
    expect(() => sqlite.exec("replace into audit select * from audit limit 1")).toThrow(/append-only/);
  });

  test("shows an edited line, and names it once", async () => {
    tamper("update audit set after = replace(after, 'P-2', 'P-9') where id = 2");
    expect(await faults()).toEqual([expect.stringContaining("line 2 was changed")]);
  });

  test("shows a line taken out of the middle", async () => {
    tamper("delete from audit where id = 2");
    expect((await faults())[0]).toBe("1 line is missing before line 3.");
  });

  test("shows a line taken out with the numbers closed up behind it", async () => {
    tamper("delete from audit where id = 2; update audit set id = id - 1 where id > 2;");
    expect((await faults())[0]).toContain("line 2 was changed, or the lines before it were removed");
  });

  test("shows two lines that changed places", async () => {
    tamper(
      "update audit set id = 99 where id = 2; update audit set id = 2 where id = 3; update audit set id = 3 where id = 99;",
    );
    expect(await faults()).not.toEqual([]);
  });

  test("shows an end that was cut off, also after more was written", async () => {
    tamper("delete from audit where id = 4; update sqlite_sequence set seq = 3 where name = 'audit';");
    expect((await faults()).at(-1)).toContain("its end was cut off");
    await createPart(database, part("P-5"), SOMEBODY);
    expect((await faults()).at(-1)).toContain("its end was cut off");
  });

  test("shows a chain made anew from the beginning, against a head noted elsewhere", async () => {
    const { record: head } = await verify(database);
    expect((await verify(database, { head })).ok).toBe(true);
    await createPart(database, part("P-5"), SOMEBODY);
    expect((await verify(database, { head })).ok).toBe(true);
    tamper("delete from audit; delete from audit_head; delete from sqlite_sequence where name = 'audit';");
    await createPart(database, part("P-6"), SOMEBODY);
    expect((await verify(database)).record.faults).toEqual([]);
    expect((await verify(database, { head })).record.faults).toEqual([
      expect.stringContaining("the end was cut off"),
    ]);
  });
});

test("verify finds a derived row that is not what the measurements give, and leaves it as it was", async () => {
  await measured(database);
  expect((await verify(database)).differing).toEqual([]);
  const { sqlite } = connectionOf(database);
  sqlite.exec("update feature_standing set standing = '{}'");
  expect((await verify(database)).differing).toEqual(["bore"]);
  expect(sqlite.prepare("select standing from feature_standing").pluck().get()).toBe("{}");
  await rebuild(database);
  expect((await verify(database)).ok).toBe(true);
});

async function measured(plant: Database): Promise<void> {
  const rows = Array.from({ length: 60 }, (_, i) => ({
    takenAt: SOMEBODY.at + i * 60_000,
    value: 10 + (i % 5) / 100,
  }));
  await bringIn(plant, tidyFile(rows), { subgroupSize: 5 });
}

describe("a backup", () => {
  function folder(): string {
    const made = mkdtempSync(path.join(tmpdir(), "steadyrest-backup-"));
    onTestFinished(() => rmSync(made, { recursive: true, force: true }));
    return made;
  }
  async function plantIn(place: string): Promise<Database> {
    const opened = await openDatabase(path.join(place, "steadyrest.db"));
    onTestFinished(() => opened.close());
    await migrate(opened);
    await measured(opened);
    return opened;
  }

  test("taken while another connection stores is of one moment, and restored passes verify and rebuild unchanged", async () => {
    const [here, there] = [folder(), folder()];
    const plant = await plantIn(here);
    const other = await openDatabase(path.join(here, "steadyrest.db"));
    onTestFinished(() => other.close());
    const copy = path.join(there, "copy.db");
    const [made] = await Promise.all([backUp(plant, { to: copy }), createPart(other, part("Q-1"), SOMEBODY)]);
    const place = folder();
    const to = path.join(place, "steadyrest.db");
    const restored = await restore({ from: copy, to, actor: SOMEBODY });
    expect(restored.head.lines).toBe(made.head.lines + 1);
    const again = await openDatabase(to);
    onTestFinished(() => again.close());
    expect(await verify(again, { head: made.head })).toMatchObject({ ok: true });
    expect((await rebuild(again)).differing).toBe(0);
    expect(readdirSync(there)).toEqual(["copy.db"]);
    expect(readdirSync(place).filter((name) => name.includes("partial"))).toEqual([]);
  });

  test("never replaces a file, and is restored only into an empty place", async () => {
    const here = folder();
    const plant = await plantIn(here);
    const copy = path.join(here, "copy.db");
    await backUp(plant, { to: copy });
    await expect(backUp(plant, { to: copy })).rejects.toThrow(/there already/);
    await expect(restore({ from: copy, to: plant.path, actor: SOMEBODY })).rejects.toThrow(/empty place/);
  });

  test.each([
    ["a text", "no database at all", /cannot be read as a database/],
    ["nothing", "", /not one of this program/],
  ])("that is %s is refused and leaves nothing", async (_, text, why) => {
    const [here, place] = [folder(), folder()];
    const from = path.join(here, "copy.db");
    writeFileSync(from, text);
    await expect(restore({ from, to: path.join(place, "steadyrest.db"), actor: SOMEBODY })).rejects.toThrow(
      why,
    );
    expect(readdirSync(place)).toEqual([]);
  });
});
