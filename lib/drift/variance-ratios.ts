import type { Design } from "./design";
import { meanOfSmallest, middleOf } from "./middle";

const TRIM = 0.1;
/**
 * Mean of the smallest nine tenths of squared normal deviates. It is 0.623 in a long series and more in one of some
 * ten to sixty lots, where less than a tenth can be left out.
 */
const TRIMMED_MEAN = 0.67;

/**
 * Half the mean square of successive differences, without its largest tenth, consistent for normal data.
 *
 * A step enters one difference only, a slow drift hardly at all: the scatter between lots is estimated without
 * the very fault that is sought.
 *
 * Source: J. von Neumann, Annals of Mathematical Statistics 12 (1941) 367-395 (from memory); trimming is ours.
 */
export function trimmedHalfSquare(differences: ArrayLike<number>): number {
  const squares = new Float64Array(differences.length);
  for (let i = 0; i < squares.length; i++) squares[i] = differences[i]! * differences[i]!;
  if (squares.length < 4) return squares.reduce((a, b) => a + b, 0) / Math.max(1, squares.length) / 2;
  const kept = Math.max(1, Math.ceil(squares.length * (1 - TRIM)));
  return meanOfSmallest(squares, kept) / 2 / TRIMMED_MEAN;
}

/** Residual means of one feature by cell and by lot (NaN where a lot has none of its pieces). */
export type ResidualMeans = { cells: Float64Array; lots: Float64Array };

export function residualMeans({ strata }: Design, residual: Float64Array): ResidualMeans {
  const cells = new Float64Array(strata.cells);
  const lots = new Float64Array(strata.lots).fill(Number.NaN);
  for (let lot = 0; lot < strata.lots; lot++) {
    let total = 0;
    let count = 0;
    for (let c = strata.lotCells[lot]!; c < strata.lotCells[lot + 1]!; c++) {
      const from = strata.cellStart[c]!;
      const to = strata.cellStart[c + 1]!;
      let sum = 0;
      for (let i = from; i < to; i++) sum += residual[i]!;
      cells[c] = sum / (to - from);
      total += sum;
      count += to - from;
    }
    if (count > 0) lots[lot] = total / count;
  }
  return { cells, lots };
}

/** Variance of a fixture's deviation from its lot, from one lot to its next, in sigma²; before shrinking. */
export type OwnRatio = { own: number; differences: number };

/**
 * Cells of a fixture that ran beside others, each with the one in which it did so last: how their difference is
 * brought to the variance of one cell, and how much of it is sampling, summed over all.
 */
export type CellPairs = { last: Int32Array; next: Int32Array; scale: Float64Array; sampling: number };

export function cellPairs(design: Pick<Design, "strata" | "cellLot" | "cellFixture">): CellPairs {
  const { strata, cellLot, cellFixture } = design;
  const before = new Map<number, number>();
  const pairs: { last: number; next: number; scale: number }[] = [];
  let sampling = 0;
  for (let c = 0; c < strata.cells; c++) {
    const lot = cellLot[c]!;
    const beside = strata.lotCells[lot + 1]! - strata.lotCells[lot]!;
    if (beside < 2) continue;
    const fixture = cellFixture[c]!;
    const last = before.get(fixture);
    before.set(fixture, c);
    if (last === undefined) continue;
    const [a, b] = [shareOf(design, last), shareOf(design, c)];
    pairs.push({ last, next: c, scale: Math.sqrt((a.factor + b.factor) / 2) });
    sampling += (a.variance + b.variance) / (a.factor + b.factor);
  }
  return {
    last: Int32Array.from(pairs, ({ last }) => last),
    next: Int32Array.from(pairs, ({ next }) => next),
    scale: Float64Array.from(pairs, ({ scale }) => scale),
    sampling,
  };
}

/** Successive lots in which a fixture ran beside others. */
export function cellRatio({ pairs, cellLot }: Design, { cells, lots }: ResidualMeans): OwnRatio | null {
  const { last, next, scale, sampling } = pairs;
  if (last.length < 6) return null;
  const differences = new Float64Array(last.length);
  for (let p = 0; p < last.length; p++) {
    const a = last[p]!;
    const b = next[p]!;
    const difference = cells[b]! - lots[cellLot[b]!]! - (cells[a]! - lots[cellLot[a]!]!);
    differences[p] = difference / scale[p]!;
  }
  return {
    own: trimmedHalfSquare(differences) - sampling / differences.length,
    differences: differences.length,
  };
}

