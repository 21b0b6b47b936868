import { type Computed, computed, problem } from "../computed";
import { fUpperTail } from "../distributions/f";
import { groupReadings } from "./groups";

export type AnovaLine = { sumOfSquares: number; degreesOfFreedom: number; meanSquare: number };

export type OneWayAnova = {
  between: AnovaLine;
  within: AnovaLine;
  /** MS between / MS within; null when nothing varies within the groups. */
  F: number | null;
  /** Probability of an F as large when all groups have one mean; null with F. */
  p: number | null;
};

/**
 * Do groups (lots, sources) differ in their means by more than their readings scatter?
 *
 *   SS between = Σ nᵢ (x̄ᵢ − x̄)²,  SS within = ΣΣ (x − x̄ᵢ)²,  F = MS between / MS within
 *
 * Readings share an origin before anything is squared, so that a large offset costs no more digits than
 * the readings themselves lost when they became doubles. `ids` holds the group of each reading.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.4; accuracy checked on NIST's Statistical Reference Datasets.
 *
 * @returns the problem "too-few-subgroups" below two groups, "too-few-readings" when no group has two
 * @throws InvalidInput when the lengths differ or a reading is not a finite number
 */
export function oneWayAnova(values: ArrayLike<number>, ids: ArrayLike<number>): Computed<OneWayAnova> {
  const count = values.length;
  const origin = count > 0 ? values[0]! : 0;
  // A difference of near doubles is exact; from here on the offset is gone.
  const shifted = Float64Array.from(values, (value) => value - origin);
  const { counts, means, squares } = groupReadings("oneWayAnova", shifted, ids);
  if (counts.length < 2) return problem({ code: "too-few-subgroups", needed: 2, got: counts.length });
  if (count === counts.length) return problem({ code: "too-few-readings", needed: count + 1, got: count });

  const grand = means.reduce((sum, mean, i) => sum + counts[i]! * mean, 0) / count;
  const between = line(
    means.reduce((sum, mean, i) => sum + counts[i]! * (mean - grand) ** 2, 0),
    counts.length - 1,
  );
  const within = line(
    squares.reduce((sum, square) => sum + square, 0),
    count - counts.length,
  );
  if (within.meanSquare === 0) return computed({ between, within, F: null, p: null });
  const F = between.meanSquare / within.meanSquare;
  const p = fUpperTail(F, { numerator: between.degreesOfFreedom, denominator: within.degreesOfFreedom });
  return computed({ between, within, F, p });
}

function line(sumOfSquares: number, degreesOfFreedom: number): AnovaLine {
  return { sumOfSquares, degreesOfFreedom, meanSquare: sumOfSquares / degreesOfFreedom };
}
