import type { Computed } from "../computed";
import { evaluate } from "../evaluation/evaluate";
import type { Evaluation } from "../evaluation/evaluation";
import { joinSignals } from "../evaluation/patterns";
import { type EvaluationSetup, isExcluded } from "../evaluation/setup";
import { type EstimatedLimits, estimateLimits } from "../limits/estimate-limits";
import type { Estimator } from "../limits/estimators";
import type { MeasurementSeries } from "../measurements/series";
import type { FeatureKind } from "../plan/feature-plan";
import { type SubgroupSummary, summariseSubgroup } from "../subgroups/summarise";
import type { GateRequirements } from "./gates";
import type { ModelChoice } from "./models/model";
import { type CapabilityStudy, capabilityStudy, type StudyInput } from "./study";

/** Which part of a history is studied. Bounds are UTC ms and belong to it; null leaves a side open. */
export type StudyWindow = {
  from: number | null;
  to: number | null;
  /** Ids of the lots that count; null for all, also those without a lot. */
  lots: ReadonlySet<number> | null;
};

export const WHOLE_HISTORY: StudyWindow = { from: null, to: null, lots: null };

function isWhole({ from, to, lots }: StudyWindow): boolean {
  return from === null && to === null && lots === null;
}

export type FeatureStudyInput = {
  series: MeasurementSeries;
  setup: EvaluationSetup;
  window: StudyWindow;
  /** The gauge's stated step in the feature's unit; null when not stated. */
  resolution: number | null;
  /** Share of the tolerance that the gauge's variation takes (0.12 for 12 %); null while not studied. */
  gaugeShare: number | null;
  /** Where that share is from, as a sentence that the gate quotes. */
  gaugeBasis?: string | null | undefined;
  lengthWords?: StudyInput["lengthWords"];
  confidence: number;
  estimator?: Estimator | undefined;
  requirements?: GateRequirements | undefined;
  /** The distribution behind the indices; the normal one when absent. */
  model?: ModelChoice | undefined;
  /** What the feature is, by which "auto" chooses a model. */
  kind?: FeatureKind | null | undefined;
  fitting?: StudyInput["fitting"];
  words?: StudyInput["words"];
  /** The judged history, when the caller has it already. */
  evaluation?: Evaluation | undefined;
  /** Of its subgroups, when the caller has those too. */
  summaries?: readonly SubgroupSummary[] | undefined;
  /** What the usual estimator finds in these summaries, when the caller has that too. */
  estimated?: Computed<EstimatedLimits> | undefined;
  /** Spans of alarms that a person has closed, in the time of the measurements. */
  answered?: readonly { from: number; to: number }[] | undefined;
};

export type FeatureStudy = {
  study: CapabilityStudy;
  /** Centre and within sigma of the window's own subgroups, by which Cp and Cpk are taken. */
  limits: Computed<EstimatedLimits>;
  /** Charted values that were studied, in the order of time, with their positions in the series. */
  values: Float64Array;
  positions: Uint32Array;
  subgroups: number;
  pieces: number;
  /** Null when no measurement in the window states its lot. */
  lots: number | null;
  /** Patterns completed inside the window that nobody has answered. */
  unresolvedSignals: number;
  excludedReadings: number;
  /** First and last measurement in the window; null when it is empty. */
  firstAt: number | null;
  lastAt: number | null;
};

/**
 * The capability study of one feature over a window of its history.
 *
 * Values are those on the chart: as measured, or at 20 °C. A reading counts when its subgroup's last
 * reading lies in the window (its own moment, while it waits for a subgroup), its lot is among the chosen
 * ones, and its subgroup is not left out with an assigned cause. Sigma within comes from the complete
 * subgroups of the window by the chart's usual estimator, not from the limits in force: an index speaks of
 * the pieces it names. A subgroup counts when all its readings do.
 *
 * Signals are those that the limits in force gave inside the window; a lasting pattern counts once, as in
 * `joinSignals`. With chosen lots, a pattern counts when its last subgroup is of the lots. One whose alarm a
 * person has closed is answered and does not count as unresolved; its readings still do.
 *
 * @throws InvalidInput as `capabilityStudy` and `estimateLimits` do
 */
