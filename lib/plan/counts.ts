import { fault, type Refusal } from "../words/refusal";
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

/** The same in words, with the column of the tidy file that is at fault. */
export function countRefusal(
  value: number,
  inspected: number,
  plan: CountPlan,
): { field: "value" | "inspected"; reason: string } | null {
  const found = countFault(value, inspected, plan);
  switch (found?.kind) {
    case undefined:
      return null;
    case "no-count":
      return {
        field: "value",
        reason: `The control plan charts counts, and ${value} is no whole number from 0 on.`,
      };
    case "many":
      return {
        field: "value",
        reason: Number.isNaN(inspected)
          ? `The control plan has ${found.size} pieces looked at, and ${value} nonconforming are more than that.`
          : `${found.size} pieces were inspected, and ${value} nonconforming are more than that.`,
      };
    case "size-missing":
      return {
        field: "inspected",
        reason:
          "On how many it was found is not stated, and the control plan has no usual number. Map the column of the number inspected, or enter a usual one in the plan.",
      };
    case "size-varies":
      return {
        field: "inspected",
        reason:
          plan.chart === "np"
            ? `The control plan counts among always ${found.planned} pieces, and this row has ${inspected}. An np chart takes one size: choose p in the plan for sizes that vary.`
            : `The control plan counts on always ${found.planned} units, and this row has ${inspected}. A c chart takes one size: choose u in the plan for sizes that vary.`,
      };
    case "size-broken":
      return {
        field: "inspected",
        reason: `Nonconforming pieces are counted among a whole number of them, at most ${MOST_PIECES}, and this row has ${inspected}.`,
      };
  }
}

/** What contradicts itself in such a plan; null when nothing does. */
export function countPlanFault({ chart, size }: CountPlan): Refusal | null {
  if (size === null) return isPerUnit(chart) ? null : fault("counts-one-size", chart === "np" ? "p" : "u");
  if (!(size > 0 && Number.isFinite(size))) return fault("counts-on-nothing");
  return isSize(chart, size) ? null : fault("counts-among", MOST_PIECES);
}

function isSize(chart: AttributeChart, size: number): boolean {
  return !isOfPieces(chart) || (Number.isInteger(size) && size <= MOST_PIECES);
}

const MOST_PIECES = 1_000_000;
