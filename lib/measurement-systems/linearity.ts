import { InvalidInput, requireFinite } from "../checks";
import { type Computed, computed } from "../computed";
import { studentTQuantile } from "../distributions/student-t";
import { fitLine, type Line } from "../regression/line";
import { mean } from "../summary/moments";
import { type Bias, biasOf } from "./bias";

/** Deviations (reading − reference) of one piece of known size. */
export type KnownPiece = { reference: number; deviations: readonly number[] };

export type Linearity = {
  /** The bias as a line over the size: a slope says that it grows with size. */
  line: Line;
  /** Bias by the line at each piece's size, and its band, for the mean and not for a single reading. */
  fitted: { reference: number; bias: number; lower: number; upper: number }[];
  /** Bias of all readings together. */
  overallBias: number;
  /** Each piece by itself; null for one with a single reading. */
  pieces: (Bias | null)[];
  /** Whether 0 lies inside the band at every piece: no bias anywhere that this study can see. */
  isFree: boolean;
};

/**
 * Is a gauge as right at the small end of its range as at the large one?
 *
 *   deviation = a + b·reference, by least squares on the single readings
 *   band      = a + b·x ± t·s·√(1/n + (x − x̄)²/Sₓₓ)
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition, chapter III (from memory); NIST/SEMATECH e-Handbook 2.4.5.
 *
 * @returns the problems of `fitLine`: fewer than three readings, one size only
 * @throws InvalidInput when a number is not finite, a piece has no reading, or unless 0 < confidence < 1
 */
export function linearityStudy(
  pieces: readonly KnownPiece[],
  { confidence }: { confidence: number },
): Computed<Linearity> {
  const where = "linearityStudy";
  for (const [i, { deviations }] of pieces.entries()) {
    if (deviations.length === 0)
      throw new InvalidInput(where, `pieces[${i}].deviations.length`, 0, "at least 1");
    requireFinite(where, `pieces[${i}].deviations`, deviations);
  }
  const x = pieces.flatMap(({ reference, deviations }) => deviations.map(() => reference));
  const y = pieces.flatMap(({ deviations }) => deviations);
  const found = fitLine({ x, y, confidence });
  if (!found.ok) return found;

  const line = found.value;
  const centre = mean(x);
  const spread = x.reduce((sum, at) => sum + (at - centre) ** 2, 0);
  const reach =
    studentTQuantile((1 + confidence) / 2, line.degreesOfFreedom) * line.residualStandardDeviation;
  const fitted = pieces.map(({ reference }) => {
    const bias = line.intercept.estimate + line.slope.estimate * reference;
    const half = reach * Math.sqrt(1 / y.length + (reference - centre) ** 2 / spread);
    return { reference, bias, lower: bias - half, upper: bias + half };
  });
  return computed({
    line,
    fitted,
    overallBias: mean(y),
    pieces: pieces.map(({ deviations }) => {
      const bias = biasOf(deviations, { reference: 0, confidence });
      return bias.ok ? bias.value : null;
    }),
    isFree: fitted.every(({ lower, upper }) => lower <= 0 && upper >= 0),
  });
}
