import { type Correlations, FREEDOM_FOR_PIECES } from "./common-news";
import { liveLevel } from "./hypotheses";
import type { Scatter } from "./scatter";
import { rootOfRatio, scatterFactor, scatterScore, tooFew, uncertaintyOf } from "./scatter-ratio";
import type { SpreadHypothesis } from "./spread";
import { dotAt } from "./strata";

/** Deviations of single pieces from their cell, in sigma. */
type Deviations = {
  features: number;
  /** Piece × features + f; 0 where a value is missing. */
  of: Float64Array;
  /** By piece: Σ deviation², and the degrees of freedom it stands for, 0 where it is alone in its cell. */
  lengths: Float64Array;
  weight: Float64Array;
  /** Σ deviation² by feature, and Σ weight. */
  squares: Float64Array;
  freedom: number;
  correlation: Float64Array;
};

const FARTHEST = 3;
const ROWS_AT_A_TIME = 64;
const FEATURES_TO_ROCK = 3;
const ROUNDS = 3;
/** Onsets tried at first, and the log evidence at one of them that makes all others worth their while. */
const FIRST_ONSETS = 8;
const WORTH_MORE = 1.5;
const FOLDS = 4;
const LEAST_USUAL = 1e-6;
/** Pieces from which a direction is read off. */
const PIECES_TO_LEARN = 48;

/**
 * Do the pieces of a fixture rock along one direction from some lot on?
 *
 * A loose clamp lets the whole part move: its features scatter together, and that shows along the direction of the
 * movement long before it shows in any one of them. Lots are dealt into up to four folds; the direction in which the
 * pieces of the others scatter most is tested on the pieces of each, so that none is tested for what was read off it.
 * Their squares along it, in units of what all other pieces do along it, are pooled into one comparison of scatter.
 *
 * Source: cross-validation, M. Stone, Journal of the Royal Statistical Society B 36 (1974) 111-147 (from memory).
 *
 * @returns log evidence by hypothesis; NaN for a source that is no fixture or has too few pieces
 */
export function rockingEvidence(
  hypotheses: readonly SpreadHypothesis[],
  { scatter, correlations, tails }: { scatter: Scatter; correlations: Correlations; tails: number },
): Float64Array {
  const out = new Float64Array(hypotheses.length).fill(Number.NaN);
  const { table, features } = scatter.prepared;
  if (features.length < FEATURES_TO_ROCK) return out;
  const { levels, lotOf } = table;
  const deviations = deviationsOf(scatter, correlations);
  if (deviations.freedom <= FREEDOM_FOR_PIECES) return out;
  const byFixture = new Map<string, number[]>();
  for (const [k, { source }] of hypotheses.entries()) {
    if (source.kind !== "fixture") continue;
    const known = byFixture.get(source.id);
    if (known === undefined) byFixture.set(source.id, [k]);
    else known.push(k);
  }
  const spare = spareFor(features.length);
  for (const [id, own] of byFixture) {
    const lots = lotsOf(levels.fixture.of, liveLevel(levels.fixture, id), lotOf);
    const evidenceFrom = (from: number) => {
      const after = lots.filter(({ lot }) => lot >= from);
      return rockingIn(deviations, after, { tails, spare }) ?? Number.NaN;
    };
    // Where nothing rocks, a few onsets tell; those between are taken for like the one before.
    const step = Math.max(1, Math.floor(own.length / FIRST_ONSETS));
    const coarse = own.map((k, i) => (i % step === 0 ? evidenceFrom(hypotheses[k]!.from) : Number.NaN));
    const doesRock = step > 1 && coarse.some((log) => log > WORTH_MORE);
    for (const [i, k] of own.entries()) {
      const isKnown = i % step === 0;
      out[k] = doesRock && !isKnown ? evidenceFrom(hypotheses[k]!.from) : coarse[i - (i % step)]!;
    }
  }
  return out;
}

type OfLot = { lot: number; pieces: number[] };

/** Pieces of a level, lot by lot in time. */
function lotsOf(of: Int32Array, level: number, lotOf: Int32Array): OfLot[] {
  const lots: OfLot[] = [];
  for (let i = 0; i < of.length; i++) {
    if (of[i] !== level) continue;
    const last = lots.at(-1);
    if (last?.lot === lotOf[i]) last!.pieces.push(i);
    else lots.push({ lot: lotOf[i]!, pieces: [i] });
  }
  return lots;
}

function deviationsOf(scatter: Scatter, correlations: Correlations): Deviations {
  const { prepared, residuals, means } = scatter;
  const { table, features, designs } = prepared;
  const count = features.length;
  const of = new Float64Array(table.pieces * count);
  const lengths = new Float64Array(table.pieces);
  const weight = new Float64Array(table.pieces);
  const squares = new Float64Array(count);
  for (const { rows, cellOf, strata } of designs) {
    for (let i = 0; i < rows.length; i++) {
      const cell = cellOf[i]!;
      const size = strata.cellStart[cell + 1]! - strata.cellStart[cell]!;
      weight[rows[i]!] = Math.max(weight[rows[i]!]!, 1 - 1 / size);
    }
  }
  // Some rows at a time: the table of all pieces is larger than what the processor keeps at hand.
  const next = new Int32Array(count);
  for (let end = ROWS_AT_A_TIME; end < table.pieces + ROWS_AT_A_TIME; end += ROWS_AT_A_TIME) {
    for (let f = 0; f < count; f++) next[f] = addDeviations(f, next[f]!, end);
  }
  const freedom = weight.reduce((sum, one) => sum + one, 0);
  return { features: count, of, lengths, weight, squares, freedom, correlation: correlations.within };

  /** Those of feature f from position i of its design on, on rows before `end`; the position behind them. */
  function addDeviations(f: number, first: number, end: number): number {
    const { rows, cellOf } = designs[features[f]!.design]!;
    const residual = residuals[f]!;
    const { cells } = means[f]!;
    let square = squares[f]!;
    let i = first;
    for (; i < rows.length && rows[i]! < end; i++) {
      const off = residual[i]! - cells[cellOf[i]!]!;
      const deviation = Math.max(-FARTHEST, Math.min(FARTHEST, off));
      of[rows[i]! * count + f] = deviation;
      lengths[rows[i]!]! += deviation * deviation;
      square += deviation * deviation;
    }
    squares[f] = square;
    return i;
  }
}

