/** One lot's share in a step: a deviation with its information (1/variance, in the square of its own unit). */
export type StepPoint = { deviation: number; information: number };

export type Step = {
  /** Mean of the later points less that of the earlier ones. */
  difference: number;
  standardError: number;
  before: number;
  after: number;
  lotsBefore: number;
  lotsAfter: number;
};

/**
 * The difference between the later and the earlier points of a series, and how well it is known.
 *
 *   difference     = Σ w d / Σ w over the later − Σ w d / Σ w over the earlier points
 *   standard error = √(1/Σ w + 1/Σ w), times Birge's ratio where it is above 1
 *
 * Birge's ratio, √(Σ w (d − mean of its side)² / (points − 2)), widens the error where lots repeat worse
 * than their readings would have it: a fixture that sits differently in each lot has not moved.
 *
 * Source: R. T. Birge, Physical Review 40 (1932) 207-227 (from memory).
 */
export function stepBetween(earlier: readonly StepPoint[], later: readonly StepPoint[]): Step | null {
  const before = summed(earlier);
  const after = summed(later);
  return stepOf(before, after);
}

/** Running sums of a series, from which the step at any place follows. */
export type Sums = { points: number; information: number; weighted: number; squares: number };

export const NO_SUMS: Sums = { points: 0, information: 0, weighted: 0, squares: 0 };

export function added(sums: Sums, { deviation, information }: StepPoint): Sums {
  return {
    points: sums.points + 1,
    information: sums.information + information,
    weighted: sums.weighted + information * deviation,
    squares: sums.squares + information * deviation * deviation,
  };
}

export function lessened(whole: Sums, part: Sums): Sums {
  return {
    points: whole.points - part.points,
    information: whole.information - part.information,
    weighted: whole.weighted - part.weighted,
    squares: whole.squares - part.squares,
  };
}

/** Null unless both sides hold something. */
export function stepOf(before: Sums, after: Sums): Step | null {
  if (before.points === 0 || after.points === 0) return null;
  const meanBefore = before.weighted / before.information;
  const meanAfter = after.weighted / after.information;
  const scatter = scatterOf(before, meanBefore) + scatterOf(after, meanAfter);
  const freedom = before.points + after.points - 2;
  const birge = freedom > 0 ? Math.sqrt(scatter / freedom) : 0;
  return {
    difference: meanAfter - meanBefore,
    standardError: Math.max(1, birge) * Math.sqrt(1 / before.information + 1 / after.information),
    before: meanBefore,
    after: meanAfter,
    lotsBefore: before.points,
    lotsAfter: after.points,
  };
}

function summed(points: readonly StepPoint[]): Sums {
  return points.reduce(added, NO_SUMS);
}

function scatterOf({ squares, weighted }: Sums, mean: number): number {
  return Math.max(0, squares - weighted * mean);
}
