"use server";

import { z } from "zod";
import { ruleCost } from "../../lib/alarm-budget/rule-cost";
import { ATTRIBUTE_CHARTS, CHART_KINDS } from "../../lib/plan/feature-plan";
import { RULES } from "../../lib/rules/known-rules";
import { requireAction } from "../access";
import { words } from "../language/language";
import { type CostAnswer, PAGE_SIMULATION } from "./cost-answer";

const Asked = z.object({
  chart: z.enum(CHART_KINDS),
  subgroupSize: z.coerce.number().int().min(1).max(1000),
  rules: z.array(z.string()).max(RULES.length),
});

const OfCounts = z.object({ chart: z.enum(ATTRIBUTE_CHARTS) });

/** What a rule set that is ticked and not saved would cost. Saves nothing. */
export async function costOfRules(asked: unknown): Promise<CostAnswer> {
  const asker = await requireAction("costOfRules");
  if (!asker.ok) return { ok: false, message: asker.message };
  const { cost: said } = (await words()).plan.answers;
  if (OfCounts.safeParse(asked).success) {
    return { ok: false, message: said.counts };
  }
  const read = Asked.safeParse(asked);
  if (!read.success) {
    return { ok: false, message: said.size };
  }
  const { chart, subgroupSize } = read.data;
  const rules = RULES.filter(({ slug }) => read.data.rules.includes(slug));
  if (rules.length === 0) {
    return { ok: false, message: said.noRule };
  }
  if (chart === "i-mr" && subgroupSize !== 1) {
    return { ok: false, message: said.single(subgroupSize) };
  }
  const cost = ruleCost({ chart, subgroupSize, rules, simulation: PAGE_SIMULATION });
  return { ok: true, cost, chart, subgroupSize, rules: rules.length };
}
