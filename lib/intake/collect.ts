import { inOrder, sliced } from "../measurements/order";
import {
  emptySeries,
  type MeasurementSeries,
  NAME_COLUMNS,
  type NameColumn,
  NUMBER_COLUMNS,
} from "../measurements/series";
import type { FeatureAsFiled, FileNames, TidyBatch } from "./batch";

/** One feature of a file with its measurements in time order; names are indexes of the file. */
export type FiledSeries = { filed: FeatureAsFiled; series: MeasurementSeries };

/** What a study may look at besides value and time. */
export type CollectedColumn = NameColumn | "partTemp";
export const EVERY_COLUMN: readonly CollectedColumn[] = [...NAME_COLUMNS, "partTemp"];

/** The columns of a batch that are kept until the file is at its end. */
type Rows = Pick<TidyBatch, "count" | "line" | "feature" | "takenAt" | "value"> &
  Partial<Pick<TidyBatch, CollectedColumn>>;

/**
 * Gathers a whole file's measurements by feature, in memory, for a study that stores nothing.
 *
 * A counting sort over the batches: one pass tells how many rows each feature has, a second puts them there. Columns
 * that nobody asks for, and those in which the file states nothing, are neither kept nor put anywhere.
 */
export class Collector {
  private readonly rows: Rows[] = [];
  private readonly pieceNumbers = new Map<string, number>();

  constructor(
    private readonly names: FileNames,
    private readonly wanted: readonly CollectedColumn[] = EVERY_COLUMN,
  ) {}

  /** Takes what it needs out of a batch, which may be filled again afterwards. */
  add(batch: TidyBatch): void {
    const { count } = batch;
    const rows: Rows = {
      count,
      line: batch.line.slice(0, count),
      feature: batch.feature.slice(0, count),
      takenAt: batch.takenAt.slice(0, count),
      value: batch.value.slice(0, count),
    };
    for (const column of this.wanted) {
      if (column === "piece") rows.piece = this.numberedPieces(batch);
      else if (column === "partTemp") rows.partTemp = batch.partTemp.slice(0, count);
      else if (this.names[column].length > 1) rows[column] = batch[column].slice(0, count);
    }
    this.rows.push(rows);
  }

  /** Pieces are numbered within a batch; a study counts them over the file. */
  private numberedPieces({ count, piece, pieces }: TidyBatch): Uint32Array {
    const numbers = new Uint32Array(pieces.length);
    for (let index = 1; index < pieces.length; index++) {
      const serial = pieces[index] as string;
      let number = this.pieceNumbers.get(serial);
      if (number === undefined) {
        number = this.pieceNumbers.size + 1;
        this.pieceNumbers.set(serial, number);
      }
      numbers[index] = number;
    }
    const numbered = new Uint32Array(count);
    for (let i = 0; i < count; i++) numbered[i] = numbers[piece[i] as number] as number;
    return numbered;
  }

  /** Features in the order in which the file names them; those without a measurement are left out. */
  features(): FiledSeries[] {
    const { features } = this.names;
    const starts = this.startsOf(features.length);
    const all = emptySeries(starts[features.length] as number);
    const next = starts.slice();
    for (const rows of this.rows) {
      const places = new Uint32Array(rows.count);
      for (let i = 0; i < rows.count; i++) places[i] = next[rows.feature[i] as number]!++;
      for (const column of NUMBER_COLUMNS) putNumbers(rows[column], places, all[column]);
      for (const column of [...NAME_COLUMNS, "line"] as const) putIds(rows[column], places, all[column]);
    }
    return features
      .map((filed, index) => {
        const series = sliced(all, starts[index] as number, starts[index + 1] as number);
        return { filed, series: inOrder(series) };
      })
      .filter((feature) => feature.series.count > 0);
  }

  /** Where each feature begins when all measurements stand feature by feature; at the end, their number. */
  private startsOf(features: number): Uint32Array {
    const starts = new Uint32Array(features + 1);
    for (const { count, feature } of this.rows) {
      for (let i = 0; i < count; i++) starts[(feature[i] as number) + 1]!++;
    }
    for (let index = 0; index < features; index++) starts[index + 1]! += starts[index] as number;
    return starts;
  }
}

// Two of a kind: one loop that sees both kinds of arrays is compiled for neither.

function putNumbers(from: Float64Array | undefined, places: Uint32Array, to: Float64Array): void {
  if (from === undefined) return;
  for (let i = 0; i < places.length; i++) to[places[i] as number] = from[i] as number;
}

function putIds(from: Uint32Array | undefined, places: Uint32Array, to: Uint32Array): void {
  if (from === undefined) return;
  for (let i = 0; i < places.length; i++) to[places[i] as number] = from[i] as number;
}
