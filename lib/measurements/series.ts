/** What a measurement can have come from, besides its lot. */
export const SOURCE_KINDS = ["fixture", "tool", "machine", "gauge", "operator", "setup"] as const;
export type SourceKind = (typeof SOURCE_KINDS)[number];

/** Columns that name something by its id; 0 stands for "not stated". */
export const NAME_COLUMNS = ["piece", "lot", ...SOURCE_KINDS, "subgroup"] as const;
export type NameColumn = (typeof NAME_COLUMNS)[number];

/** Columns that hold a number as measured; NaN in `partTemp` stands for "not stated". */
export const NUMBER_COLUMNS = ["takenAt", "value", "partTemp"] as const;
export type NumberColumn = (typeof NUMBER_COLUMNS)[number];

/** Where a measurement came from: the intake and the line (or position) in it. */
export const ORIGIN_COLUMNS = ["intake", "line"] as const;
export type OriginColumn = (typeof ORIGIN_COLUMNS)[number];

/**
 * One feature's measurements as parallel columns, in the order (takenAt, intake, line).
 *
 * A million readings as a million objects cost ten times the memory and most of the time of a chart,
 * so a history travels as typed arrays: `value[i]` was taken at `takenAt[i]` (UTC milliseconds) on
 * piece `piece[i]` and so on. Values are in the feature's unit, part temperatures in °C.
 *
 * `inspected` is on how many pieces or units each count was found: NaN where that is not stated, and null where no
 * measurement states it, as everywhere but with counts whose sample size varies.
 */
export type MeasurementSeries = { count: number; inspected: Float64Array | null } & Record<
  NumberColumn,
  Float64Array
> &
  Record<NameColumn | OriginColumn, Uint32Array>;

/** Where a measurement came from: ids of its lot and sources, 0 for what is not stated. */
export type Origin = Record<SourceKind | "lot", number>;

export function originAt(series: MeasurementSeries, position: number): Origin {
  const origin = { lot: series.lot[position] } as Origin;
  for (const kind of SOURCE_KINDS) origin[kind] = series[kind][position] as number;
  return origin;
}

/** On how many pieces or units a count was found; NaN where that is not stated. */
export function inspectedAt({ inspected }: MeasurementSeries, position: number): number {
  return inspected === null ? Number.NaN : (inspected[position] as number);
}

/** A column in which no measurement says on how many pieces or units it was found. */
export function noneInspected(count: number): Float64Array {
  return new Float64Array(count).fill(Number.NaN);
}

/** A series of `count` measurements with nothing stated: ids 0, part temperature NaN. */
export function emptySeries(count: number): MeasurementSeries {
  const series = { count, inspected: null } as MeasurementSeries;
  for (const column of NUMBER_COLUMNS) series[column] = new Float64Array(count);
  for (const column of [...NAME_COLUMNS, ...ORIGIN_COLUMNS]) series[column] = new Uint32Array(count);
  series.partTemp.fill(Number.NaN);
  return series;
}
