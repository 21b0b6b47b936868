import { inspectedAt, type MeasurementSeries } from "../measurements/series";
import { usualSample } from "../plan/counts";
import type { CountPlan } from "../plan/feature-plan";
import { reducedTo20 } from "../temperature/reduce";
import type { EvaluationSetup } from "./setup";

/**
 * The values that go on the chart: as measured, or reduced to 20 °C where the plan says so. Counts that were found on
 * another number than usual are charted as the count on the usual number at the same rate.
 *
 * A measurement without part temperature is charted as measured.
 */
export function chartedValues(
  series: MeasurementSeries,
  { plan, unit }: Pick<EvaluationSetup, "plan" | "unit">,
): Float64Array {
  const { reduction, counts } = plan;
  if (counts && series.inspected !== null) return countsOnUsual(series, counts);
  if (!reduction || unit === "deg" || unit === "none") return series.value;
  const values = new Float64Array(series.count);
  for (let i = 0; i < series.count; i++) {
    const value = series.value[i] as number;
    values[i] = reducedTo20({ value, partTemp: series.partTemp[i] as number, reduction, unit });
  }
  return values;
}

/** The same of one measurement. */
export function chartedValueAt(
  series: MeasurementSeries,
  position: number,
  { plan, unit }: Pick<EvaluationSetup, "plan" | "unit">,
): number {
  const { reduction, counts } = plan;
  const value = series.value[position] as number;
  if (counts && series.inspected !== null)
    return countOnUsual(value, inspectedAt(series, position), usualSample(counts));
  if (!reduction || unit === "deg" || unit === "none") return value;
  return reducedTo20({ value, partTemp: series.partTemp[position] as number, reduction, unit });
}

/** d pieces of n are as many per piece as d·N/n of the usual N. */
function countsOnUsual(series: MeasurementSeries, counts: CountPlan): Float64Array {
  const usual = usualSample(counts);
  return series.value.map((count, i) => countOnUsual(count, inspectedAt(series, i), usual));
}

function countOnUsual(count: number, inspected: number, usual: number): number {
  return Number.isNaN(inspected) ? count : (count * usual) / inspected;
}

/**
 * The size of each count's sample in usual ones, n/N: a charted count d·N/n then has the variance of a mean of n/N
 * readings, and everything that judges a mean by its size judges it by its own sigma. Null where all are of the usual
 * size, as everything is that is no count.
 */
export function chartedSizes(
  series: MeasurementSeries,
  { plan: { counts } }: Pick<EvaluationSetup, "plan">,
): Float64Array | null {
  if (!counts || series.inspected === null) return null;
  const usual = usualSample(counts);
  return series.inspected.map((inspected) => inUsual(inspected, usual));
}

/** The same of one measurement. */
export function chartedSizeAt(
  series: MeasurementSeries,
  position: number,
  { plan: { counts } }: Pick<EvaluationSetup, "plan">,
): number | null {
  if (!counts || series.inspected === null) return null;
  return inUsual(inspectedAt(series, position), usualSample(counts));
}

function inUsual(inspected: number, usual: number): number {
  return Number.isNaN(inspected) ? 1 : inspected / usual;
}
