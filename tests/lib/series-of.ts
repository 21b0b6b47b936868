import { emptySeries, type MeasurementSeries, type SourceKind } from "../../lib/measurements/series";

export const HOUR = 3_600_000;
/** Monday 6 January 2025, 00:00 UTC: some moment to begin at. */
export const START = Date.UTC(2025, 0, 6);

type Columns = Partial<Record<SourceKind | "lot" | "piece" | "subgroup", readonly number[]>>;

/** One reading an hour, each a piece of its own, with the columns stated. */
export function seriesOf(
  values: readonly number[],
  {
    partTemp,
    takenAt,
    inspected,
    ...ids
  }: Columns & {
    partTemp?: readonly number[];
    takenAt?: readonly number[];
    inspected?: readonly number[];
  } = {},
): MeasurementSeries {
  const series = emptySeries(values.length);
  for (let i = 0; i < values.length; i++) {
    series.value[i] = values[i]!;
    series.takenAt[i] = takenAt?.[i] ?? START + i * HOUR;
    series.piece[i] = i + 1;
    series.intake[i] = 1;
    series.line[i] = i + 2;
    if (partTemp) series.partTemp[i] = partTemp[i]!;
  }
  if (inspected) series.inspected = Float64Array.from(inspected);
  for (const [column, given] of Object.entries(ids)) series[column as SourceKind].set(given);
  return series;
}
