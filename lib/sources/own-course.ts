import type { SourceRows } from "./lot-cells";

/** The mean of a source in a lot, in sigma from where the part's readings lay before the change. */
export type CoursePoint = { lot: number; deviation: number };
export type Course = { source: number; points: CoursePoint[] };

/**
 * What each source itself read, lot by lot, over the features that moved with one of them: lots not taken out,
 * so that it is seen which of two that drew apart has moved and which stayed.
 *
 * Each feature counts in its sigma, from its mean over the lots before the change, and with the sign in which it
 * moved. Lots come in the order of `lots`.
 */
export function ownCourses(
  features: readonly SourceRows[],
  {
    lots,
    changedFrom,
    moved,
  }: {
    lots: readonly number[];
    /** Place in `lots` of the first lot after the change. */
    changedFrom: number;
    moved: readonly { feature: number; sigma: number; sign: number }[];
  },
): Course[] {
  const place = new Map(lots.map((lot, i) => [lot, i]));
  const sums = new Map<number, Map<number, { sum: number; features: number }>>();
  for (const { feature, sigma, sign } of moved) {
    const rows = features.find((one) => one.feature === feature);
    if (!rows) continue;
    const usual = meanWhere(rows, (i) => (place.get(rows.lots[i]!) ?? lots.length) < changedFrom);
    const cells = new Map<number, Map<number, { sum: number; count: number }>>();
    for (let i = 0; i < rows.values.length; i++) {
      const lot = rows.lots[i]!;
      const source = rows.sources[i]!;
      if (source === 0 || !place.has(lot)) continue;
      const ofSource = cells.get(source) ?? new Map<number, { sum: number; count: number }>();
      const cell = ofSource.get(lot) ?? { sum: 0, count: 0 };
      cell.sum += (sign * (rows.values[i]! - usual)) / sigma;
      cell.count++;
      ofSource.set(lot, cell);
      cells.set(source, ofSource);
    }
    for (const [source, ofSource] of cells) {
      const all = sums.get(source) ?? new Map<number, { sum: number; features: number }>();
      for (const [lot, { sum, count }] of ofSource) {
        const point = all.get(lot) ?? { sum: 0, features: 0 };
        point.sum += sum / count;
        point.features++;
        all.set(lot, point);
      }
      sums.set(source, all);
    }
  }
  return [...sums].map(([source, all]) => ({
    source,
    points: lots.flatMap((lot) => {
      const point = all.get(lot);
      return point ? [{ lot, deviation: point.sum / point.features }] : [];
    }),
  }));
}

function meanWhere({ values }: SourceRows, isCounted: (i: number) => boolean): number {
  let count = 0;
  let mean = 0;
  for (let i = 0; i < values.length; i++) {
    if (!isCounted(i)) continue;
    count++;
    mean += (values[i]! - mean) / count;
  }
  return mean;
}
