import type { RuleCost } from "../../lib/alarm-budget/rule-cost";
import type { ChartKind } from "../../lib/plan/feature-plan";
import type { SimulationPlan } from "../../lib/run-length/rules-run-length";

/** What the form shows after it asked what the ticked rules cost; `rules` is how many were ticked. */
export type CostAnswer =
  | { ok: true; cost: RuleCost; chart: ChartKind; subgroupSize: number; rules: number }
  | { ok: false; message: string };

/** Standard errors of about 2 %, which is finer than anybody decides by. A fixed seed: a page read twice is the same. */
export const PAGE_SIMULATION: SimulationPlan = { seed: 1, runs: 2_000 };
