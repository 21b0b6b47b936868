import { InvalidInput, requireFiniteNumbers } from "../checks";
import { chiSquareQuantile, chiSquareUpperQuantile } from "../distributions/chi-square";
import { fQuantile, fUpperQuantile } from "../distributions/f";

/** One mean square with its weight in a variance. */
export type MeanSquareTerm = { coefficient: number; meanSquare: number; degreesOfFreedom: number };

export type CombinedInterval = {
  /** Σ cᵢ MSᵢ, not cut at 0. */
  estimate: number;
  interval: [lower: number, upper: number];
};

/**
 * Interval of a variance that is a sum of mean squares with positive weights, by Satterthwaite: the sum is treated
 * as chi-square with the degrees of freedom that its own variance asks for.
 *
 *   ν = (Σ cᵢMSᵢ)² / Σ (cᵢMSᵢ)²/νᵢ,   interval = ν·estimate / χ²
 *
 * Close when one term prevails; too short when small terms have few degrees of freedom.
 *
 * Source: F. E. Satterthwaite, Biometrics Bulletin 2 (1946) 110-114 (from memory).
 *
 * @throws InvalidInput as `modifiedLargeSample`; also for a sum of 0, which has no degrees of freedom
 */
export function satterthwaite(
  terms: readonly MeanSquareTerm[],
  confidence: number,
): CombinedInterval & { degreesOfFreedom: number } {
  check("satterthwaite", terms, confidence);
  const parts = terms.map(({ coefficient, meanSquare }) => coefficient * meanSquare);
  const estimate = parts.reduce((sum, part) => sum + part, 0);
  if (estimate <= 0) throw new InvalidInput("satterthwaite", "estimate", estimate, "positive");
  // Ratios first, so that tiny squares cannot vanish.
  const reciprocal = parts.reduce(
    (sum, part, i) => sum + (part / estimate) ** 2 / terms[i]!.degreesOfFreedom,
    0,
  );
  const degreesOfFreedom = 1 / reciprocal;
  const tail = (1 - confidence) / 2;
  return {
    estimate,
    degreesOfFreedom,
    interval: [
      (degreesOfFreedom * estimate) / chiSquareUpperQuantile(tail, degreesOfFreedom),
      (degreesOfFreedom * estimate) / chiSquareQuantile(tail, degreesOfFreedom),
    ],
  };
}

/**
 * The same by modified large samples: exact where only one term counts, close otherwise.
 *
 *   lower = estimate − √Σ (gᵢ cᵢ MSᵢ)²,  gᵢ = 1 − νᵢ/χ²(upper tail),  upper = estimate + √Σ (hᵢ cᵢ MSᵢ)²,
 *   hᵢ = νᵢ/χ²(lower tail) − 1
 *
 * Source: F. A. Graybill and C.-M. Wang, J. American Statistical Association 75 (1980) 869-873; R. K. Burdick,
 * C. M. Borror and D. C. Montgomery, J. Quality Technology 35 (2003) 342-354 (both from memory).
 *
 * @throws InvalidInput without terms, for a weight that is not positive, a mean square below 0, degrees of freedom
 *   that are not positive, or unless 0 < confidence < 1
 */
export function modifiedLargeSample(terms: readonly MeanSquareTerm[], confidence: number): CombinedInterval {
  check("modifiedLargeSample", terms, confidence);
  const tail = (1 - confidence) / 2;
  let estimate = 0;
  let below = 0;
  let above = 0;
  for (const { coefficient, meanSquare, degreesOfFreedom } of terms) {
    const part = coefficient * meanSquare;
    estimate += part;
    below += (part * (1 - degreesOfFreedom / chiSquareUpperQuantile(tail, degreesOfFreedom))) ** 2;
    above += (part * (degreesOfFreedom / chiSquareQuantile(tail, degreesOfFreedom) - 1)) ** 2;
  }
  return { estimate, interval: [Math.max(0, estimate - Math.sqrt(below)), estimate + Math.sqrt(above)] };
}

/**
 * Interval of a component between balanced groups of n readings, (MS between − MS within)/n.
 *
 *   lower = ν₁ (MSb − MSw·F₁) / (n·χ²₁),  upper = ν₁ (MSb − MSw·F₂) / (n·χ²₂)
 *
 * with F₁, χ²₁ the upper and F₂, χ²₂ the lower percentage points of half the risk each. The confidence is at least
 * 1 − 2·risk on paper and all but 1 − risk by simulation. Each end is cut at 0.
 *
 * Source: J. S. Williams, Biometrika 49 (1962) 278-281 (from memory).
 *
 * @throws InvalidInput as `modifiedLargeSample` does for the two mean squares, or for a size that is not positive
 */
export function betweenInterval({
  between,
  within,
  size,
  confidence,
}: {
  between: { meanSquare: number; degreesOfFreedom: number };
  within: { meanSquare: number; degreesOfFreedom: number };
  size: number;
  confidence: number;
}): [lower: number, upper: number] {
  const where = "betweenInterval";
  check(
    where,
    [between, within].map((one) => ({ ...one, coefficient: 1 })),
    confidence,
  );
  requireFiniteNumbers(where, { size });
  if (size <= 0) throw new InvalidInput(where, "size", size, "positive");
  const degrees = { numerator: between.degreesOfFreedom, denominator: within.degreesOfFreedom };
  const tail = (1 - confidence) / 2;
  const end = (F: number, chiSquare: number) =>
    Math.max(
      0,
      (between.degreesOfFreedom * (between.meanSquare - within.meanSquare * F)) / (size * chiSquare),
    );
  return [
    end(fUpperQuantile(tail, degrees), chiSquareUpperQuantile(tail, between.degreesOfFreedom)),
    end(fQuantile(tail, degrees), chiSquareQuantile(tail, between.degreesOfFreedom)),
  ];
}

function check(where: string, terms: readonly MeanSquareTerm[], confidence: number): void {
  if (terms.length === 0) throw new InvalidInput(where, "terms.length", 0, "at least 1");
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidInput(where, "confidence", confidence, "a probability between 0 and 1");
  }
  for (const [i, { coefficient, meanSquare, degreesOfFreedom }] of terms.entries()) {
    requireFiniteNumbers(where, { coefficient, meanSquare, degreesOfFreedom });
    if (coefficient <= 0) throw new InvalidInput(where, `terms[${i}].coefficient`, coefficient, "positive");
    if (meanSquare < 0) throw new InvalidInput(where, `terms[${i}].meanSquare`, meanSquare, "at least 0");
    if (degreesOfFreedom <= 0) {
      throw new InvalidInput(where, `terms[${i}].degreesOfFreedom`, degreesOfFreedom, "positive");
    }
  }
}
