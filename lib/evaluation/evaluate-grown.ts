import { appended } from "../measurements/grown";
import { sliced } from "../measurements/order";
import { type MeasurementSeries, originAt } from "../measurements/series";
import { placeMeasurement, WAITS } from "../subgroups/form-subgroups";
import { summarise } from "../subgroups/summarise";
import { chartedSizes, chartedValues } from "./charted-values";
import { plannedSize } from "./evaluate";
import type { Evaluation } from "./evaluation";
import { followExcursion, judgeOf, judgeSubgroup } from "./judge-subgroup";
import type { Excursion, Signal } from "./progress";
import { settledLimits } from "./settled-limits";
import type { EvaluationSetup } from "./setup";

/**
 * What `evaluate` gives for a history that has grown at its end, from what it gave before: the judge goes on where it
 * stood, so that a reading more costs a reading and not a history. What was given before stays as it was.
 *
 * Null when only `evaluate` can tell: while trial limits still change with every subgroup, and where labels say which
 * readings belong together, for then a reading may join a subgroup that is judged already.
 *
 * @param series as it was when `before` was given, and more behind; `setup` as it was
 */
export function evaluateGrown(
  before: Evaluation,
  series: MeasurementSeries,
  setup: EvaluationSetup,
): Evaluation | null {
  const { newest, forming, readings, limits } = before.progress;
  const tail = sliced(series, readings, series.count);
  const isLabelled = setup.plan.chart !== "i-mr" && tail.subgroup.some((label) => label !== 0);
  if (
    settledLimits(before.progress, setup) === null ||
    newest !== null ||
    forming.open.length > 0 ||
    isLabelled
  )
    return null;

  const judge = judgeOf(setup, before.versions);
  // The limits in force stay the very ones among the versions.
  const progress = { ...structuredClone({ ...before.progress, limits: null }), limits };
  const size = plannedSize(setup);
  const charted = chartedValues(tail, setup);
  const sizes = chartedSizes(tail, setup);
  const values = charted === tail.value ? series.value : appended(before.values, charted);
  const made = { start: [] as number[], order: [] as number[] };
  const points = { at: [], size: [], mean: [], spread: [], excluded: [], limits: [] } as Record<
    "at" | "size" | "mean" | "spread" | "excluded" | "limits",
    number[]
  >;
  const signals: Signal[] = [];
  const excursions: Excursion[] = [];
  let begin = before.formed.start[before.formed.count] as number;

  for (let i = 0; i < tail.count; i++) {
    const waited = progress.forming.waiting;
    const place = { at: readings + i, lot: tail.lot[i] as number, label: 0 };
    const number = placeMeasurement(progress.forming, place, size);
    if (number === WAITS) continue;
    const members = [...waited, readings + i];
    made.order.push(...members);
    begin += members.length;
    made.start.push(begin);
    const summary = summarise(members.map((member) => values[member] as number));
    if (sizes !== null) summary.size = sizes[i] as number;
    const at = tail.takenAt[i] as number;
    const judgement = judgeSubgroup(judge, progress, { number, at, summary });
    points.at.push(at);
    points.size.push(summary.size);
    points.mean.push(summary.mean);
    points.spread.push(judgement.spread ?? Number.NaN);
    points.excluded.push(judgement.excluded ? 1 : 0);
    points.limits.push(judgement.limits ? before.versions.indexOf(judgement.limits) : -1);
    if (judgement.excluded) continue;
    for (const signal of judgement.signals) signals.push(signal);
    const returned = followExcursion(progress, at, judgement.signals);
    if (returned) excursions.push(returned);
  }
  progress.readings = series.count;
  progress.waiting = progress.forming.waiting.map((member) => values[member] as number);
  if (tail.count > 0) {
    progress.lastAt = tail.takenAt[tail.count - 1] as number;
    progress.latest = originAt(tail, tail.count - 1);
  }

  // One that was running then is told by what it has become.
  const ended = before.progress.excursion ? before.excursions.slice(0, -1) : before.excursions;
  const { excursion } = progress;
  const running = excursion ? [{ ...excursion, rules: [...excursion.rules] }] : [];
  const old = before.points;
  return {
    values,
    formed: {
      count: before.formed.count + made.start.length,
      start: appended(before.formed.start, made.start),
      order: appended(before.formed.order, made.order),
    },
    points: {
      count: old.count + made.start.length,
      at: appended(old.at, points.at),
      size: appended(old.size, points.size),
      mean: appended(old.mean, points.mean),
      spread: appended(old.spread, points.spread),
      excluded: appended(old.excluded, points.excluded),
      limits: appended(old.limits, points.limits),
    },
    versions: before.versions,
    signals: [...before.signals, ...signals],
    excursions: [...ended, ...excursions, ...running],
    progress,
    waypoints: [],
  };
}
