import { continueEvaluation } from "../../lib/evaluation/continue-evaluation";
import { PROGRESS_FORMAT, type Progress } from "../../lib/evaluation/progress";
import type { EvaluationSetup } from "../../lib/evaluation/setup";
import { type Standing, standingOf } from "../../lib/evaluation/standing";
import type { MeasurementSeries } from "../../lib/measurements/series";
import { type Connection, once } from "../connection";
import { readFeature } from "../queries/features";
import { setupOf } from "../queries/history";
import { lastArrival, type WaitingReader, waitingFeatures, waitingOf, waitingReader } from "./arrivals";

/*
 * A feature's judged state is stored in two rows: what every measurement changes, which is kept small, and
 * what only a complete subgroup changes. Reading puts the two together again.
 *
 * It may be behind: the arrivals are the truth, and what came in order since `to_arrival` leads from the stored state to
 * the present one, with the same judge and so to the last digit. A posted piece would otherwise write the states of
 * fifty features, twelve of the twenty pages that it costs; so only every twentieth of a feature does (`judgeNews`), and
 * whoever reads goes on from what is stored.
 */

/** Of so many requests that went on from a feature's state the last one stores it. */
export const STORED_EVERY = 20;

/** The figures of a standing that every measurement changes; they are in `progress` anyway. */
const OF_EVERY_MEASUREMENT = ["readings", "lastAt", "latest"] as const;

const statementsOf = once(({ sqlite }) => ({
  read: sqlite
    .prepare(
      `select s.progress, t.recent, s.to_arrival from feature_state s
         join feature_standing t on t.feature_id = s.feature_id where s.feature_id = ?`,
    )
    .raw(),
  readAll: sqlite
    .prepare(
      `select s.feature_id, s.to_arrival, s.progress, t.standing
         from feature_state s join feature_standing t on t.feature_id = s.feature_id`,
    )
    .raw(),
  latest: sqlite.prepare("select last_at, to_arrival from feature_state where feature_id = ?").raw(),
  saveState: sqlite.prepare(
    `insert into feature_state (feature_id, last_at, to_arrival, progress) values (?, ?, ?, ?)
       on conflict (feature_id) do update set last_at = excluded.last_at, to_arrival = excluded.to_arrival,
         progress = excluded.progress`,
  ),
  readRecent: sqlite.prepare("select recent, standing from feature_standing where feature_id = ?").raw(),
  saveStanding: sqlite.prepare(
    `insert into feature_standing (feature_id, recent, standing) values (?, ?, ?)
       on conflict (feature_id) do update set recent = excluded.recent, standing = excluded.standing`,
  ),
}));

type StoredState = { progress: Progress; toArrival: number };

function readStored(connection: Connection, featureId: number): StoredState | null {
  const row = statementsOf(connection).read.get(featureId) as [string, string, number] | undefined;
  if (!row) return null;
  const [progress, recent, toArrival] = row;
  return { progress: { ...JSON.parse(progress), recent: JSON.parse(recent) }, toArrival };
}

/** What the evaluation remembers of a feature after its latest measurement; null when it never judged it. */
export function readProgress(
  connection: Connection,
  featureId: number,
  setup: EvaluationSetup,
  waiting: WaitingReader = (feature, after) => waitingOf(connection, feature, after),
): Progress | null {
  const stored = readStored(connection, featureId);
  return stored && goneOn(stored.progress, waiting(featureId, stored.toArrival), setup);
}

/** A stored state is not the one from which what arrived since was judged: through a fault of the program, or by hand. */
export class CannotGoOn extends Error {
  override name = "CannotGoOn";
  constructor() {
    super(
      "A stored state cannot be gone on from with what arrived since. The verb rebuild computes it anew.",
    );
  }
}

/** Changes `progress`. */
function goneOn(progress: Progress, news: MeasurementSeries, setup: EvaluationSetup): Progress {
  if (news.count === 0) return progress;
  if (progress.format !== PROGRESS_FORMAT) {
    // Nobody goes on from it; but when the latest measurement was taken holds in every version.
    progress.lastAt = news.takenAt[news.count - 1] as number;
    return progress;
  }
  const continued = continueEvaluation(progress, news, setup);
  if (!continued) throw new CannotGoOn();
  return continued.progress;
}