/** A cell's deviation from its lot has (1 − 1/m) of the cell variance when m cells make up the lot. */
function shareOf(
  { strata, cellLot }: Pick<Design, "strata" | "cellLot">,
  cell: number,
): { factor: number; variance: number } {
  const lot = cellLot[cell]!;
  const factor = 1 - 1 / (strata.lotCells[lot + 1]! - strata.lotCells[lot]!);
  return { factor, variance: factor / (strata.cellStart[cell + 1]! - strata.cellStart[cell]!) };
}

/** Variance of lot means from lot to lot in sigma², less what pieces and cells bring; before shrinking. */
export function lotRatio({ strata }: Design, { lots }: ResidualMeans, cell: number): OwnRatio {
  const differences: number[] = [];
  let sampling = 0;
  let count = 0;
  let last = Number.NaN;
  for (let lot = 0; lot < strata.lots; lot++) {
    if (Number.isNaN(lots[lot])) continue;
    let pieces = 0;
    let squares = 0;
    for (let c = strata.lotCells[lot]!; c < strata.lotCells[lot + 1]!; c++) {
      const size = strata.cellStart[c + 1]! - strata.cellStart[c]!;
      pieces += size;
      squares += size * size;
    }
    sampling += (cell * squares) / (pieces * pieces) + 1 / pieces;
    count++;
    if (!Number.isNaN(last)) differences.push(lots[lot]! - last);
    last = lots[lot]!;
  }
  return { own: trimmedHalfSquare(differences) - sampling / Math.max(1, count), differences: count };
}

/** First-order autocorrelation of lot means, with the bias of a short series taken off. */
export function lotAutocorrelation({ lots }: ResidualMeans): number {
  const means = lots.filter((mean) => !Number.isNaN(mean));
  const centre = means.reduce((a, b) => a + b, 0) / means.length;
  let products = 0;
  let squares = 0;
  for (let i = 0; i < means.length; i++) {
    const deviation = means[i]! - centre;
    squares += deviation * deviation;
    if (i > 0) products += deviation * (means[i - 1]! - centre);
  }
  return products / Math.max(squares, 1e-9) + 1 / means.length;
}

const USUAL_CELL = 0.02;
const LEAST_CELL = 0.01;
const PRIOR_CELLS = 20;
const PRIOR_LOTS = 12;
/** Successive differences share lots: worth about this many independent ones each. */
const WORTH = 0.6;

/** Each feature's own estimate drawn towards the part's median, the more the fewer lots it rests on. */
export function shrunkCells(own: readonly (OwnRatio | null)[]): Float64Array {
  const known = own.filter((one): one is OwnRatio => one !== null);
  const usual = known.length === 0 ? null : Math.max(0, middleOf(known.map((one) => one.own)));
  return Float64Array.from(own, (one) => {
    if (usual === null) return USUAL_CELL;
    if (one === null) return Math.max(LEAST_CELL, usual);
    const worth = one.differences * WORTH;
    const share = worth / (worth + PRIOR_CELLS);
    return Math.max(LEAST_CELL, 0.5 * Math.max(0, share * one.own + (1 - share) * usual) + 0.5 * usual);
  });
}

/**
 * The same for lots. When lots resemble their neighbours (autocorrelation φ), differences of successive ones see
 * only (1 − φ) of the variance, and a mean over lots is less certain still: λ (1 + φ) / ((1 − φ)(1 − φ/2)).
 */
export function shrunkLots(own: readonly OwnRatio[], autocorrelation: number): Float64Array {
  const phi = Math.min(0.6, Math.max(0, autocorrelation));
  const factor = (1 + phi) / ((1 - phi) * (1 - phi / 2));
  const usual = Math.max(0.01, middleOf(own.map((one) => one.own * factor)));
  return Float64Array.from(own, (one) => {
    const worth = one.differences * WORTH;
    const share = worth / (worth + PRIOR_LOTS);
    return Math.max(share * one.own * factor + (1 - share) * usual, 0.25 * usual + 0.01);
  });
}
