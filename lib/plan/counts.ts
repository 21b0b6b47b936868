import { fault, type Refusal } from "../words/refusal";
import type { AttributeChart, CountPlan } from "./feature-plan";

/** Pieces that are nonconforming or not, so that there are at most as many as were looked at. */
export function isOfPieces(chart: AttributeChart): boolean {
  return chart === "p" || chart === "np";
}

/** Drawn as a share of pieces or a number per unit instead of the count itself. */
export function isPerUnit(chart: AttributeChart): boolean {
  return chart === "p" || chart === "u";
}

/** Why a value is no count of this plan, as a sentence; null when it is one. */
export function countFault(value: number, { chart, size }: CountPlan): string | null {
  if (!Number.isInteger(value) || value < 0)
    return `The control plan charts counts, and ${value} is no whole number from 0 on.`;
  if (isOfPieces(chart) && value > size) {
    return `The control plan has ${size} pieces looked at, and ${value} nonconforming are more than that.`;
  }
  return null;
}

/** What contradicts itself in such a plan; null when nothing does. */
export function countPlanFault({ chart, size }: CountPlan): Refusal | null {
  if (!(size > 0 && Number.isFinite(size))) return fault("counts-on-nothing");
  if (isOfPieces(chart) && !(Number.isInteger(size) && size <= MOST_PIECES)) {
    return fault("counts-among", MOST_PIECES);
  }
  return null;
}

const MOST_PIECES = 1_000_000;