/** When the latest measurement of a feature was taken that has been judged; null when it has none. */
export function latestAt(connection: Connection, featureId: number): number | null {
  const row = statementsOf(connection).latest.get(featureId) as [number | null, number] | undefined;
  if (!row) return null;
  const [lastAt, toArrival] = row;
  const news = waitingOf(connection, featureId, toArrival);
  return news.count > 0 ? (news.takenAt[news.count - 1] as number) : lastAt;
}

/** Stores what the evaluation remembers, writing the second row only when it has changed. */
export function saveProgress(
  connection: Connection,
  featureId: number,
  {
    progress,
    setup,
    toArrival = lastArrival(connection),
  }: { progress: Progress; setup: EvaluationSetup; toArrival?: number | undefined },
): void {
  const statements = statementsOf(connection);
  const { small, recent, standing } = textsOf(progress, setup);
  statements.saveState.run(featureId, progress.lastAt, toArrival, small);
  const stored = statements.readRecent.get(featureId) as string[] | undefined;
  if (stored?.[0] !== recent || stored?.[1] !== standing)
    statements.saveStanding.run(featureId, recent, standing);
}

function textsOf(progress: Progress, setup: EvaluationSetup) {
  const { recent, ...small } = progress;
  const standing: Partial<Standing> = standingOf(progress, setup);
  for (const name of OF_EVERY_MEASUREMENT) delete standing[name];
  return {
    small: JSON.stringify(small),
    recent: JSON.stringify(recent),
    standing: JSON.stringify(standing),
  };
}

/** Brings a feature's stored state up to its latest measurement; nothing is written where it is. */
export function storeCurrentState(
  connection: Connection,
  featureId: number,
  waiting: WaitingReader = (feature, after) => waitingOf(connection, feature, after),
): void {
  const stored = readStored(connection, featureId);
  const feature = stored && readFeature(connection, featureId);
  if (!stored || !feature) return;
  const news = waiting(featureId, stored.toArrival);
  if (news.count === 0) return;
  const setup = setupOf(connection, feature);
  const progress = goneOn(stored.progress, news, setup);
  if (progress.format === PROGRESS_FORMAT) {
    saveProgress(connection, featureId, { progress, setup });
  } else {
    const { recent: _, ...small } = progress;
    const { saveState } = statementsOf(connection);
    saveState.run(featureId, progress.lastAt, lastArrival(connection), JSON.stringify(small));
  }
}

/** A standing with what it was read from: the stored texts, and the latest arrival that waits of its feature. */
export type KnownStanding = { standing: Standing; progress: string; judged: string; waitsTo: number };

/**
 * Every feature's standing by its id, for the shift board; one read of small rows. One that would be read from the same
 * as in `known` is the same object as there: reading and comparing two thousand texts takes a fifth of parsing them, and
 * going on from them is not done twice for the same arrivals.
 */
export function readStandings(
  connection: Connection,
  known: ReadonlyMap<number, KnownStanding> = new Map(),
): Map<number, KnownStanding> {
  const standings = new Map<number, KnownStanding>();
  const waits = waitingFeatures(connection);
  const waiting = waitingReader(connection);
  for (const row of statementsOf(connection).readAll.all() as [number, number, string, string][]) {
    const [featureId, toArrival, progress, judged] = row;
    const last = waits.get(featureId)?.last ?? 0;
    const waitsTo = last > toArrival ? last : 0;
    const before = known.get(featureId);
    if (before?.progress === progress && before.judged === judged && before.waitsTo === waitsTo) {
      standings.set(featureId, before);
      continue;
    }
    const texts = waitsTo > 0 ? currentTexts(connection, featureId, waiting) : ([progress, judged] as const);
    standings.set(featureId, { standing: standingFrom(...texts), progress, judged, waitsTo });
  }
  return standings;
}

/** The texts as they would be stored now. */
function currentTexts(connection: Connection, featureId: number, waiting: WaitingReader): [string, string] {
  const feature = readFeature(connection, featureId);
  const setup = feature && setupOf(connection, feature);
  const progress = setup && readProgress(connection, featureId, setup, waiting);
  if (!progress) throw new Error(`Feature ${featureId} vanished while its standing was read.`);
  const { small, standing } = textsOf(progress, setup);
  return [small, standing];
}

function standingFrom(progress: string, judged: string): Standing {
  const { readings, lastAt, latest } = JSON.parse(progress) as Progress;
  // A figure put into a parsed object costs nothing, where a copy costs as much as the parsing.
  return Object.assign(JSON.parse(judged) as Standing, { readings, lastAt, latest });
}
