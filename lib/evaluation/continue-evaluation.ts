import { type MeasurementSeries, originAt } from "../measurements/series";
import { placeMeasurement, WAITS } from "../subgroups/form-subgroups";
import { type SubgroupSummary, summarise } from "../subgroups/summarise";
import { chartedSizeAt, chartedValueAt } from "./charted-values";
import { plannedSize } from "./evaluate";
import { followExcursion, type Judge, judgeOf, judgeSubgroup } from "./judge-subgroup";
import type { Excursion, Progress, Signal } from "./progress";
import { settledLimits } from "./settled-limits";
import type { EvaluationSetup } from "./setup";
import { isWaypoint } from "./waypoint";

export type Continuation = {
  progress: Progress;
  /** Signals that the new measurements completed. */
  signals: Signal[];
  /** Excursions that returned to normal or are running now. */
  excursions: Excursion[];
  /** Copies of the progress at places that have a waypoint, oldest first. */
  waypoints: Progress[];
};

/**
 * Goes on from `progress` with measurements that are all later than those it has seen; changes `progress`.
 *
 * The work depends on the new measurements only, not on the history. It gives what `evaluate` would give
 * for the whole, or null when only `evaluate` can tell: while trial limits still change with every
 * subgroup, and when a measurement joins a subgroup that has been judged already.
 *
 * With a span, `news` are the measurements from (inclusive) to (exclusive) of a series that may hold those of others.
 */
export function continueEvaluation(
  progress: Progress,
  news: MeasurementSeries,
  setup: EvaluationSetup,
  { from, to }: { from: number; to: number } = { from: 0, to: news.count },
): Continuation | null {
  const versions = settledLimits(progress, setup);
  if (!versions) return null;
  const run = new Run(judgeOf(setup, versions), progress);
  const waypoints: Progress[] = [];
  for (let i = from; i < to; i++) {
    if (isWaypoint(progress.readings) && (news.takenAt[i] as number) > (progress.lastAt as number)) {
      const latest = i > from ? originAt(news, i - 1) : progress.latest;
      waypoints.push(structuredClone({ ...progress, latest }));
    }
    const label = setup.plan.chart === "i-mr" ? 0 : (news.subgroup[i] as number);
    const went = run.take({
      value: chartedValueAt(news, i, setup),
      at: news.takenAt[i] as number,
      lot: news.lot[i] as number,
      label,
      sample: chartedSizeAt(news, i, setup),
    });
    if (!went) return null;
  }
  if (to > from) progress.latest = originAt(news, to - 1);
  const { excursion } = progress;
  if (excursion) run.excursions.push({ ...excursion, rules: [...excursion.rules] });
  return { progress, signals: run.signals, excursions: run.excursions, waypoints };
}

type Reading = {
  value: number;
  at: number;
  lot: number;
  label: number;
  /** Of a count: the sample in which it was found, in usual ones; null where that is the usual one. */
  sample: number | null;
};

class Run {
  readonly signals: Signal[] = [];
  readonly excursions: Excursion[] = [];

  constructor(
    readonly judge: Judge,
    readonly progress: Progress,
  ) {}

  /** False when the reading belongs to a subgroup that has been judged. */
  take(reading: Reading): boolean {
    const { progress } = this;
    const size = plannedSize(this.judge.setup);
    const number = placeMeasurement(
      progress.forming,
      { at: progress.readings, lot: reading.lot, label: reading.label },
      size,
    );
    progress.readings += 1;
    progress.lastAt = reading.at;
    if (reading.label !== 0) return this.takeLabelled(number, reading, size);
    if (number === WAITS) {
      progress.waiting.push(reading.value);
      return true;
    }
    this.judgeNewest();
    progress.newest = null;
    const summary = summarise([...progress.waiting, reading.value]);
    if (reading.sample !== null) summary.size = reading.sample;
    this.judgeOne(number, reading.at, summary);
    progress.waiting = [];
    return true;
  }

  private takeLabelled(number: number, { value, at }: Reading, size: number): boolean {
    const { progress } = this;
    const { newest } = progress;
    if (newest?.number === number) {
      if (newest.judged) return false;
      newest.values.push(value);
      newest.at = at;
    } else if (number === progress.forming.begun - 1 && number >= progress.judged) {
      this.judgeNewest();
      progress.newest = { number, values: [value], at, judged: false };
    } else {
      return false;
    }
    if ((progress.newest?.values.length ?? 0) >= size) this.judgeNewest();
    return true;
  }

  private judgeNewest(): void {
    const { newest } = this.progress;
    if (!newest || newest.judged) return;
    this.judgeOne(newest.number, newest.at, summarise(newest.values));
    newest.judged = true;
    newest.values = [];
  }

  private judgeOne(number: number, at: number, summary: SubgroupSummary): void {
    const judgement = judgeSubgroup(this.judge, this.progress, { number, at, summary });
    if (judgement.excluded) return;
    for (const signal of judgement.signals) this.signals.push(signal);
    const returned = followExcursion(this.progress, at, judgement.signals);
    if (returned) this.excursions.push(returned);
  }
}
