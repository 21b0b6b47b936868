import type { NameColumn, NumberColumn } from "../measurements/series";
import { NAME_COLUMNS } from "../measurements/series";
import type { KnownUnit } from "../plan/feature-plan";

/** Named things that a file repeats over and over; pieces are left out because they are new all the time. */
export type DictionaryColumn = Exclude<NameColumn, "piece">;
export const DICTIONARY_COLUMNS = NAME_COLUMNS.filter(
  (column) => column !== "piece",
) as readonly DictionaryColumn[];

/** A feature as the file states it first. Numbers are in its `unit`; null where the file states nothing. */
export type FeatureAsFiled = {
  /** Empty when the file names no part. */
  part: string;
  feature: string;
  nominal: number | null;
  /** Absolute limits, not deviations from nominal. */
  lower: number | null;
  upper: number | null;
  /** Null when the file states no unit; the feature's own unit applies then, or the plant's. */
  unit: KnownUnit | null;
  /** Length that expands, in mm, for the reduction to 20 °C. */
  length: number | null;
  /** Expansion coefficient per kelvin. */
  expansion: number | null;
  /** Physical line of the file (row of the sheet) that states it first. */
  firstLine: number;
};

/**
 * Everything a file has named so far. It only grows, so an index once given stays good for the whole file.
 * `features` is indexed from 0; the others from 1, entry 0 being the empty text that stands for "not stated".
 */
export type FileNames = { features: FeatureAsFiled[] } & Record<DictionaryColumn, string[]>;

/**
 * Accepted measurements of one file, as parallel columns of length `count`, in file order.
 *
 * `line` is the physical line where the row starts, `feature` an index into `names.features`, `takenAt` UTC
 * milliseconds (NaN where neither the file nor the mapping gives a time), `partTemp` °C (NaN where absent),
 * `piece` an index into `pieces` and every other name an index into `names` (0 for "not stated").
 * `value` is in the unit of the feature as filed. `inspected` is what each count was found on, NaN where a row does
 * not say, null where none does.
 *
 * The receiver may keep a batch, unless it asked for one that is filled again and again (`reusesBatch`). `pieces` is new with every batch and its entry 0 is the
 * empty text, so that a file of a million serials needs no more memory than one batch.
 */
export type TidyBatch = {
  count: number;
  line: Uint32Array;
  feature: Uint32Array;
  inspected: Float64Array | null;
  pieces: string[];
} & Record<NumberColumn, Float64Array> &
  Record<NameColumn, Uint32Array>;

/** A row (or, in the wide layout, a cell) that was not taken. */
export type Refusal = {
  line: number;
  /** The column of the tidy file that is at fault ("value", "taken_at" …), or "row". */
  field: string;
  /** A sentence: what was found and what to do. */
  reason: string;
  /** The row as it stands in the file, cut at 2,000 characters. */
  raw: string;
};

/** Something the person should know about rows that were taken. */
export type Notice = { line: number; message: string };

export type IntakeSink = {
  batch(batch: TidyBatch): void;
  refusal(refusal: Refusal): void;
  notice(notice: Notice): void;
};

/** `accepted` counts measurements, `rows` rows of data: one row of the wide layout holds several measurements. */
export type IntakeCounts = {
  rows: number;
  accepted: number;
  refused: number;
  blankRows: number;
  notices: number;
};
