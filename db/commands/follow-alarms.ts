import { and, eq, isNull, ne, sql } from "drizzle-orm";
import { excursionWords } from "../../lib/evaluation/excursion-words";
import type { Excursion } from "../../lib/evaluation/progress";
import { type Connection, once } from "../connection";
import type { FeatureRow } from "../queries/features";
import { alarm, alarmEvent } from "../schema";

/** An excursion that returned to normal longer ago than this, before the feature's last measurement, is history. */
const STILL_NEWS_MS = 24 * 60 * 60 * 1000;

type News = {
  feature: FeatureRow;
  excursions: readonly Excursion[];
  /** Start of the excursion that still runs, if one does. */
  runningFirstAt: number | null;
  lastAt: number | null;
  /** True when `excursions` are all there are, so that an alarm without one has lost its evidence. */
  whole: boolean;
  at: number;
};

/**
 * Brings a feature's alarms up to date with its excursions; returns how many were raised.
 *
 * One excursion is one alarm: further signals join it, and it returns to normal with it. An excursion that
 * is over and a day old when it is first seen raises none: a history that is brought in does not call
 * anybody. An alarm whose excursion is gone is marked, never deleted, and so are the notes on it.
 */
export function followAlarms(connection: Connection, news: News): number {
  const { feature, excursions, runningFirstAt, lastAt, whole, at } = news;
  const known = openQuery(connection).all({ featureId: feature.id });
  const matched = new Set<number>();
  let raised = 0;

  for (const excursion of excursions) {
    const running = excursion.firstAt === runningFirstAt;
    // The same excursion may begin or end elsewhere after a late measurement; it still overlaps.
    const match = known.find(
      (row) => !matched.has(row.id) && row.firstAt <= excursion.latestAt && row.latestAt >= excursion.firstAt,
    );
    if (match) {
      matched.add(match.id);
      follow(connection, match, { feature, excursion, running, at });
    } else if (running || (lastAt !== null && excursion.latestAt >= lastAt - STILL_NEWS_MS)) {
      raise(connection, { feature, excursion, running, at });
      raised++;
    }
  }
  if (whole) {
    for (const row of known) if (!matched.has(row.id)) withdraw(connection, row.id, at);
  }
  return raised;
}

const openQuery = once(({ orm }) =>
  orm
    .select()
    .from(alarm)
    .where(
      and(
        eq(alarm.featureId, sql.placeholder("featureId")),
        isNull(alarm.withdrawnAt),
        ne(alarm.state, "closed"),
      ),
    )
    .prepare(),
);

function raise(
  { orm }: Connection,
  {
    feature,
    excursion,
    running,
    at,
  }: { feature: FeatureRow; excursion: Excursion; running: boolean; at: number },
): void {
  const { id } = orm
    .insert(alarm)
    .values({
      featureId: feature.id,
      firstAt: excursion.firstAt,
      latestAt: excursion.latestAt,
      state: "unacknowledged",
      words: excursionWords(excursion.rules, feature.plan.chart),
      raisedAt: at,
      returnedAt: running ? null : at,
    })
    .returning({ id: alarm.id })
    .get();
  orm.insert(alarmEvent).values({ alarmId: id, at, kind: "raised" }).run();
  if (!running) orm.insert(alarmEvent).values({ alarmId: id, at, kind: "returned" }).run();
}

function follow(
  { orm }: Connection,
  row: typeof alarm.$inferSelect,
  {
    feature,
    excursion,
    running,
    at,
  }: { feature: FeatureRow; excursion: Excursion; running: boolean; at: number },
): void {
  const { firstAt, latestAt } = excursion;
  const returnedAt = running ? null : (row.returnedAt ?? at);
  // Somebody's acknowledgement stands; the excursion's return is kept beside it.
  const state =
    running && row.state === "returned"
      ? "unacknowledged"
      : !running && row.state === "acknowledged"
        ? "returned"
        : row.state;
  orm
    .update(alarm)
    .set({ firstAt, latestAt, returnedAt, state, words: excursionWords(excursion.rules, feature.plan.chart) })
    .where(eq(alarm.id, row.id))
    .run();
  if (!running && row.returnedAt === null)
    orm.insert(alarmEvent).values({ alarmId: row.id, at, kind: "returned" }).run();
  if (running && row.returnedAt !== null)
    orm.insert(alarmEvent).values({ alarmId: row.id, at, kind: "again" }).run();
}

function withdraw({ orm }: Connection, alarmId: number, at: number): void {
  orm.update(alarm).set({ withdrawnAt: at }).where(eq(alarm.id, alarmId)).run();
  orm
    .insert(alarmEvent)
    .values({
      alarmId,
      at,
      kind: "withdrawn",
      note: "The measurements it rested on no longer give a signal.",
    })
    .run();
}
