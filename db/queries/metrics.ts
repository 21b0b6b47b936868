import { connectionOf, type Database } from "../connection";
import { measurementCount } from "../measurements/store";

export type PlantMetrics = {
  openAlarms: Record<string, number>;
  intakes: Record<string, number>;
  measurements: number;
  features: number;
  recordLines: number;
  sessions: number;
  databaseBytes: number;
};

/** Whether the database answers at all. */
export async function canRead(database: Database): Promise<boolean> {
  return connectionOf(database).sqlite.prepare("select count(*) from account").pluck().get() !== undefined;
}

/** Figures for a monitoring system. None of them reads single measurements. */
export async function plantMetrics(database: Database, { now }: { now: number }): Promise<PlantMetrics> {
  const connection = connectionOf(database);
  const { sqlite } = connection;
  const count = (sql: string, ...values: unknown[]) =>
    Number(
      sqlite
        .prepare(sql)
        .pluck()
        .get(...values) ?? 0,
    );
  const counts = (sql: string) => Object.fromEntries(sqlite.prepare(sql).raw().all() as [string, number][]);
  return {
    openAlarms: counts("select state, count(*) from alarm where state <> 'closed' group by state"),
    intakes: counts("select state, count(*) from intake group by state"),
    measurements: measurementCount(connection),
    features: count("select count(*) from feature"),
    recordLines: count("select lines from audit_head where id = 1"),
    sessions: count("select count(*) from session where expires_at > ?", now),
    databaseBytes:
      Number(sqlite.pragma("page_count", { simple: true })) *
      Number(sqlite.pragma("page_size", { simple: true })),
  };
}
