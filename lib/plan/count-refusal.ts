import { fault, type Refusal } from "../words/refusal";
import { countFault, isPerUnit, isSize, MOST_PIECES } from "./counts";
import type { CountPlan } from "./feature-plan";

/** What is wrong with a value as a count of this plan (`countFault`), in words, with the column of the tidy file that is at fault. */
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
