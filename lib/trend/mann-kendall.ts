import { requireFinite } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { normalUpperTail } from "../distributions/normal";

export type MannKendall = {
  /** Rising pairs less falling ones. */
  S: number;
  /** Of S when the order is random, equal readings taken into account. */
  variance: number;
  z: number;
  p: number;
  /** S over all pairs, and over the pairs that are not equal in the geometric mean. */
  tauA: number;
  tauB: number;
};

/**
 * Do readings rise or fall with time, whatever the shape of the trend and of their scatter?
 *
 *   S = Σ sign(xⱼ − xᵢ) over all i < j,  V = [n(n − 1)(2n + 5) − Σ t(t − 1)(2t + 5)] / 18,  z = (S ∓ 1)/√V
 *
 * with t the sizes of groups of equal readings. Readings come in the order of time and are presumed independent.
 *
 * Source: H. B. Mann, Econometrica 13 (1945) 245-259; M. G. Kendall, Rank Correlation Methods (1975) (from memory).
 *
 * @returns the problem "too-few-readings" below four, "no-variation" when all are alike
 * @throws InvalidInput when a reading is not a finite number
 */
export function mannKendall(values: ArrayLike<number>): Computed<MannKendall> {
  requireFinite("mannKendall", "values", values);
  const n = values.length;
  if (n < 4) return problem({ code: "too-few-readings", needed: 4, got: n });
  let S = 0;
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) S += Math.sign(values[j]! - values[i]!);
  const { variance, equalPairs } = tiesOf(values);
  if (variance === 0) return problem({ code: "no-variation" });
  const z = S === 0 ? 0 : (S - Math.sign(S)) / Math.sqrt(variance);
  const pairs = (n * (n - 1)) / 2;
  return computed({
    S,
    variance,
    z,
    p: 2 * normalUpperTail(Math.abs(z)),
    tauA: S / pairs,
    tauB: S / Math.sqrt(pairs * (pairs - equalPairs)),
  });
}

/** Variance of S in random order, and the number of pairs of equal readings. */
export function tiesOf(values: ArrayLike<number>): { variance: number; equalPairs: number } {
  const n = values.length;
  const counts = new Map<number, number>();
  for (let i = 0; i < n; i++) counts.set(values[i]!, (counts.get(values[i]!) ?? 0) + 1);
  let taken = 0;
  let equalPairs = 0;
  for (const t of counts.values()) {
    taken += t * (t - 1) * (2 * t + 5);
    equalPairs += (t * (t - 1)) / 2;
  }
  return { variance: (n * (n - 1) * (2 * n + 5) - taken) / 18, equalPairs };
}
