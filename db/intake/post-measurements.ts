import { createHash } from "node:crypto";
import { lt } from "drizzle-orm";
import type { Signal } from "../../lib/evaluation/progress";
import type { Refusal } from "../../lib/intake/batch";
import { RepeatedRows, type TidyRow } from "../../lib/intake/repeated-rows";
import type { ZoneOffset } from "../../lib/intake/zone";
import type { Actor } from "../commands/audit";
import { type Connection, connectionOf, type Database, once, write } from "../connection";
import { giveBackKnownPlant, type KnownPlant, takeKnownPlant } from "../measurements/known-plant";
import { type ApiKey, markUse } from "../people/api-keys";
import { postAnswer } from "../schema-live";
import { type ReadRows, readRows, storeRows } from "./import-rows";
import { inTurn } from "./posts-in-turn";
import type { SignalledFeature } from "./store-staged";

/** What one request brings: measurements that could be read, and those whose fields were not what they must be. */
export type Posted = {
  rows: readonly TidyRow[];
  refusals: readonly Refusal[];
  /** Where each row stands in the request: "pieces[0].measurements[3]" for the fourth. By line, from 1. */
  paths: readonly string[];
};

export type RefusedMeasurement = { row: number; path: string; field: string; reason: string };

export type PostResult =
  /** Stored and judged, or the same request again; `answer` is what goes back, as JSON. */
  | { kind: "stored"; answer: string; isRepeated: boolean }
  /** Not one measurement could be taken, so nothing was stored. */
  | { kind: "refused"; refused: RefusedMeasurement[]; count: number }
  /** The idempotency key came before with another body. */
  | { kind: "conflict" };

/** An answer names this many of each; the page of the intake has all. */
const MOST_LISTED = 500;

/** After this long the same request would be looked at afresh; by then its measurements are duplicates. */
const REMEMBERED_MS = 7 * 24 * 3_600_000;

/**
 * Takes measurements that a machine posted: checked, stored and judged in one transaction, which may be shared with
 * others that wait, through the same code as a file. When this returns, all of it is on the disk, alarms included.
 *
 * A request with an idempotency key is taken once: sent again, it gets the first answer and adds nothing.
 */
export async function postMeasurements(
  database: Database,
  {
    key,
    idempotencyKey,
    body,
    posted,
    zone,
    actor,
    now,
  }: {
    key: ApiKey;
    idempotencyKey: string | null;
    body: string;
    posted: () => Posted;
    zone: ZoneOffset;
    actor: Actor;
    /** The machine's clock, by which keys and answers age. */
    now: number;
  },
): Promise<PostResult> {
  const digest = createHash("sha256").update(body).digest("hex");
  const asked = { apiKeyId: key.id, idempotencyKey, digest };
  const known = answered(connectionOf(database), asked);
  if (known) return known;

  const { rows, refusals, paths } = posted();
  let read = readRows(rows, { zone, refusals, repeated });
  try {
    if (read.accepted === 0) {
      const { refusals: all, refused } = read.remarks;
      return { kind: "refused", refused: listed(all, paths), count: refused };
    }
    return await inTurn(database, {
      takenAt: read.staging.firstTakenAt,
      store: (connection, isAgain): PostResult => {
        // The same request may have come through another connection since.
        const meanwhile = answered(connection, asked);
        if (meanwhile) return meanwhile;
        // Storing changes what was read in place.
        if (isAgain) read = readRows(rows, { zone, refusals, repeated });
        const plant = takeKnownPlant(connection);
        const answer = JSON.stringify(store(connection, { key, digest, read, paths, plant, actor }));
        markUse(connection, key, now);
        if (idempotencyKey !== null)
          statementsOf(connection).addAnswer.run(key.id, idempotencyKey, digest, 200, answer, now);
        giveBackKnownPlant(connection, plant);
        return { kind: "stored", answer, isRepeated: false };
      },
    });
  } finally {
    read.staging.close();
  }
}

/** What machines post again and again holds for every plant that this process may have open. */
const repeated = new RepeatedRows();

