import { inOrder } from "../measurements/order";
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
    const counts = new Uint32Array(names.features.length);
    for (const { count, feature } of this.batches) {
      for (let i = 0; i < count; i++) counts[feature[i] as number]!++;
    }
    const series = names.features.map((_, index) => emptySeries(counts[index] as number));
    const next = new Uint32Array(names.features.length);
    for (const batch of this.batches) {
      const places = Uint32Array.from({ length: batch.count }, (_, i) => next[batch.feature[i] as number]!++);
      for (const column of [...NUMBER_COLUMNS, ...NAME_COLUMNS, "line"] as const) {
        const from = batch[column];
        for (let i = 0; i < batch.count; i++) {
          series[batch.feature[i] as number]![column][places[i] as number] = from[i] as number;
        }
      }
    }
    return names.features
      .map((filed, index) => ({ filed, series: inOrder(series[index] as MeasurementSeries) }))
      .filter((feature) => feature.series.count > 0);
  }
}
