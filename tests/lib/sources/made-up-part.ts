import { randomStream } from "../../../lib/random/random-stream";
import type { SourceRows } from "../../../lib/sources/lot-cells";

const HOUR = 3_600_000;

export type MadeUp = {
  seed: number;
  lots: number;
  features: number;
  /** Source ids that run in a lot, by its place from 0. */
  running: (lot: number) => readonly number[];
  pieces?: number;
  /** What is added to a reading, in sigma of its feature. */
  shift?: (one: { lot: number; source: number; feature: number; at: number }) => number;
  /** Standard deviation of what all pieces of a lot share, and of what those of one clamping share, in sigma. */
  lotScatter?: number;
  clampingScatter?: number;
};

/** Moment of the first reading of a lot. Lot ids count from 101, features from 1. */
export function lotBegins(lot: number): number {
  return lot * 24 * HOUR;
}

/** Normal readings of features with different sigma and level, lot after lot, source after source. */
export function madeUpPart({
  seed,
  lots,
  features,
  running,
  pieces = 5,
  shift = () => 0,
  lotScatter = 0.5,
  clampingScatter = 0,
}: MadeUp): SourceRows[] {
  const stream = randomStream(seed, "made-up part");
  const rows = Array.from({ length: features }, (_, place) => ({
    feature: place + 1,
    takenAt: [] as number[],
    values: [] as number[],
    lots: [] as number[],
    sources: [] as number[],
  }));
  for (let lot = 0; lot < lots; lot++) {
    const material = rows.map(() => lotScatter * stream.normal());
    running(lot).forEach((source, turn) => {
      // A clamping tilts all features of its pieces alike.
      const clamping = clampingScatter * stream.normal();
      for (let piece = 0; piece < pieces; piece++) {
        const at = lotBegins(lot) + (turn * pieces + piece) * HOUR;
        for (const [place, row] of rows.entries()) {
          const added = shift({ lot, source, feature: row.feature, at });
          const z = stream.normal() + material[place]! + clamping + added;
          row.takenAt.push(at);
          row.values.push(100 * row.feature + sigmaOf(row.feature) * z);
          row.lots.push(101 + lot);
          row.sources.push(source);
        }
      }
    });
  }
  return rows;
}

export function sigmaOf(feature: number): number {
  return 0.004 * feature;
}