function store(
  connection: Connection,
  {
    key,
    digest,
    read,
    paths,
    plant,
    actor,
  }: {
    key: ApiKey;
    digest: string;
    read: ReadRows;
    paths: readonly string[];
    plant: KnownPlant;
    actor: Actor;
  },
) {
  const statements = statementsOf(connection);
  const alarmsBefore = statements.latestAlarm.get() as number;
  const { id, stored, message, ...counts } = storeRows(connection, {
    rows: read,
    kind: "post",
    name: `key ${key.name}`,
    digest,
    newFeatures: { subgroupSize: null },
    plant,
    what: "request",
    actor,
  });
  return {
    intake: id,
    accepted: counts.accepted,
    refused: counts.refused,
    duplicates: counts.duplicates,
    corrections: counts.corrections,
    late: counts.late,
    refusals: listed(read.remarks.refusals, paths),
    signals: signalsIn(connection, stored.signalled, read.staging.firstTakenAt),
    alarms: counts.alarms === 0 ? [] : statements.alarmsSince.all(alarmsBefore, MOST_LISTED),
    notices: read.remarks.notices.map(({ line, message: text }) => ({ row: line, message: text })),
    message,
  };
}

function listed(refusals: readonly Refusal[], paths: readonly string[]): RefusedMeasurement[] {
  return refusals.slice(0, MOST_LISTED).map(({ line, field, reason }) => {
    const base = paths[line - 1] ?? "";
    return {
      row: line,
      path: field === "row" ? base : [base, field].filter(Boolean).join("."),
      field,
      reason,
    };
  });
}

/** Signals that what was stored has completed, feature by feature. */
function signalsIn(connection: Connection, signalled: readonly SignalledFeature[], firstTakenAt: number) {
  const found: Record<"part" | "feature" | "chart" | "rule" | "direction" | "taken_at", string>[] = [];
  for (const { feature, signals } of signalled) {
    const completed = signals ?? signalsSince(connection, feature.id, firstTakenAt);
    for (const { chart, rule, direction, atTime } of completed.slice(0, MOST_LISTED - found.length)) {
      const [part, taken_at] = [feature.part.number, new Date(atTime).toISOString()];
      found.push({ part, feature: feature.name, chart, rule, direction, taken_at });
    }
  }
  return found;
}

type SignalRow = Pick<Signal, "chart" | "rule" | "direction" | "atTime">;

function signalsSince(connection: Connection, featureId: number, from: number): SignalRow[] {
  return statementsOf(connection).signalsSince.all(featureId, from, MOST_LISTED) as SignalRow[];
}

/** What this key was answered to the same idempotency key; null when it is new, or none was sent. */
function answered(
  connection: Connection,
  { apiKeyId, idempotencyKey, digest }: { apiKeyId: number; idempotencyKey: string | null; digest: string },
): PostResult | null {
  if (idempotencyKey === null) return null;
  const row = statementsOf(connection).answer.get(apiKeyId, idempotencyKey) as
    | { bodyDigest: string; answer: string }
    | undefined;
  if (!row) return null;
  if (row.bodyDigest !== digest) return { kind: "conflict" };
  return { kind: "stored", answer: row.answer, isRepeated: true };
}

const statementsOf = once(({ sqlite }) => ({
  answer: sqlite.prepare(
    "select body_digest as bodyDigest, answer from post_answer where api_key_id = ? and idempotency_key = ?",
  ),
  addAnswer: sqlite.prepare(
    `insert into post_answer (api_key_id, idempotency_key, body_digest, status, answer, at)
       values (?, ?, ?, ?, ?, ?)`,
  ),
  latestAlarm: sqlite.prepare("select coalesce(max(id), 0) from alarm").pluck(),
  alarmsSince: sqlite.prepare(
    `select a.id, p.number as part, f.name as feature, a.words from alarm a
       join feature f on f.id = a.feature_id join part p on p.id = f.part_id
       where a.id > ? order by a.id limit ?`,
  ),
  signalsSince: sqlite.prepare(
    `select chart, rule, direction, at_time as atTime from signal where feature_id = ? and at_time >= ?
       order by at limit ?`,
  ),
}));

/** Forgets answers after a week; returns how many those were. */
export async function pruneAnswers(database: Database, { now }: { now: number }): Promise<number> {
  return write(
    database,
    ({ orm }) =>
      orm
        .delete(postAnswer)
        .where(lt(postAnswer.at, now - REMEMBERED_MS))
        .run().changes,
  );
}
