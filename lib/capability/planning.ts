import { InvalidInput, requireCount, requireFiniteNumbers } from "../checks";
import { bissellBounds, chiSquareBounds, type EstimatedIndex, oneSidedBounds } from "./intervals";

/** Which interval a planned study will be judged by: that of Pp, of Ppk, or of an index with one limit. */
export type PlannedIndex = "Pp" | "Ppk" | "one-sided";

const BOUND: Record<PlannedIndex, (estimate: EstimatedIndex) => { lowerBound: number }> = {
  Pp: chiSquareBounds,
  Ppk: bissellBounds,
  "one-sided": oneSidedBounds,
};

/** Beyond this nobody measures to show an index: value and target are one for every purpose. */
const MOST_PIECES = 10_000_000;

/**
 * How many pieces show that an index reaches its target, if the present value holds?
 *
 *   the smallest n for which the lower bound of an index estimated as `index` from n pieces is at least `target`
 *
 * by the bound that the study itself will print. The estimate moves from study to study, so a process whose true
 * index is `index` passes with so many pieces about every other time; plan for more.
 *
 * A sigma within subgroups has fewer degrees of freedom than pieces: say by `degreesOfFreedomPerPiece`, such as 0.8 for
 * pooled subgroups of five. The default of an overall sigma is n − 1.
 *
 * Source: the intervals of ./intervals, turned round.
 *
 * @returns null when no number of pieces will do, since the present value is not above the target
 * @throws InvalidInput when a number is not finite, the target is not positive, the degrees of freedom per piece are
 *   not above 0 and at most 1, or unless 0.5 ≤ confidence < 1
 */
export function piecesToShow({
  index,
  target,
  confidence,
  judgedBy,
  degreesOfFreedomPerPiece,
}: {
  index: number;
  target: number;
  confidence: number;
  judgedBy: PlannedIndex;
  degreesOfFreedomPerPiece?: number;
}): number | null {
  const where = "piecesToShow";
  requireFiniteNumbers(where, { index, target });
  if (target <= 0) throw new InvalidInput(where, "target", target, "positive");
  if (!(confidence >= 0.5 && confidence < 1)) {
    throw new InvalidInput(where, "confidence", confidence, "from 0.5 to below 1");
  }
  const perPiece = degreesOfFreedomPerPiece;
  if (perPiece !== undefined && !(perPiece > 0 && perPiece <= 1)) {
    throw new InvalidInput(where, "degreesOfFreedomPerPiece", perPiece, "above 0 and at most 1");
  }
  if (index <= target) return null;

  const suffices = (count: number) => {
    const degreesOfFreedom = Math.max(1, perPiece === undefined ? count - 1 : perPiece * count);
    return BOUND[judgedBy]({ index, count, degreesOfFreedom, confidence }).lowerBound >= target;
  };
  if (!suffices(MOST_PIECES)) return null;
  let short = 1;
  let enough = 2;
  while (!suffices(enough)) {
    short = enough;
    enough = Math.min(MOST_PIECES, enough * 2);
  }
  // The bound rises with the number of pieces, so halving finds the first that suffices.
  while (enough - short > 1) {
    const middle = Math.floor((short + enough) / 2);
    if (suffices(middle)) enough = middle;
    else short = middle;
  }
  return enough;
}

/**
 * The same for an index whose bound was simulated, such as one by a fitted model.
 *
 *   n′ = n · ((index − lower bound) / (index − target))²
 *
 * since the distance of the bound shrinks as 1/√n. An approximation, good from some fifty pieces on.
 *
 * Source: large samples; common practice, no source.
 *
 * @returns null when the present value is not above the target
 * @throws InvalidInput when a number is not finite, the target not positive, count below 2 or the bound above the index
 */
export function piecesByBound({
  index,
  lowerBound,
  count,
  target,
}: {
  index: number;
  lowerBound: number;
  count: number;
  target: number;
}): number | null {
  const where = "piecesByBound";
  requireFiniteNumbers(where, { index, lowerBound, target });
  requireCount(where, "count", count, 2);
  if (target <= 0) throw new InvalidInput(where, "target", target, "positive");
  if (lowerBound > index) throw new InvalidInput(where, "lowerBound", lowerBound, `at most ${index}`);
  if (index <= target) return null;
  const pieces = Math.ceil(count * ((index - lowerBound) / (index - target)) ** 2);
  return pieces > MOST_PIECES ? null : Math.max(2, pieces);
}
