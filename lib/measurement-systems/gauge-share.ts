import { InvalidInput } from "../checks";
import { scaleBetween } from "../intake/units";
import type { FeaturePlan, KnownUnit } from "../plan/feature-plan";
import { errorAgainstTolerance, type StatedError } from "./permissible-error";

/** A crossed study as far as other features care: when, on what, and the gauge's standard deviation in its unit. */
export type CrossedFact = {
  id: number;
  featureId: number | null;
  unit: KnownUnit;
  /** YYYY-MM-DD. */
  madeOn: string;
  grr: number;
};

/** What a gauge takes of one feature's tolerance, and how that is known. */
export type GaugeShare = {
  /** 6σ of the gauge, or twice its permissible error, over the width of the tolerance. */
  share: number;
  /** Standard deviation of the gauge in the feature's unit; null where only its permissible error is known. */
  sigma: number | null;
  basis:
    | { kind: "study"; id: number; madeOn: string; isOfThisFeature: boolean }
    | { kind: "permissible-error"; stated: StatedError; length: number };
};

export type GaugedFeature = {
  id: number;
  unit: KnownUnit;
  nominal: number | null;
  /** Length that expands, in mm: the size of what is measured where there is no nominal. */
  length: number | null;
  plan: Pick<FeaturePlan, "tolerance" | "naturalBound">;
};

/**
 * The width against which a gauge is judged: U − L, or from the natural bound to the one limit there is.
 *
 * A position of at most 0.2 can only lie between 0 and 0.2. Null where one limit stands alone.
 */
export function gaugedWidth({ tolerance, naturalBound }: GaugedFeature["plan"]): number | null {
  const lower = tolerance.lower ?? naturalBound;
  const upper = tolerance.upper ?? naturalBound;
  return lower !== null && upper !== null && upper > lower ? upper - lower : null;
}

/**
 * What the gauge takes of the feature's tolerance, by the best that is known of it:
 *
 *   1. the newest crossed study made on this feature, 2. the newest crossed study of the gauge in a unit of the same
 *   sort, 6σ / width each, 3. its maximum permissible error at the feature's length, 2E / width
 *
 * Studies that were superseded or withdrawn are not to be given. A study on another feature stands in because the gauge
 * is the same; part and clamping are not, so the basis says it.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition (from memory) for 6σ/tolerance; the order is our choice.
 *
 * @returns null when there is no width, no study and no stated error
 * @throws InvalidInput for a standard deviation below 0 or not finite, and as `permissibleError`
 */
export function gaugeShare(
  feature: GaugedFeature,
  { studies, stated }: { studies: readonly CrossedFact[]; stated: StatedError | null },
): GaugeShare | null {
  const width = gaugedWidth(feature.plan);
  if (width === null) return null;
  const usable = studies
    .map((study) => ({ study, sigma: converted(study.grr, study.unit, feature.unit) }))
    .filter((one): one is { study: CrossedFact; sigma: number } => one.sigma !== null)
    .sort((a, b) => b.study.madeOn.localeCompare(a.study.madeOn) || b.study.id - a.study.id);
  const best = usable.find(({ study }) => study.featureId === feature.id) ?? usable[0];
  if (best) {
    const { study, sigma } = best;
    if (!(sigma >= 0 && Number.isFinite(sigma)))
      throw new InvalidInput("gaugeShare", `studies[${study.id}].grr`, study.grr, "at least 0");
    return {
      share: (6 * sigma) / width,
      sigma,
      basis: {
        kind: "study",
        id: study.id,
        madeOn: study.madeOn,
        isOfThisFeature: study.featureId === feature.id,
      },
    };
  }
  const toMm = converted(1, feature.unit, "mm");
  if (stated === null || toMm === null || feature.unit === "none") return null;
  const length = lengthOf(feature, toMm);
  const { share } = errorAgainstTolerance({ stated, length, toleranceWidth: width * toMm, further: 0 });
  return { share, sigma: null, basis: { kind: "permissible-error", stated, length } };
}

/** In mm: the nominal of a size, else the length that expands, else 0, where only A counts. */
export function lengthOf({ nominal, length }: GaugedFeature, toMm: number): number {
  return nominal !== null ? Math.abs(nominal) * toMm : (length ?? 0);
}

/** A length or angle in another unit; null between sorts, and where one side states no unit and the other does. */
export function converted(value: number, from: KnownUnit, to: KnownUnit): number | null {
  if (from === to) return value;
  if (from === "none" || to === "none") return null;
  const scale = scaleBetween({ from, to });
  if (scale === null || scale === "none") return scale === null ? value : null;
  return (value * scale.times * 10 ** scale.shift) / scale.over;
}

/**
 * Classes of pieces that the gauge tells apart in running production, from the spread within subgroups there:
 *
 *   ndc = ⌊1.41 √(σ² − σ gauge²) / σ gauge⌋
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition (from memory), with the process in place of the study's parts.
 *
 * @returns null for a gauge without spread or where the gauge explains all that is seen
 */
export function classesInProcess({ seen, gauge }: { seen: number; gauge: number }): number | null {
  if (!(gauge > 0)) return null;
  return seen > gauge ? Math.floor((1.41 * Math.sqrt((seen - gauge) * (seen + gauge))) / gauge) : 0;
}
