import type { MeasurementSeries } from "../measurements/series";
import { reducedTo20 } from "../temperature/reduce";
import type { EvaluationSetup } from "./setup";

/**
 * The values that go on the chart: as measured, or reduced to 20 °C where the plan says so.
 *
 * A measurement without part temperature is charted as measured.
 */
export function chartedValues(
  series: MeasurementSeries,
  { plan, unit }: Pick<EvaluationSetup, "plan" | "unit">,
): Float64Array {
  const { reduction } = plan;
  if (!reduction || unit === "deg" || unit === "none") return series.value;
  const values = new Float64Array(series.count);
  for (let i = 0; i < series.count; i++) {
    const value = series.value[i] as number;
    values[i] = reducedTo20({ value, partTemp: series.partTemp[i] as number, reduction, unit });
  }
  return values;
}
