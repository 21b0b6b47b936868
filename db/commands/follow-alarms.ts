import { and, eq, isNull, ne, sql } from "drizzle-orm";
import { stateFrom } from "../../lib/alarms/alarm-state";
import { excursionWords } from "../../lib/evaluation/excursion-words";
import type { Excursion } from "../../lib/evaluation/progress";
import { firstAtOrAfter } from "../../lib/measurements/order";
import { type MeasurementSeries, type Origin, originAt } from "../../lib/measurements/series";
import { type Connection, once } from "../connection";
import { readSeries } from "../measurements/store";
import type { FeatureRow } from "../queries/features";
import { readPlanInForce } from "../queries/reaction-plans";
import { alarm } from "../schema-alarms";
import { addEvent, endedShelving } from "./alarm-events";
import { tell } from "./news";

/** Late measurements call somebody when they are not older than this before the latest, or before now: a week with its weekend. */
const LATE_IS_NEWS_MS = 7 * 24 * 60 * 60 * 1000;

/** In a first file, an excursion that was over longer ago than this before its end is history. */
const STILL_NEWS_MS = 24 * 60 * 60 * 1000;

type News = {
  feature: FeatureRow;
  /** Those whose judging gave the excursions. */
  measurements: MeasurementSeries;
  excursions: readonly Excursion[];
  /** Start of the excursion that still runs, if one does. */
  runningFirstAt: number | null;
  lastAt: number | null;
  /** The feature's last measurement before the news; null when these are its first. */
  lastBefore: number | null;
  /** Times of the signals known before late or corrected measurements; null when nothing came late. */
  knownSignalTimes: readonly number[] | null;
  /** Start of the excursion that ran before news that came in order: any other of them is new. */
  ranSince: number | null;
  /** True when `excursions` are all there are since then, so that an alarm without one has lost its evidence. */
  whole: boolean;
  /** Alarms that began before this belong to excursions that are not among `excursions`. */
  alarmsSince: number;
  at: number;
};

/**
 * Brings a feature's alarms up to date with its excursions; returns how many were raised.
 *
 * One excursion is one alarm: further signals join it, and it returns to normal with it. What came after the
 * measurements known before is news and raises one, also when it is over already: Friday's excursion is
 * Monday's alarm. So is an excursion that late or corrected measurements of the last week bring to light. A
 * history that is brought in as a feature's first file calls nobody but for its last day. An alarm whose excursion
 * is gone is marked, never deleted, and so are the notes on it.
 */
export function followAlarms(connection: Connection, news: News): number {
  const { feature, excursions, runningFirstAt, lastAt, lastBefore, whole, alarmsSince, at } = news;
  // Nearly every feature of nearly every posted piece.
  if (excursions.length === 0 && !whole) return 0;
  const newsFrom = lastBefore ?? (lastAt === null ? Number.POSITIVE_INFINITY : lastAt - STILL_NEWS_MS);
  const open = openQuery(connection).all({ featureId: feature.id });
  const known = open.filter(({ firstAt }) => firstAt >= alarmsSince);
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
    } else if (
      running ||
      excursion.latestAt > newsFrom ||
      isNewAtTheLatestMoment(excursion, news) ||
      isLateNews(excursion, news)
    ) {
      raise(connection, { feature, measurements: news.measurements, excursion, running, at });
      raised++;
    }
  }
  if (whole) {
    for (const row of known) if (!matched.has(row.id)) withdraw(connection, row, at);
  }
  return raised;
}

/** Several pieces may carry the same moment, and an excursion may begin and end within it. */
function isNewAtTheLatestMoment(
  { firstAt, latestAt }: Excursion,
  { whole, lastBefore, ranSince }: News,
): boolean {
  return !whole && latestAt === lastBefore && firstAt !== ranSince;
}

