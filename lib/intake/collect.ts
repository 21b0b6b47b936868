import { inOrder, sliced } from "../measurements/order";
import { emptySeries, type MeasurementSeries, NAME_COLUMNS, NUMBER_COLUMNS } from "../measurements/series";
import type { FeatureAsFiled, FileNames, TidyBatch } from "./batch";

/** One feature of a file with its measurements in time order; names are indexes of the file. */
export type FiledSeries = { filed: FeatureAsFiled; series: MeasurementSeries };

/**
 * Gathers a whole file's measurements by feature, in memory, for a study that stores nothing.
 *
 * A counting sort over the batches: one pass tells how many rows each feature has, a second puts them there.
 */
export class Collector {
  private readonly batches: TidyBatch[] = [];
  private readonly pieceNumbers = new Map<string, number>();

  add(batch: TidyBatch): void {
    this.numberPieces(batch);
    this.batches.push(batch);
  }

  /** Pieces are numbered within a batch; a study counts them over the file. */
  private numberPieces(batch: TidyBatch): void {
    const numbers = Uint32Array.from(batch.pieces, (serial, index) => {
      if (index === 0) return 0;
      const known = this.pieceNumbers.get(serial);
      if (known !== undefined) return known;
      const number = this.pieceNumbers.size + 1;
      this.pieceNumbers.set(serial, number);
      return number;
    });
    for (let i = 0; i < batch.count; i++) batch.piece[i] = numbers[batch.piece[i] as number] as number;
  }

  /** Features in the order in which the file names them; those without a measurement are left out. */
  features(names: FileNames): FiledSeries[] {
    const starts = this.startsOf(names.features.length);
    const all = emptySeries(starts[names.features.length] as number);
    const next = starts.slice();
    for (const batch of this.batches) {
      const places = new Uint32Array(batch.count);
      for (let i = 0; i < batch.count; i++) places[i] = next[batch.feature[i] as number]!++;
      for (const column of NUMBER_COLUMNS) putNumbers(batch[column], places, all[column]);
      for (const column of [...NAME_COLUMNS, "line"] as const) putIds(batch[column], places, all[column]);
    }
    return names.features
      .map((filed, index) => {
        const series = sliced(all, starts[index] as number, starts[index + 1] as number);
        return { filed, series: inOrder(series) };
      })
      .filter((feature) => feature.series.count > 0);
  }

  /** Where each feature begins when all measurements stand feature by feature; at the end, their number. */
  private startsOf(features: number): Uint32Array {
    const starts = new Uint32Array(features + 1);
    for (const { count, feature } of this.batches) {
      for (let i = 0; i < count; i++) starts[(feature[i] as number) + 1]!++;
    }
    for (let index = 0; index < features; index++) starts[index + 1]! += starts[index] as number;
    return starts;
  }
}

// Two of a kind: one loop that sees both kinds of arrays is compiled for neither.

function putNumbers(from: Float64Array, places: Uint32Array, to: Float64Array): void {
  for (let i = 0; i < places.length; i++) to[places[i] as number] = from[i] as number;
}

function putIds(from: Uint32Array, places: Uint32Array, to: Uint32Array): void {
  for (let i = 0; i < places.length; i++) to[places[i] as number] = from[i] as number;
}
