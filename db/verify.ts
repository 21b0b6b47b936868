import { asc, eq } from "drizzle-orm";
import { type AuditHead, lineDigest } from "./commands/audit";
import { differingFeatures } from "./commands/rebuild";
import { type Connection, connectionOf, type Database } from "./connection";
import { audit } from "./schema";
import { auditHead } from "./schema-people";

export type Verified = {
  ok: boolean;
  /** What SQLite itself finds wrong with the file; empty when nothing. */
  integrity: string[];
  record: { lines: number; digest: string; faults: string[] };
  /** Features whose derived rows are not what the measurements give. */
  differing: string[];
};

/** A file with more than this is replaced, not repaired line by line. */
const MOST_FAULTS = 20;

/**
 * Whether a database is whole: SQLite's own check, the chain of the record, and that everything derived is what
 * the measurements give. Changes nothing.
 *
 * @param head a head that was noted down earlier: the record must still hold those very lines. Whoever can write
 *   to the file could make a chain anew from its beginning; a head kept elsewhere is what shows that.
 */
export async function verify(
  database: Database,
  {
    head,
    onFeature,
  }: { head?: AuditHead | undefined; onFeature?: ((done: number, total: number) => void) | undefined } = {},
): Promise<Verified> {
  const connection = connectionOf(database);
  const integrity = integrityFaults(connection);
  const record = checkRecord(connection, head);
  // A file that SQLite cannot read through would only fail once more.
  const differing = integrity.length === 0 ? await differingFeatures(database, { onFeature }) : [];
  const ok = integrity.length === 0 && record.faults.length === 0 && differing.length === 0;
  return { ok, integrity, record, differing };
}

function integrityFaults({ sqlite }: Connection): string[] {
  const rows = sqlite.pragma(`integrity_check(${MOST_FAULTS})`) as { integrity_check: string }[];
  const broken = rows.map((row) => row.integrity_check).filter((words) => words !== "ok");
  const loose = sqlite.pragma("foreign_key_check") as { table: string; rowid: number; parent: string }[];
  const orphans = loose
    .slice(0, MOST_FAULTS)
    .map(({ table, rowid, parent }) => `row ${rowid} of ${table} names a row of ${parent} that is not there`);
  return [...broken, ...orphans];
}

/** Walks the record from its first line and says where its chain does not hold. */
function checkRecord({ orm }: Connection, noted: AuditHead | undefined): Verified["record"] {
  const faults: string[] = [];
  const say = (fault: string) => {
    if (faults.length < MOST_FAULTS) faults.push(fault);
  };
  let lines = 0;
  let digest = "";
  let lastId = 0;
  // In pieces: a record of years need not fit into memory, and the connection stays free in between.
  for (const row of linesOf(orm)) {
    lines++;
    if (row.id !== lastId + 1) say(gap(lastId, row.id));
    if (lineDigest(digest, row) !== row.digest) {
      say(`line ${row.id} was changed, or the lines before it were removed or put in another order.`);
    }
    if (noted?.lines === lines && noted.digest !== row.digest)
      say(`line ${row.id} is not the one that the head given names.`);
    lastId = row.id;
    // Going on from the stored digest names each changed line once.
    digest = row.digest;
  }
  const head = orm.select().from(auditHead).where(eq(auditHead.id, 1)).get();
  if ((head?.lines ?? 0) !== lines || (head?.digest ?? "") !== digest) {
    say(
      `the record ends after ${lines} lines with another line than its head names (${head?.lines ?? 0} lines): its end was cut off or put on by hand.`,
    );
  }
  if (noted && noted.lines > lines)
    say(`the head given names ${noted.lines} lines, and ${lines} are there: the end was cut off.`);
  return { lines, digest, faults };
}

function gap(last: number, next: number): string {
  const missing = next - last - 1;
  return `${missing} ${missing === 1 ? "line is" : "lines are"} missing before line ${next}.`;
}

const PIECE = 5_000;

function* linesOf(orm: Connection["orm"]): Generator<typeof audit.$inferSelect> {
  for (let from = 0; ; from += PIECE) {
    const piece = orm.select().from(audit).orderBy(asc(audit.id)).limit(PIECE).offset(from).all();
    yield* piece;
    if (piece.length < PIECE) return;
  }
}