export function featureStudy(input: FeatureStudyInput): FeatureStudy {
  const { series, setup } = input;
  const evaluation = input.evaluation ?? evaluate(series, setup);
  const chosen = choose(evaluation, input);

  const { estimator } = input;
  const known = chosen.summaries === input.summaries && estimator === undefined ? input.estimated : undefined;
  const limits = known ?? estimateLimits({ chart: setup.plan.chart, subgroups: chosen.summaries, estimator });
  const values = valuesAt(evaluation.values, chosen.positions);
  const pieces = countPieces(series, chosen.positions);
  const lots = countLots(series, chosen.positions);
  const answered = input.answered ?? [];
  const unresolvedSignals = joinSignals(
    evaluation.signals.filter((signal) => chosen.subgroupCounts[signal.at] === 1),
  ).filter(({ lastTime }) => !answered.some(({ from, to }) => from <= lastTime && lastTime <= to)).length;
  const withinIsZero = !limits.ok && limits.problem.code === "no-variation";

  const study = capabilityStudy({
    values,
    sigmaWithin: limits.ok ? limits.value.sigma : withinIsZero ? 0 : null,
    degreesOfFreedomWithin: limits.ok ? limits.value.degreesOfFreedom : null,
    estimator: limits.ok ? limits.value.estimator : null,
    subgroups: chosen.summaries.length,
    lots,
    unresolvedSignals: evaluation.versions.length > 0 ? unresolvedSignals : null,
    tolerance: setup.plan.tolerance,
    target: setup.plan.target,
    naturalBound: setup.plan.naturalBound,
    resolution: input.resolution,
    gaugeShare: input.gaugeShare,
    gaugeBasis: input.gaugeBasis,
    lengthWords: input.lengthWords,
    confidence: input.confidence,
    points: chosen.summaries.map((summary) => summary.mean),
    pieces,
    ...(input.requirements && { requirements: input.requirements }),
    model: input.model,
    kind: input.kind,
    fitting: input.fitting,
    words: input.words,
  });

  const { positions } = chosen;
  const timeAt = (i: number) => (positions.length > 0 ? series.takenAt[positions.at(i)!]! : null);
  return {
    study,
    limits,
    values,
    positions,
    subgroups: chosen.summaries.length,
    pieces,
    lots,
    unresolvedSignals,
    excludedReadings: chosen.excludedReadings,
    firstAt: timeAt(0),
    lastAt: timeAt(-1),
  };
}

type Chosen = {
  positions: Uint32Array;
  summaries: readonly SubgroupSummary[];
  /** 1 for subgroups that count as a whole. */
  subgroupCounts: Uint8Array;
  excludedReadings: number;
};

function choose(
  { values, formed, points }: Evaluation,
  { series, setup, window, summaries: known }: FeatureStudyInput,
): Chosen {
  if (isWhole(window) && setup.exclusions.length === 0) {
    return {
      positions: positionsOf(new Uint8Array(series.count).fill(1)),
      summaries: known ?? Array.from(points.at, (_, number) => summariseSubgroup(values, formed, number)),
      subgroupCounts: new Uint8Array(points.count).fill(1),
      excludedReadings: 0,
    };
  }
  const isInside = (at: number) =>
    (window.from === null || at >= window.from) && (window.to === null || at <= window.to);
  const isOfLots = (position: number) => window.lots === null || window.lots.has(series.lot[position]!);

  const counts = new Uint8Array(series.count);
  const inSubgroup = new Uint8Array(series.count);
  const subgroupCounts = new Uint8Array(points.count);
  const summaries: SubgroupSummary[] = [];
  let excludedReadings = 0;
  for (let number = 0; number < points.count; number++) {
    const from = formed.start[number]!;
    const to = formed.start[number + 1]!;
    for (let i = from; i < to; i++) inSubgroup[formed.order[i]!] = 1;
    if (!isInside(points.at[number]!)) continue;
    let chosen = 0;
    for (let i = from; i < to; i++) {
      const position = formed.order[i]!;
      if (!isOfLots(position)) continue;
      chosen++;
      if (points.excluded[number] === 1) excludedReadings++;
      else counts[position] = 1;
    }
    if (points.excluded[number] === 1 || chosen < to - from) continue;
    subgroupCounts[number] = 1;
    summaries.push(known?.[number] ?? summariseSubgroup(values, formed, number));
  }
  // Readings that wait for the rest of their subgroup are pieces like the others.
  for (let position = 0; position < series.count; position++) {
    const at = series.takenAt[position]!;
    if (inSubgroup[position] === 1 || !isInside(at) || !isOfLots(position)) continue;
    if (isExcluded(setup.exclusions, at)) excludedReadings++;
    else counts[position] = 1;
  }
  return { positions: positionsOf(counts), summaries, subgroupCounts, excludedReadings };
}

function positionsOf(marks: Uint8Array): Uint32Array {
  const positions = new Uint32Array(marks.length);
  let count = 0;
  for (let position = 0; position < marks.length; position++) {
    if (marks[position] === 1) positions[count++] = position;
  }
  return positions.subarray(0, count);
}

function valuesAt(values: Float64Array, positions: Uint32Array): Float64Array {
  const picked = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i++) picked[i] = values[positions[i]!]!;
  return picked;
}

/** Distinct pieces; a reading without a piece's name is taken for a piece of its own. */
function countPieces({ piece }: MeasurementSeries, positions: Uint32Array): number {
  let unnamed = 0;
  for (const position of positions) if (piece[position] === 0) unnamed++;
  return distinct(piece, positions) + unnamed;
}

function countLots({ lot }: MeasurementSeries, positions: Uint32Array): number | null {
  return distinct(lot, positions) || null;
}

/**
 * How many different ids above 0 stand at the positions. Ids are given in the order in which names appear, so
 * most series bring them in rising order, and only what falls back has to be looked up.
 */
function distinct(ids: Uint32Array, positions: Uint32Array): number {
  let largest = 0;
  let rising = 0;
  let i = 0;
  for (; i < positions.length; i++) {
    const id = ids[positions[i]!]!;
    if (id < largest && id !== 0) break;
    if (id > largest) {
      largest = id;
      rising++;
    }
  }
  if (i === positions.length) return rising;
  const found = new Set<number>();
  for (const position of positions) if (ids[position] !== 0) found.add(ids[position]!);
  return found.size;
}
