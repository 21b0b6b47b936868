import { featureStudy, WHOLE_HISTORY } from "../capability/feature-study";
import type { ModelChoice } from "../capability/models/model";
import type { CapabilityStudy } from "../capability/study";
import { evaluate, formChart } from "../evaluation/evaluate";
import type { Evaluation } from "../evaluation/evaluation";
import type { EvaluationSetup } from "../evaluation/setup";
import { FROM_THE_START } from "../evaluation/trial-limits";
import { estimateLimits } from "../limits/estimate-limits";
import { type ControlLimits, limitsForSize } from "../limits/limits-for-size";
import type { MeasurementSeries } from "../measurements/series";
import type { FeatureKind, FeaturePlan, KnownUnit, LimitsVersion } from "../plan/feature-plan";
import { summariseSubgroup } from "../subgroups/summarise";

/** Limits of the location and the spread chart for subgroups of one size. */
export type SizedLimits = {
  size: number;
  location: { lower: number; upper: number };
  spread: ControlLimits | null;
};

export type StudiedLimits = {
  centre: number;
  sigma: number;
  estimator: string;
  location: { lower: number; upper: number };
  spread: ControlLimits | null;
  /** For each size that occurs, when subgroups differ in size; null when they do not. */
  bySize: SizedLimits[] | null;
};

export type FeatureReport = {
  count: number;
  subgroups: number;
  /** Null while there is too little to draw limits from, or no variation. */
  limits: StudiedLimits | null;
  signals: Evaluation["signals"];
  capability: CapabilityStudy;
};

export type StudyFeatureInput = {
  series: MeasurementSeries;
  plan: FeaturePlan;
  unit: KnownUnit;
  /** How many of the first subgroups carry the limits; null takes all. */
  baseline: number | null;
  confidence: number;
  /** The distribution behind the indices, and what the feature is; normal when absent. */
  model?: ModelChoice | undefined;
  kind?: FeatureKind | undefined;
};

/**
 * Everything the product says of one feature's measurements when there is no plant around them: limits from a
 * baseline, signals over the whole, capability. The pages come to their figures by the same functions.
 */
export function studyFeature(input: StudyFeatureInput): FeatureReport {
  const { series, plan, unit, baseline, confidence, model, kind } = input;
  const bare: EvaluationSetup = { plan, unit, versions: [], exclusions: [] };
  const chart = formChart(series, bare);
  const summaries = Array.from({ length: chart.count }, (_, number) =>
    summariseSubgroup(chart.values, chart.formed, number),
  );
  const subgroups = baseline === null ? summaries : summaries.slice(0, baseline);
  const estimated = estimateLimits({ chart: plan.chart, subgroups });

  const versions: LimitsVersion[] = [];
  if (estimated.ok) {
    const { centre, sigma, estimator } = estimated.value;
    versions.push({ version: 1, effectiveFrom: FROM_THE_START, chart: plan.chart, centre, sigma, estimator });
  }
  // Written out: V8 takes each object that is spread for one of a new kind and compiles anew what reads it (0.08 of 1.5 s
  // of processor time of a study of 300 features).
  const setup: EvaluationSetup = { plan, unit, versions, exclusions: [] };
  const { values, sizes, formed, count, marks } = chart;
  const evaluation = evaluate(series, setup, { values, sizes, formed, count, marks, summaries });
  const { study } = featureStudy({
    series,
    setup,
    window: WHOLE_HISTORY,
    resolution: null,
    gaugeShare: null,
    confidence,
    model,
    kind,
    evaluation,
    summaries,
    estimated: baseline === null ? estimated : undefined,
  });
  return {
    count: series.count,
    subgroups: evaluation.points.count,
    limits: versions[0] ? drawn(versions[0], evaluation) : null,
    signals: versions[0] ? evaluation.signals : [],
    capability: study,
  };
}

function drawn(version: LimitsVersion, { points }: Evaluation): StudiedLimits {
  const tally = new Map<number, number>();
  for (const size of points.size) tally.set(size, (tally.get(size) ?? 0) + 1);
  const sizes = [...tally.keys()].sort((a, b) => a - b);
  const [usual] = [...tally.entries()].sort(([a, n], [b, m]) => m - n || b - a)[0] ?? [1];
  const { location, spread } = sized(version, usual);
  const { centre, sigma, estimator } = version;
  return {
    centre,
    sigma,
    estimator,
    location,
    spread,
    bySize: sizes.length > 1 ? sizes.map((size) => sized(version, size)) : null,
  };
}

function sized(version: LimitsVersion, size: number): SizedLimits {
  const { location, spread } = limitsForSize(version, size);
  return { size, location: { lower: location.lower, upper: location.upper }, spread };
}
