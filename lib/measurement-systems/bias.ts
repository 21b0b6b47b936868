import { InvalidInput, requireFiniteNumbers } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { studentTQuantile, studentTUpperTail } from "../distributions/student-t";
import { mean, sampleStandardDeviation } from "../summary/moments";

/** In the unit of the readings. t and p are null when the readings are all alike. */
export type Bias = {
  mean: number;
  standardDeviation: number;
  bias: number;
  t: number | null;
  /** Probability of a bias as large, either way, when the gauge has none. */
  p: number | null;
  interval: [lower: number, upper: number];
  count: number;
};

/**
 * Does a gauge read a known piece right on average?
 *
 *   bias = x̄ − reference,  t = bias / (s/√n) with n − 1 degrees of freedom
 *
 * Give a reference of 0 for readings that are deviations already.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.2; AIAG, Measurement Systems Analysis, 4th edition (from memory).
 *
 * @returns the problem "too-few-readings" below two
 * @throws InvalidInput when a number is not finite, or unless 0 < confidence < 1
 */
export function biasOf(
  readings: ArrayLike<number>,
  { reference, confidence }: { reference: number; confidence: number },
): Computed<Bias> {
  requireFiniteNumbers("biasOf", { reference });
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidInput("biasOf", "confidence", confidence, "a probability between 0 and 1");
  }
  const count = readings.length;
  if (count < 2) return problem({ code: "too-few-readings", needed: 2, got: count });
  const centre = mean(readings);
  const standardDeviation = sampleStandardDeviation(readings);
  const bias = centre - reference;
  const standardError = standardDeviation / Math.sqrt(count);
  const t = standardError === 0 ? null : bias / standardError;
  const reach = studentTQuantile((1 + confidence) / 2, count - 1) * standardError;
  return computed({
    mean: centre,
    standardDeviation,
    bias,
    t,
    p: t === null ? null : 2 * studentTUpperTail(Math.abs(t), count - 1),
    interval: [bias - reach, bias + reach],
    count,
  });
}