function isLateNews({ firstAt, latestAt }: Excursion, { knownSignalTimes, lastBefore, at }: News): boolean {
  if (knownSignalTimes === null || lastBefore === null) return false;
  // A machine whose clock was wrong may have measured next year: it must not silence what is measured today.
  if (latestAt < Math.min(lastBefore, at) - LATE_IS_NEWS_MS) return false;
  return !knownSignalTimes.some((time) => time >= firstAt && time <= latestAt);
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
  connection: Connection,
  {
    feature,
    measurements,
    excursion,
    running,
    at,
  }: Pick<News, "feature" | "measurements" | "at"> & { excursion: Excursion; running: boolean },
): void {
  const { firstAt, latestAt, rules } = excursion;
  const origin =
    originIn(measurements, firstAt) ??
    originIn(readSeries(connection, feature.id, momentOnly(firstAt)), firstAt);
  const { lastInsertRowid } = insertAlarm(connection).run(
    feature.id,
    firstAt,
    latestAt,
    excursionWords(rules, feature.plan.chart),
    at,
    running ? null : at,
    readPlanInForce(connection, feature).id,
    origin && JSON.stringify(origin),
  );
  const id = Number(lastInsertRowid);
  addEvent(connection, { alarmId: id, at, kind: "raised" });
  if (!running) addEvent(connection, { alarmId: id, at, kind: "returned" });
  tell(connection, { kind: "alarm", what: "raised", alarmId: id, featureId: feature.id });
}

const insertAlarm = once(({ sqlite }) =>
  sqlite.prepare(
    `insert into alarm (feature_id, first_at, latest_at, state, words, raised_at, returned_at, reaction_plan_id, origin)
     values (?, ?, ?, 'unacknowledged', ?, ?, ?, ?, ?)`,
  ),
);

/** Where the measurement that completed the first signal came from; null when there is none of that moment. */
function originIn(measurements: MeasurementSeries, at: number): Origin | null {
  const last = firstAtOrAfter(measurements, at + 1) - 1;
  return measurements.takenAt[last] === at ? originAt(measurements, last) : null;
}

const momentOnly = (at: number) => ({ from: at, to: at });

function follow(
  connection: Connection,
  row: typeof alarm.$inferSelect,
  {
    feature,
    excursion,
    running,
    at,
  }: { feature: FeatureRow; excursion: Excursion; running: boolean; at: number },
): void {
  const { firstAt, latestAt } = excursion;
  const goesOn = running && row.returnedAt !== null;
  const facts = {
    ...row,
    returnedAt: running ? null : (row.returnedAt ?? at),
    // Somebody's acknowledgement stands until the excursion that was over goes on.
    acknowledgedAt: goesOn ? null : row.acknowledgedAt,
    shelvedUntil: endedShelving(connection, row, at) ? null : row.shelvedUntil,
  };
  const { returnedAt, acknowledgedAt, shelvedUntil } = facts;
  const state = stateFrom(facts, at);
  const words = excursionWords(excursion.rules, feature.plan.chart);
  updateAlarm(connection).run(
    firstAt,
    latestAt,
    returnedAt,
    acknowledgedAt,
    shelvedUntil,
    state,
    words,
    row.id,
  );
  if (!running && row.returnedAt === null) addEvent(connection, { alarmId: row.id, at, kind: "returned" });
  if (goesOn) addEvent(connection, { alarmId: row.id, at, kind: "again" });
  const isAnother = state !== row.state || (returnedAt === null) !== (row.returnedAt === null);
  const news = { kind: "alarm", alarmId: row.id, featureId: feature.id } as const;
  if (isAnother) tell(connection, { ...news, what: "changed" });
  else if (latestAt !== row.latestAt) tell(connection, { ...news, what: "goes on" });
}

const updateAlarm = once(({ sqlite }) =>
  sqlite.prepare(
    `update alarm set first_at = ?, latest_at = ?, returned_at = ?, acknowledged_at = ?, shelved_until = ?, state = ?,
       words = ? where id = ?`,
  ),
);

function withdraw(connection: Connection, row: typeof alarm.$inferSelect, at: number): void {
  const withdrawnAt = at;
  connection.orm
    .update(alarm)
    .set({ withdrawnAt, state: stateFrom({ ...row, withdrawnAt }, at) })
    .where(eq(alarm.id, row.id))
    .run();
  addEvent(connection, {
    alarmId: row.id,
    at,
    kind: "withdrawn",
    note: "The measurements it rested on no longer give a signal.",
  });
  tell(connection, { kind: "alarm", what: "changed", alarmId: row.id, featureId: row.featureId });
}
