import { InvalidInput, requireFiniteNumbers } from "../checks";
import { type ControlLimits, limitsForSize, requireSigma, spreadFactors } from "../limits/limits-for-size";
import { standardiseLocation } from "../limits/standardise";
import { CHART_KINDS, type ChartKind } from "../plan/feature-plan";
import type { SubgroupSummary } from "../subgroups/summarise";

/**
 * What one feature is compared with, in its own unit: the nominal where the process is set to it, else the
 * mean it is known to have; and its within-subgroup sigma of single readings.
 */
export type ShortRunTarget = { target: number; sigma: number };

export type ShortRunPoint = {
  feature: string;
  /** Mean less target, in the feature's unit. */
  deviation: number;
  /** The deviation in its own sigma: z, a pure number. */
  location: number;
  /** The range, standard deviation or moving range as z, for the run rules; null where there is none. */
  spread: number | null;
  /** The same in sigma of single readings, as it is drawn; null with `spread`. */
  spreadInSigma: number | null;
};

/**
 * One chart for many features made in runs too short for charts of their own: what each has in common is how
 * far it lies from its target, in its own sigma.
 *
 *   location z = (x̄ − target)√n/σ      spread: R/σ, s/σ, or |zᵢ − zᵢ₋₁| of single readings
 *
 * Points come in the order in which they were made, whatever the feature; a trend through several part
 * numbers is the machine's or the tool's. Moving ranges are of standardised readings, so that they may span
 * two features. Limits: `shortRunLimits`.
 *
 * Plain deviations in millimetres would do where all features have one sigma; ours divides by each one's own,
 * which includes that case. A target or sigma that is wrong shows as a run of that feature alone.
 *
 * Source: ISO 7870-8 (short runs and small mixed batches) and ISO 7870-5 (from memory).
 *
 * @param points null where missing or excluded, which is passed over
 * @throws InvalidInput for an unknown chart, a feature without target, a sigma that is not above 0, a
 *   size that does not fit the chart, or a number that is not finite
 */
export function shortRunChart({
  chart,
  targets,
  points,
}: {
  chart: ChartKind;
  targets: ReadonlyMap<string, ShortRunTarget>;
  points: readonly ({ feature: string; subgroup: SubgroupSummary } | null)[];
}): (ShortRunPoint | null)[] {
  requireTargets(chart, targets);
  let last: number | null = null;
  return points.map((point, i) => {
    if (point === null) return null;
    const { feature, subgroup } = point;
    const known = targets.get(feature);
    if (!known) throw new InvalidInput("shortRunChart", `points[${i}].feature`, feature, "one with a target");
    const drawn = shortRunPoint(chart, known, { subgroup, before: last });
    last = drawn.location;
    return { feature, ...drawn };
  });
}

/** One point; `before` is the location of the one made before it, of whatever feature, null for the first. */
export function shortRunPoint(
  chart: ChartKind,
  { target, sigma }: ShortRunTarget,
  { subgroup, before }: { subgroup: SubgroupSummary; before: number | null },
): Omit<ShortRunPoint, "feature"> {
  const factors = spreadFactors(chart, subgroup.size);
  const location = standardiseLocation({ chart, centre: target, sigma }, subgroup);
  const spreadInSigma = chart === "i-mr" ? rangeFrom(before, location) : spreadOf(chart, subgroup, sigma);
  return {
    deviation: subgroup.mean - target,
    location,
    spread: factors && spreadInSigma !== null ? (spreadInSigma - factors.mean) / factors.sd : null,
    spreadInSigma,
  };
}

/**
 * Limits for subgroups of `size`: ±3 about 0 for the location, those of sigma 1 for the spread.
 *
 * @throws InvalidInput when the size does not fit the chart
 */
export function shortRunLimits(
  chart: ChartKind,
  size: number,
): { location: ControlLimits; spread: ControlLimits | null } {
  const { spread } = limitsForSize({ chart, centre: 0, sigma: 1 }, size);
  return { location: { lower: -3, centre: 0, upper: 3 }, spread };
}

function rangeFrom(last: number | null, location: number): number | null {
  return last === null ? null : Math.abs(location - last);
}

function spreadOf(chart: ChartKind, { size, range, sd }: SubgroupSummary, sigma: number): number | null {
  if (size === 1) return null;
  return (chart === "xbar-r" ? range : sd) / sigma;
}

/** @throws InvalidInput for an unknown chart, a target that is not finite or a sigma that is not above 0 */
export function requireTargets(chart: ChartKind, targets: ReadonlyMap<string, ShortRunTarget>): void {
  if (!CHART_KINDS.includes(chart)) {
    throw new InvalidInput("shortRunChart", "chart", chart, `one of ${CHART_KINDS.join(", ")}`);
  }
  for (const [feature, { target, sigma }] of targets) {
    requireFiniteNumbers("shortRunChart", { [`target of ${feature}`]: target });
    requireSigma(`shortRunChart (${feature})`, sigma);
  }
}
