import { ESTIMATORS_OF, type LimitsEstimator } from "../limits/estimators";
import type { MeasurementSeries } from "../measurements/series";
import type { FeaturePlan } from "../plan/feature-plan";
import { fault, type Refusal } from "../words/refusal";
import { countingBetween } from "./baseline";
import type { Evaluation } from "./evaluation";

type Window = { from: number; to: number };
type Asked = Window & { plan: Pick<FeaturePlan, "chart" | "counts">; series: MeasurementSeries };

/**
 * Ways to estimate sigma that a baseline allows, the usual one first: those of the chart, without the ones that
 * need equal sizes where these differ, and lot means where every subgroup is a lot of its own. None for counts,
 * whose sigma follows from their mean.
 *
 * @param from and `to`: moments of last readings, both inside
 */
export function estimatorsFor(evaluation: Evaluation, asked: Asked): LimitsEstimator[] {
  const { chart, counts } = asked.plan;
  if (counts) return [];
  const numbers = countingBetween(evaluation.points, asked);
  const sizes = new Set(numbers.map((number) => evaluation.points.size[number]!).filter((size) => size > 1));
  const hasOneSize = chart === "i-mr" || sizes.size <= 1;
  // With one size the weighted ranges are the mean range.
  const idle = hasOneSize ? FOR_UNEQUAL : NEEDS_EQUAL;
  const offered = ESTIMATORS_OF[chart].filter((one) => !idle.includes(one));
  return isLotEach(evaluation, numbers, asked) ? [...offered, "between-lots"] : [...offered];
}

const FOR_UNEQUAL: readonly LimitsEstimator[] = ["weighted-range"];
const NEEDS_EQUAL: readonly LimitsEstimator[] = ["mean-range", "mean-sd"];

/** Why an estimator does not go with a baseline; null when it does. */
export function estimatorFault(
  evaluation: Evaluation,
  { estimator, ...asked }: Asked & { estimator: LimitsEstimator },
): Refusal | null {
  const offered = estimatorsFor(evaluation, asked);
  if (offered.includes(estimator)) return null;
  if (asked.plan.counts) return fault("estimator-counts");
  if (estimator === "between-lots") return fault("estimator-lots");
  return NEEDS_EQUAL.includes(estimator) ? fault("estimator-unequal") : fault("estimator-other");
}

/** Whether each subgroup holds readings of one stated lot only, and no lot has two subgroups. */
function isLotEach(
  { formed }: Evaluation,
  numbers: readonly number[],
  { plan, series }: Pick<Asked, "plan" | "series">,
): boolean {
  if (plan.chart === "i-mr") return false;
  const seen = new Set<number>();
  for (const number of numbers) {
    const first = series.lot[formed.order[formed.start[number]!]!]!;
    if (first === 0 || seen.has(first)) return false;
    for (let k = formed.start[number]!; k < formed.start[number + 1]!; k++) {
      if (series.lot[formed.order[k]!] !== first) return false;
    }
    seen.add(first);
  }
  return numbers.length > 0;
}
