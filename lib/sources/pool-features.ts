import type { LotAdjusted } from "./lot-adjusted";

/** A source, or a source in a lot, over several features of a part. */
export type PooledSource = { source: number; deviation: number; features: number };
export type PooledCell = { source: number; lot: number; deviation: number; features: number; count: number };

/**
 * One picture of a source over all features it touches: the mean of its deviations, each in the sigma
 * within cells of its own feature, so that a bore in microns and a length in tenths weigh alike.
 *
 * Features that moved in opposite directions cancel here; the cells of a single feature show them.
 * `features` says over how many the mean is taken; features without a deviation are left out, and a
 * source without any is not in the list. Order: source, then lot, by first appearance over the features.
 */
export function poolFeatures(features: readonly LotAdjusted[]): {
  lots: number[];
  sources: PooledSource[];
  cells: PooledCell[];
} {
  const lots = new Set<number>();
  const sources = new Map<number, PooledSource>();
  const cells = new Map<number, Map<number, PooledCell>>();
  for (const feature of features) {
    for (const lot of feature.lots) lots.add(lot);
    for (const { source, deviationInSigma } of feature.sources) {
      if (deviationInSigma === null) continue;
      const pooled = sources.get(source) ?? { source, deviation: 0, features: 0 };
      pooled.features++;
      pooled.deviation += (deviationInSigma - pooled.deviation) / pooled.features;
      sources.set(source, pooled);
    }
    for (const { source, lot, deviation, count } of feature.cells) {
      if (deviation === null) continue;
      const ofSource = cells.get(source) ?? new Map<number, PooledCell>();
      const pooled = ofSource.get(lot) ?? { source, lot, deviation: 0, features: 0, count: 0 };
      pooled.features++;
      pooled.count += count;
      pooled.deviation += (deviation - pooled.deviation) / pooled.features;
      ofSource.set(lot, pooled);
      cells.set(source, ofSource);
    }
  }
  const order = [...lots];
  return {
    lots: order,
    sources: [...sources.values()],
    cells: [...cells.values()].flatMap((ofSource) =>
      order.flatMap((lot) => {
        const cell = ofSource.get(lot);
        return cell === undefined ? [] : [cell];
      }),
    ),
  };
}
