import { connectionOf, type Database, once } from "../connection";

/** What can happen, in so far as an open page may want to show it. */
export type News =
  /** Raised by measurements, or changed by them or by a person; one that goes on has a further signal and nothing else. */
  | { kind: "alarm"; what: "raised" | "changed" | "goes on"; alarmId: number; featureId: number }
  /** Measurements came or were taken back; `featureIds` is null when there are too many to name. */
  | { kind: "intake"; intakeId: number; featureIds: number[] | null }
  /** Limits, exclusions or the plan of a feature: what its chart says may be another. */
  | { kind: "feature"; featureId: number }
  /** A source was found to move, no longer moves, or has a new event. */
  | { kind: "drift"; partId: number | null };

export type NewsItem = { id: number; at: number } & News;

const statementsOf = once(({ sqlite }) => ({
  after: sqlite.prepare("select id, at, kind, detail from news where id > ? order by id limit ?").raw(),
  // The last id ever given, which a table that was pruned empty no longer shows.
  latest: sqlite.prepare("select seq from sqlite_sequence where name = 'news'").pluck(),
  oldest: sqlite.prepare("select min(id) from news").pluck(),
  measured: sqlite
    .prepare(
      `select 1 from news
         where id > ? and kind = 'intake'
           and (json_type(detail, '$.featureIds') = 'null'
                or exists (select 1 from json_each(detail, '$.featureIds') where value = ?))
         limit 1`,
    )
    .pluck(),
}));

/** News after the one with this id, in order, at most `limit` of them. Reads the primary key. */
export async function newsAfter(
  database: Database,
  { after, limit }: { after: number; limit: number },
): Promise<NewsItem[]> {
  const rows = statementsOf(connectionOf(database)).after.all(after, limit) as [
    number,
    number,
    string,
    string,
  ][];
  return rows.map(([id, at, kind, detail]) => ({ id, at, kind, ...JSON.parse(detail) }) as NewsItem);
}

/** Id of the latest news, 0 before any. A page asks before it reads what it shows, and then misses nothing. */
export async function latestNewsId(database: Database): Promise<number> {
  return (statementsOf(connectionOf(database)).latest.get() as number | undefined) ?? 0;
}

/**
 * Whether measurements of a feature were stored, corrected or taken back after the news with this id: whoever does so
 * tells it in the same transaction. Reads what came since, by the primary key.
 */
export async function measurementsTold(
  database: Database,
  { featureId, after }: { featureId: number; after: number },
): Promise<boolean> {
  return statementsOf(connectionOf(database)).measured.get(after, featureId) !== undefined;
}

/** Whether everything after the news with this id is still there. */
export async function reachesBackTo(database: Database, after: number): Promise<boolean> {
  const statements = statementsOf(connectionOf(database));
  const latest = (statements.latest.get() as number | undefined) ?? 0;
  const oldest = (statements.oldest.get() as number | null) ?? latest + 1;
  return after >= oldest - 1 && after <= latest;
}
