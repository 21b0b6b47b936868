import { continueEvaluation } from "../../lib/evaluation/continue-evaluation";
import { evaluate } from "../../lib/evaluation/evaluate";
import { type Excursion, PROGRESS_FORMAT, type Progress, type Signal } from "../../lib/evaluation/progress";
import type { MeasurementSeries } from "../../lib/measurements/series";
import { type Connection, once } from "../connection";
import { readProgress, saveProgress } from "../measurements/feature-state";
import { latestAt, readSeries } from "../measurements/store";
import type { FeatureRow } from "../queries/features";
import { setupOf } from "../queries/history";
import { followAlarms } from "./follow-alarms";

export type JudgeResult = { signals: number; alarms: number };

const statementsOf = once(({ sqlite }) => ({
  dropSignals: sqlite.prepare("delete from signal where feature_id = ?"),
  addSignal: sqlite.prepare(
    "insert into signal (feature_id, chart, at, rule, direction, at_time, members) values (?, ?, ?, ?, ?, ?, ?)",
  ),
  signalTimes: sqlite.prepare("select at_time from signal where feature_id = ?").pluck(),
}));

/**
 * Judges new measurements that all come after those judged before. Signals, state and alarms follow; the
 * work depends on the new measurements only, except where just the whole history can tell.
 */
export function judgeNews(
  connection: Connection,
  { feature, news, at }: { feature: FeatureRow; news: MeasurementSeries; at: number },
): JudgeResult {
  const setup = setupOf(connection, feature);
  const known = readProgress(connection, feature.id);
  const lastBefore = known?.lastAt ?? null;
  const ranSince = known?.excursion?.firstAt ?? null;
  const continued = known?.format === PROGRESS_FORMAT ? continueEvaluation(known, news, setup) : null;
  if (!continued) return judgeAnew(connection, { feature, at, lastBefore });

  saveProgress(connection, feature.id, { progress: continued.progress, setup });
  addSignals(connection, feature.id, continued.signals);
  const alarms = followAlarms(connection, {
    feature,
    excursions: continued.excursions,
    runningFirstAt: continued.progress.excursion?.firstAt ?? null,
    lastAt: continued.progress.lastAt,
    lastBefore,
    knownSignalTimes: null,
    ranSince,
    whole: false,
    at,
  });
  return { signals: continued.signals.length, alarms };
}

/**
 * Judges the whole history anew: after late measurements, corrections, an undone intake, other limits,
 * another plan, exclusions. Only derived rows are replaced; alarms and what people wrote stay.
 */
export function judgeAnew(
  connection: Connection,
  {
    feature,
    at,
    lastBefore = latestAt(connection, feature.id),
    isArrival = false,
  }: {
    feature: FeatureRow;
    at: number;
    /** Measurements came late or were corrected: an excursion in the past that nobody knew is news as well. */
    isArrival?: boolean;
    /** The feature's last measurement as it was judged before; what came later is news. */
    lastBefore?: number | null;
  },
): JudgeResult {
  const before = statementsOf(connection).signalTimes.all(feature.id) as number[];
  const { excursions, progress, signals } = storeDerived(connection, feature);
  const alarms = followAlarms(connection, {
    feature,
    excursions,
    runningFirstAt: progress.excursion?.firstAt ?? null,
    lastAt: progress.lastAt,
    lastBefore,
    knownSignalTimes: isArrival ? before : null,
    ranSince: null,
    whole: true,
    at,
  });
  return { signals: Math.max(0, signals.length - before.length), alarms };
}

/** Recomputes and stores what follows from a feature's measurements, and nothing else. */
export function storeDerived(
  connection: Connection,
  feature: FeatureRow,
): { excursions: Excursion[]; progress: Progress; signals: Signal[] } {
  const setup = setupOf(connection, feature);
  const { signals, excursions, progress } = evaluate(readSeries(connection, feature.id), setup);
  statementsOf(connection).dropSignals.run(feature.id);
  addSignals(connection, feature.id, signals);
  saveProgress(connection, feature.id, { progress, setup });
  return { excursions, progress, signals };
}

function addSignals(connection: Connection, featureId: number, signals: readonly Signal[]): void {
  const { addSignal } = statementsOf(connection);
  for (const { chart, at, rule, direction, atTime, members } of signals) {
    addSignal.run(featureId, chart, at, rule, direction, atTime, JSON.stringify(members));
  }
}