/** Room for one fold at a time: there are hundreds of them. */
type Spare = { pieces: Int32Array; direction: Float64Array; next: Float64Array };

function spareFor(features: number): Spare {
  return {
    pieces: new Int32Array(PIECES_TO_LEARN),
    direction: new Float64Array(features),
    next: new Float64Array(features),
  };
}

/** Which lots are tested: every `folds`-th, from number `fold` on; the direction is read off the others. */
type Fold = { fold: number; folds: number };

/** @param lots pieces of the fixture, lot by lot */
function rockingIn(
  deviations: Deviations,
  lots: readonly OfLot[],
  { tails, spare }: { tails: number; spare: Spare },
): number | null {
  const folds = Math.min(FOLDS, lots.length);
  if (folds < 2) return null;
  let after = 0;
  for (const { pieces } of lots) for (const piece of pieces) after += deviations.weight[piece]!;
  const beside = deviations.freedom - after;
  const sums = { weight: 0, squares: 0 };
  for (let fold = 0; fold < folds; fold++) {
    const learnt = piecesToLearn(lots, { fold, folds }, spare.pieces);
    const direction = directionOf(deviations, learnt, spare);
    if (direction === null) return null;
    const { weight, tested, others } = scatterAlong(deviations, direction, lots, { fold, folds });
    const usual = (totalAlong(deviations, direction, spare.next) - (tested + others)) / beside;
    sums.weight += weight;
    sums.squares += tested / Math.max(usual, LEAST_USUAL);
  }
  if (tooFew(sums.weight, beside)) return null;
  const [va, vb] = [uncertaintyOf(sums.weight, tails), uncertaintyOf(beside, tails)];
  const z = scatterScore(rootOfRatio(sums.squares / sums.weight, 1), va, vb);
  return scatterFactor(z, 1 / (va + vb), 1);
}

/** The first pieces of the lots that are not tested. */
function piecesToLearn(lots: readonly OfLot[], { fold, folds }: Fold, into: Int32Array): Int32Array {
  let count = 0;
  for (let l = 0; l < lots.length && count < into.length; l++) {
    if (l % folds === fold) continue;
    const { pieces } = lots[l]!;
    for (let p = 0; p < pieces.length && count < into.length; p++) into[count++] = pieces[p]!;
  }
  return into.subarray(0, count);
}

/**
 * The direction in which pieces scatter most: powers of their scatter on the piece that is farthest out. It is held in
 * one of the spare vectors.
 */
function directionOf(
  { features, of, lengths }: Deviations,
  pieces: Int32Array,
  spare: Spare,
): Float64Array | null {
  let farthest = -1;
  let most = 0;
  for (let p = 0; p < pieces.length; p++) {
    const base = pieces[p]! * features;
    const length = lengths[pieces[p]!]!;
    if (length > most) {
      most = length;
      farthest = base;
    }
  }
  if (farthest < 0) return null;
  for (let f = 0; f < features; f++) spare.direction[f] = of[farthest + f]!;
  for (let round = 0; round < ROUNDS; round++) {
    const { direction, next } = spare;
    next.fill(0);
    // Two pieces at a time: each sum is written half as often.
    for (let p = 0; p < pieces.length; p += 2) {
      const base = pieces[p]! * features;
      const along = dotAt(direction, of, base);
      const other = p + 1 < pieces.length ? pieces[p + 1]! * features : base;
      const besides = p + 1 < pieces.length ? dotAt(direction, of, other) : 0;
      for (let f = 0; f < features; f++)
        next[f] = next[f]! + along * of[base + f]! + besides * of[other + f]!;
    }
    const length = Math.sqrt(dotAt(next, next, 0));
    if (length === 0) return null;
    for (let f = 0; f < features; f++) next[f]! /= length;
    spare.direction = next;
    spare.next = direction;
  }
  return spare.direction;
}

/** Σ of the squared deviations along a direction, of the pieces tested and of the others, and Σ weight of the former. */
function scatterAlong(
  { features, of, weight }: Deviations,
  direction: Float64Array,
  lots: readonly OfLot[],
  { fold, folds }: Fold,
): { weight: number; tested: number; others: number } {
  const sums = { weight: 0, tested: 0, others: 0 };
  for (let l = 0; l < lots.length; l++) {
    const { pieces } = lots[l]!;
    const isTested = l % folds === fold;
    for (let p = 0; p < pieces.length; p++) {
      const along = dotAt(direction, of, pieces[p]! * features);
      if (isTested) {
        sums.weight += weight[pieces[p]!]!;
        sums.tested += along * along;
      } else sums.others += along * along;
    }
  }
  return sums;
}

/** Σ over all pieces of the squared deviation along a direction, by way of the correlations. */
function totalAlong(
  { features, squares, correlation }: Deviations,
  direction: Float64Array,
  u: Float64Array,
): number {
  for (let f = 0; f < features; f++) u[f] = direction[f]! * Math.sqrt(squares[f]!);
  let total = 0;
  for (let a = 0; a < features; a++) total += u[a]! * dotAt(u, correlation, a * features);
  return total;
}
