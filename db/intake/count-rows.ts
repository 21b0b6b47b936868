import type { Refusal } from "../../lib/intake/batch";
import { picked } from "../../lib/measurements/order";
import { inspectedAt, type MeasurementSeries } from "../../lib/measurements/series";
import { countRefusal } from "../../lib/plan/count-refusal";
import type { CountPlan } from "../../lib/plan/feature-plan";

/** The rows of a feature of counts that are counts; the others are refused, each with its reason. */
export function countRows(
  rows: MeasurementSeries,
  counts: CountPlan,
  refusals: Refusal[],
): MeasurementSeries {
  const good: number[] = [];
  for (let i = 0; i < rows.count; i++) {
    const value = rows.value[i]!;
    const wrong = countRefusal(value, inspectedAt(rows, i), counts);
    if (wrong === null) good.push(i);
    else refusals.push({ line: rows.line[i]!, ...wrong, raw: String(value) });
  }
  return good.length === rows.count ? rows : picked(rows, good);
}
