import fc from "fast-check";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type AuditHead, type AuditLine, lineDigest, record } from "../../db/commands/audit";
import { connectionOf, type Database, openDatabase, write } from "../../db/connection";
import { migrate } from "../../db/migrate";
import { verify } from "../../db/verify";
import { runs } from "../laws";

/*
 * Law: whatever is changed in the record, removed from it, put into it or put in another order, `verify` finds it.
 * Whoever also computes the chain anew up to its head is found by a head that was noted elsewhere.
 */

const LINES = 60;
let database: Database;
let noted: AuditHead;

beforeAll(async () => {
  database = await openDatabase(":memory:");
  await migrate(database);
  await write(database, (connection) => {
    for (let i = 0; i < LINES; i++) {
      const actor = { accountId: null, at: Date.UTC(2026, 0, 5) + i * 1000 };
      record(connection, actor, {
        action: ["enter part", "freeze limits", "undo intake"][i % 3] as string,
        subject: `P-${i % 7}`,
        ...(i % 2 ? { before: { n: i }, after: { n: i + 1 } } : {}),
        reason: i % 5 ? "" : "asked for",
      });
    }
  });
  const whole = await verify(database);
  expect(whole.ok).toBe(true);
  noted = whole.record;
  connectionOf(database).sqlite.exec(`
    drop trigger audit_stays; drop trigger audit_is_kept;
    create temp table kept_audit as select * from audit;
    create temp table kept_head as select * from audit_head;`);
});

afterAll(() => database.close());

type Row = AuditLine & { id: number; digest: string };
const COLUMNS = "id, at, account_id accountId, key_id keyId, action, subject, before, after, reason, digest";

function rowsNow(): Row[] {
  return connectionOf(database).sqlite.prepare(`select ${COLUMNS} from audit order by id`).all() as Row[];
}

function put(rows: readonly Row[]): void {
  const { sqlite } = connectionOf(database);
  sqlite.pragma("foreign_keys = OFF");
  sqlite.exec("delete from audit");
  const insert = sqlite.prepare(
    "insert into audit (id, at, account_id, key_id, action, subject, before, after, reason, digest) values (@id, @at, @accountId, @keyId, @action, @subject, @before, @after, @reason, @digest)",
  );
  for (const row of rows) insert.run(row);
}

function putBack(): void {
  connectionOf(database).sqlite.exec(`
    delete from audit; insert into audit select * from kept_audit;
    delete from audit_head; insert into audit_head select * from kept_head;`);
}

type Tampering =
  | { do: "edit"; at: number; column: keyof AuditLine | "digest" }
  | { do: "remove"; at: number; count: number; closeUp: boolean }
  | { do: "swap"; at: number; other: number }
  | { do: "put in"; at: number };

const at = fc.nat({ max: LINES - 1 });
const tampering: fc.Arbitrary<Tampering> = fc.oneof(
  fc.record({
    do: fc.constant("edit" as const),
    at,
    column: fc.constantFrom<keyof AuditLine | "digest">(
      "at",
      "accountId",
      "keyId",
      "action",
      "subject",
      "before",
      "after",
      "reason",
      "digest",
    ),
  }),
  fc.record({
    do: fc.constant("remove" as const),
    at,
    count: fc.integer({ min: 1, max: LINES }),
    closeUp: fc.boolean(),
  }),
  fc
    .record({ do: fc.constant("swap" as const), at, other: at })
    .filter(({ at: one, other }) => one !== other),
  fc.record({ do: fc.constant("put in" as const), at }),
);

function tampered(rows: readonly Row[], change: Tampering): Row[] {
  const copy = rows.map((row) => ({ ...row }));
  const numbered = (list: Row[]) => list.map((row, i) => ({ ...row, id: i + 1 }));
  const hit = copy[change.at] as Row;
  switch (change.do) {
    case "edit": {
      const was = hit[change.column];
      const isNumber = change.column === "at" || change.column === "accountId" || change.column === "keyId";
      copy[change.at] = { ...hit, [change.column]: isNumber ? Number(was ?? 0) + 1 : `${was ?? ""}x` };
      return copy;
    }
    case "remove": {
      copy.splice(change.at, change.count);
      return change.closeUp ? numbered(copy) : copy;
    }
    case "swap": {
      copy[change.at] = copy[change.other] as Row;
      copy[change.other] = hit;
      return numbered(copy);
    }
    case "put in":
      copy.splice(change.at, 0, { ...hit });
      return numbered(copy);
  }
}

/** The chain anew over these lines, and its head with it. */
function forge(rows: readonly Row[]): void {
  let digest = "";
  put(
    rows.map(({ id: _, digest: __, ...line }, i) => {
      digest = lineDigest(digest, line);
      return { ...line, id: i + 1, digest };
    }),
  );
  connectionOf(database)
    .sqlite.prepare("update audit_head set lines = ?, digest = ?")
    .run(rows.length, digest);
}

test("whatever was edited, removed, moved or put in is found", async () => {
  const everyKind = new Set<string>();
  await fc.assert(
    fc.asyncProperty(tampering, async (change) => {
      putBack();
      put(tampered(rowsNow(), change));
      everyKind.add(change.do);
      expect((await verify(database)).record.faults).not.toEqual([]);
    }),
    { numRuns: runs(300) },
  );
  expect(everyKind.size).toBe(4);
  putBack();
  expect((await verify(database, { head: noted })).record.faults).toEqual([]);
});

test("a chain computed anew to its end is found by the head that was noted", async () => {
  await fc.assert(
    fc.asyncProperty(
      tampering.filter(
        (change) =>
          !(change.do === "edit" && change.column === "digest") &&
          // The last line once more, behind itself: a record that went on after its head was noted.
          !(change.do === "put in" && change.at === LINES - 1),
      ),
      async (change) => {
        putBack();
        forge(tampered(rowsNow(), change));
        expect((await verify(database)).record.faults).toEqual([]);
        expect((await verify(database, { head: noted })).record.faults).not.toEqual([]);
      },
    ),
    { numRuns: runs(200) },
  );
});

test("each number of newest lines that is cut off is found, with the head cut to fit", async () => {
  for (let left = 0; left < LINES; left++) {
    putBack();
    const rows = rowsNow().slice(0, left);
    forge(rows);
    expect((await verify(database, { head: noted })).record.faults, `${left} left`).toEqual([
      expect.stringContaining("the end was cut off"),
    ]);
  }
});
