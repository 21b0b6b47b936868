import type { AttributeChart, CountPlan } from "./feature-plan";

/** Pieces that are nonconforming or not, so that there are at most as many as were looked at. */
export function isOfPieces(chart: AttributeChart): boolean {
  return chart === "p" || chart === "np";
}

/** Drawn as a share of pieces or a number per unit instead of the count itself; then samples may differ in size. */
export function isPerUnit(chart: AttributeChart): boolean {
  return chart === "p" || chart === "u";
}

/**
 * On how many pieces or units the figures of a feature rest: charted values are counts on so many, limits are for them.
 * What the plan says; where every count says itself on how many it was found, 100 pieces or one unit.
 */
export function usualSample({ chart, size }: CountPlan): number {
  return size ?? (isOfPieces(chart) ? 100 : 1);
}

/**
 * How a charted count and its limits are told: what to divide them by for the share or the number per unit (1 on a chart
 * of numbers), and with how many decimals, so that a piece more or less can be told in a sample of `size`.
 */
export function countFigures(plan: CountPlan, size = usualSample(plan)): { per: number; places: number } {
  if (!isPerUnit(plan.chart)) return { per: 1, places: 2 };
  return { per: usualSample(plan), places: Math.max(2, Math.min(6, 2 + Math.ceil(Math.log10(size)))) };
}

/** Limits of a charted count, cut at what is possible. */
export function cutToPossible<Limits extends { lower: number; upper: number }>(
  limits: Limits,
  plan: CountPlan,
): Limits {
  const most = isOfPieces(plan.chart) ? usualSample(plan) : Number.POSITIVE_INFINITY;
  return { ...limits, lower: Math.max(0, limits.lower), upper: Math.min(most, limits.upper) };
}

/** Why a value is no count of a plan. */
export type CountFault =
  | { kind: "no-count" }
  | { kind: "many"; size: number }
  | { kind: "size-missing" }
  | { kind: "size-varies"; planned: number }
  | { kind: "size-broken" };

/**
 * What is wrong with a value as a count of this plan; null when nothing is.
 *
 * @param inspected on how many it was found; NaN where that is what the plan says
 */
export function countFault(value: number, inspected: number, { chart, size }: CountPlan): CountFault | null {
  if (!Number.isInteger(value) || value < 0) return { kind: "no-count" };
  const isStated = !Number.isNaN(inspected);
  if (isStated && !isPerUnit(chart) && size !== null && inspected !== size)
    return { kind: "size-varies", planned: size };
  const on = isStated ? inspected : size;
  if (on === null) return { kind: "size-missing" };
  if (isStated && !isSize(chart, on)) return { kind: "size-broken" };
  return isOfPieces(chart) && value > on ? { kind: "many", size: on } : null;
}

/** Whether a sample can be of that size: a whole number of pieces, any amount of units. */
export function isSize(chart: AttributeChart, size: number): boolean {
  return !isOfPieces(chart) || (Number.isInteger(size) && size <= MOST_PIECES);
}

export const MOST_PIECES = 1_000_000;
