import { InvalidInput } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { studentTQuantile } from "../distributions/student-t";
import { mean, sampleStandardDeviation } from "../summary/moments";

/** Which end may hold the outlier: one that was fixed beforehand, or either. */
export type OutlierSide = "either" | "largest" | "smallest";

export type Grubbs = {
  /** Distance of the most extreme reading from the mean, in standard deviations. */
  G: number;
  critical: number;
  /** Its index among the readings. */
  at: number;
  isOutlier: boolean;
};

/**
 * Is the most extreme reading one of the others?
 *
 *   G = |x − x̄| / s,  critical = (n − 1)/√n · √(t² / (n − 2 + t²)),  t of n − 2 degrees of freedom at α/n (or α/2n)
 *
 * For one outlier among normal readings: two that lie together hide each other. It finds what to look at; a reading is
 * left out for a cause that a person found, never for its size.
 *
 * Source: F. E. Grubbs, Technometrics 11 (1969) 1-21 (from memory); NIST/SEMATECH e-Handbook 1.3.5.17.1.
 *
 * @param significance α, at which a reading is called an outlier
 * @returns the problem "too-few-readings" below three, "no-variation" when all are alike
 * @throws InvalidInput when a reading is not finite, or unless 0 < significance < 0.5
 */
export function grubbsTest(
  values: ArrayLike<number>,
  { significance, side }: { significance: number; side: OutlierSide },
): Computed<Grubbs> {
  if (!(significance > 0 && significance < 0.5)) {
    throw new InvalidInput("grubbsTest", "significance", significance, "between 0 and 0.5");
  }
  const n = values.length;
  if (n < 3) return problem({ code: "too-few-readings", needed: 3, got: n });
  const centre = mean(values);
  const deviation = sampleStandardDeviation(values);
  if (deviation === 0) return problem({ code: "no-variation" });

  let at = 0;
  let farthest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const off = values[i]! - centre;
    const distance = side === "either" ? Math.abs(off) : side === "largest" ? off : -off;
    if (distance > farthest) {
      farthest = distance;
      at = i;
    }
  }
  const t = studentTQuantile(significance / (side === "either" ? 2 * n : n), n - 2);
  const critical = ((n - 1) / Math.sqrt(n)) * Math.sqrt((t * t) / (n - 2 + t * t));
  const G = farthest / deviation;
  return computed({ G, critical, at, isOutlier: G > critical });
}
