import type { FeatureCells, History, PartCells } from "./lot-cells";

/** A history against its neighbours in one lot, in the unit of the feature. */
export type Contrast = {
  /** Place of the lot in the part's list. */
  lot: number;
  count: number;
  /** Its mean less the mean of its neighbours' means. */
  plain: number;
  /** The same less what its neighbours have always differed by, so that a change of neighbours is no change. */
  adjusted: number;
  /** Of `adjusted`, in 1/σ². */
  information: number;
};

/** Histories that are no yardstick for a feature from a lot on, because they have moved there. */
export type Distrust = { history: number; feature: number; fromLot: number };

const ROUNDS = 200;

/**
 * How each history of a feature stands, with the lots taken out: the least-squares fit of
 * mean = lot + level, weighted by readings, over lots in which several ran.
 *
 * Fitted by turns (lots, then levels) until nothing moves by a millionth of what it started from. Levels of
 * histories that no chain of lots connects have no common zero; they never meet in a lot either.
 */
export function levelsOf(cells: FeatureCells, histories: number): Float64Array {
  const levels = new Float64Array(histories);
  const shared = cells.byLot.filter((lot) => lot.length > 1);
  const tolerance = 1e-6 * (cells.sigma ?? 0);
  for (let round = 0; round < ROUNDS; round++) {
    const sums = new Float64Array(histories);
    const weights = new Float64Array(histories);
    for (const lot of shared) {
      let sum = 0;
      let weight = 0;
      for (const { history, count, mean } of lot) {
        sum += count * (mean - levels[history]!);
        weight += count;
      }
      const effect = sum / weight;
      for (const { history, count, mean } of lot) {
        sums[history]! += count * (mean - effect);
        weights[history]! += count;
      }
    }
    let moved = 0;
    for (let history = 0; history < histories; history++) {
      if (weights[history] === 0) continue;
      const level = sums[history]! / weights[history]!;
      moved = Math.max(moved, Math.abs(level - levels[history]!));
      levels[history] = level;
    }
    if (moved <= tolerance) break;
  }
  return levels;
}

/** A history against other sources, lot by lot in time order; lots in which nothing ran beside it are left out. */
export function contrastsOf(
  { histories }: PartCells,
  cells: FeatureCells,
  { history, levels, distrusted }: { history: number; levels: Float64Array; distrusted: readonly Distrust[] },
): Contrast[] {
  const own = distrusted.filter(({ feature }) => feature === cells.feature);
  const isTrusted = (other: number, lot: number) =>
    own.every((one) => one.history !== other || lot < one.fromLot);
  const contrasts: Contrast[] = [];
  for (const [lot, inLot] of cells.byLot.entries()) {
    if (inLot.length < 2) continue;
    const mine = inLot.find((cell) => cell.history === history);
    if (!mine || !isTrusted(history, lot)) continue;
    let others = 0;
    let sum = 0;
    let sumOfLevels = 0;
    let reciprocals = 0;
    for (const other of inLot) {
      if (isSameSource(histories, other.history, history) || !isTrusted(other.history, lot)) continue;
      others++;
      sum += other.mean;
      sumOfLevels += levels[other.history]!;
      reciprocals += 1 / other.count;
    }
    if (others === 0) continue;
    const plain = mine.mean - sum / others;
    contrasts.push({
      lot,
      count: mine.count,
      plain,
      adjusted: plain + sumOfLevels / others,
      information: 1 / (1 / mine.count + reciprocals / (others * others)),
    });
  }
  return contrasts;
}

function isSameSource(histories: readonly History[], a: number, b: number): boolean {
  return histories[a]!.source === histories[b]!.source;
}
