import { InvalidInput } from "../checks";
import { type Computed, computed } from "../computed";
import { studentTQuantile, studentTUpperTail } from "../distributions/student-t";
import { type Coefficient, leastSquares } from "./least-squares";

export type TestedCoefficient = Coefficient & {
  /** Probability of a t as far from 0 when the coefficient is 0; null when nothing scatters. */
  p: number | null;
  interval: [lower: number, upper: number];
};

export type Line = {
  slope: TestedCoefficient;
  intercept: TestedCoefficient;
  residuals: Float64Array;
  residualStandardDeviation: number;
  degreesOfFreedom: number;
  rSquared: number | null;
  count: number;
};

/**
 * The straight line through readings, y = a + bx, with tests of its slope and its value at x = 0.
 *
 * Least squares as in ./least-squares; t = estimate / standard error has n − 2 degrees of freedom. For readings in
 * time the standard error presumes that they are independent: lib/trend has one that does not.
 *
 * Source: NIST/SEMATECH e-Handbook 4.4.3 and 1.3.5 (slope of a run sequence).
 *
 * @returns the problems "too-few-readings" below three, "no-variation" when all x are alike
 * @throws InvalidInput when the lengths differ, a number is not finite, or unless 0 < confidence < 1
 */
export function fitLine({
  x,
  y,
  confidence,
}: {
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  confidence: number;
}): Computed<Line> {
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidInput("fitLine", "confidence", confidence, "a probability between 0 and 1");
  }
  const fitted = leastSquares(y, [new Float64Array(y.length).fill(1), x]);
  if (!fitted.ok) return fitted;
  const { coefficients, residuals, residualStandardDeviation, degreesOfFreedom, rSquared } = fitted.value;
  const reach = studentTQuantile((1 + confidence) / 2, degreesOfFreedom);
  const tested = (coefficient: Coefficient): TestedCoefficient => {
    const { estimate, standardError, t } = coefficient;
    return {
      ...coefficient,
      p: t === null ? null : 2 * studentTUpperTail(Math.abs(t), degreesOfFreedom),
      interval: [estimate - reach * standardError, estimate + reach * standardError],
    };
  };
  return computed({
    intercept: tested(coefficients[0]!),
    slope: tested(coefficients[1]!),
    residuals,
    residualStandardDeviation,
    degreesOfFreedom,
    rSquared,
    count: y.length,
  });
}
