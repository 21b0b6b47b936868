import { type FeatureStudy, featureStudy, type StudyWindow } from "../capability/feature-study";
import type { ModelChoice } from "../capability/models/model";
import { plainModelStudy } from "../capability/models/model-study";
import type { CapabilityStudy } from "../capability/study";
import type { MeasurementSeries, NameColumn } from "../measurements/series";
import type { FeatureKind, FeaturePlan, KnownUnit, Tolerance } from "../plan/feature-plan";
import type {
  GaugeUsed,
  Listing,
  PlainStudy,
  StatedExclusion,
  StatedFeature,
  StatedLimits,
  StatedReadings,
} from "./content";

/** What a statement needs to know of a feature and its history. */
export type FeatureBehind = {
  feature: {
    id: number;
    name: string;
    kind: FeatureKind;
    unit: KnownUnit;
    nominal: number | null;
    resolution: number | null;
    keyCharacteristic: boolean;
    plan: FeaturePlan;
  };
  series: MeasurementSeries;
  limits: readonly StatedLimits[];
  exclusions: readonly StatedExclusion[];
  answered: readonly { from: number; to: number }[];
};

/** Texts behind the ids of a series. */
export type Names = Record<"lot" | "piece" | "gauge", ReadonlyMap<number, string>>;

export type AskedOfFeature = {
  window: StudyWindow;
  model: ModelChoice;
  gaugeShare: number | null;
  gaugeBasis: string | null;
  confidence: number;
};

/**
 * What can be stated of one feature over a window, with the readings behind it.
 *
 * The figures are those of `featureStudy`, the road on which pages and command line come to theirs; nothing is computed
 * in another way because somebody signs it. Names are looked up for the readings that count only.
 */
export async function stateFeature(
  { feature, series, limits, exclusions, answered }: FeatureBehind,
  { window, model, gaugeShare, gaugeBasis, confidence }: AskedOfFeature,
  namesOf: (column: NameColumn, ids: Iterable<number>) => Promise<ReadonlyMap<number, string>>,
): Promise<{ feature: StatedFeature; readings: StatedReadings }> {
  const { plan, unit, kind, resolution } = feature;
  const result = featureStudy({
    series,
    setup: {
      plan,
      unit,
      versions: limits.map(({ reason: _, frozenAt: __, by: ___, ...version }) => version),
      exclusions: exclusions.map(({ from, to, cause }) => ({ from, to, cause })),
    },
    window,
    resolution,
    gaugeShare,
    gaugeBasis,
    confidence,
    answered,
    model,
    kind,
  });
  const idsAt = (column: NameColumn) => new Set(Array.from(result.positions, (at) => series[column][at]!));
  const names: Names = {
    lot: await namesOf("lot", idsAt("lot")),
    piece: await namesOf("piece", idsAt("piece")),
    gauge: await namesOf("gauge", idsAt("gauge")),
  };
  const readings = readingsOf(feature.id, { result, series, names, isReduced: plan.reduction !== null });
  const { study, subgroups, pieces, lots, unresolvedSignals, excludedReadings, firstAt, lastAt } = result;
  return {
    readings,
    feature: {
      featureId: feature.id,
      name: feature.name,
      kind,
      unit,
      nominal: feature.nominal,
      resolution,
      keyCharacteristic: feature.keyCharacteristic,
      plan,
      model,
      gaugeShare,
      gaugeBasis,
      answered: answered.map(({ from, to }) => ({ from, to })),
      limits: [...limits],
      // Those before the window bear on its signals.
      exclusions: [...exclusions],
      study: plainStudy(study),
      within: result.limits.ok ? result.limits.value : null,
      subgroups,
      pieces,
      lots,
      unresolvedSignals,
      excludedReadings,
      firstAt,
      lastAt,
      listing: listingOf(readings, plan.tolerance),
    },
  };
}

function plainStudy({ modelStudy, ...study }: CapabilityStudy): PlainStudy {
  return { ...study, modelStudy: modelStudy && plainModelStudy(modelStudy) };
}

function readingsOf(
  featureId: number,
  {
    result: { positions, values },
    series,
    names,
    isReduced,
  }: { result: FeatureStudy; series: MeasurementSeries; names: Names; isReduced: boolean },
): StatedReadings {
  const at = Array.from(positions);
  const texts = (column: "lot" | "piece" | "gauge") =>
    at.map((position) => names[column].get(series[column][position]!) ?? "");
  return {
    featureId,
    takenAt: at.map((position) => series.takenAt[position]!),
    value: Array.from(values),
    measured: isReduced ? at.map((position) => series.value[position]!) : null,
    lot: texts("lot"),
    piece: texts("piece"),
    gauge: texts("gauge"),
  };
}

/** Least, mean and largest of what was measured, counted against the drawing; null without a reading. */
export function listingOf(
  { value, gauge }: Pick<StatedReadings, "value" | "gauge">,
  { lower, upper }: Tolerance,
): Listing | null {
  const count = value.length;
  if (count === 0) return null;
  let [min, max, mean, outside] = [value[0]!, value[0]!, 0, 0];
  const used = new Map<string, number>();
  for (const [i, each] of value.entries()) {
    min = Math.min(min, each);
    max = Math.max(max, each);
    mean += (each - mean) / (i + 1);
    if ((lower !== null && each < lower) || (upper !== null && each > upper)) outside++;
    const code = gauge[i] ?? "";
    used.set(code, (used.get(code) ?? 0) + 1);
  }
  return { count, min, mean, max, inside: count - outside, outside, gauges: gaugesUsed(used) };
}

/** The one that took most first; readings that state none are named so by the empty code. */
function gaugesUsed(used: ReadonlyMap<string, number>): GaugeUsed[] {
  return [...used].map(([code, count]) => ({ code, count })).sort((a, b) => b.count - a.count);
}
