import { type Computed, computed, problem } from "../computed";
import { normalUpperTail } from "../distributions/normal";
import { median } from "../summary/moments";

/** `runs` on one side of the median, `expected` when the order is random, Z and its two-sided p. */
export type RunsTest = { runs: number; expected: number; above: number; below: number; z: number; p: number };

/**
 * Do readings stay on one side of their median longer, or change sides more often, than in random order?
 *
 *   E = 2n₁n₂/(n₁ + n₂) + 1,  V = 2n₁n₂(2n₁n₂ − n₁ − n₂) / ((n₁ + n₂)²(n₁ + n₂ − 1)),  Z = (runs − E)/√V
 *
 * A reading equal to the median counts as above it, as the handbook's printed values do; to drop such readings moves Z
 * by up to 0.13 on its own data. Drift gives too few runs (Z below 0), a saw-tooth too many.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.13; A. Wald and J. Wolfowitz, Annals of Mathematical Statistics 11 (1940)
 * 147-162 (from memory).
 *
 * @returns the problem "too-few-readings" below ten, "no-variation" when all lie on one side
 * @throws InvalidInput when a reading is not a finite number
 */
export function runsTest(values: ArrayLike<number>): Computed<RunsTest> {
  const n = values.length;
  if (n < FEWEST) return problem({ code: "too-few-readings", needed: FEWEST, got: n });
  const middle = median(values);
  let above = 0;
  let runs = 0;
  let previous: boolean | null = null;
  for (let i = 0; i < n; i++) {
    const isAbove = values[i]! >= middle;
    if (isAbove) above++;
    if (isAbove !== previous) runs++;
    previous = isAbove;
  }
  const below = n - above;
  if (below === 0) return problem({ code: "no-variation" });
  const product = 2 * above * below;
  const expected = product / n + 1;
  const variance = (product * (product - n)) / (n * n * (n - 1));
  const z = (runs - expected) / Math.sqrt(variance);
  return computed({ runs, expected, above, below, z, p: 2 * normalUpperTail(Math.abs(z)) });
}

/** The normal approximation is rough below. */
const FEWEST = 10;
