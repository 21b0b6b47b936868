import { InvalidInput, requireFiniteNumbers } from "../checks";

/** As a maker states it: E = A + L/K, A in µm, L in mm, K in mm per µm. Without a length term K is Infinity. */
export type StatedError = { A: number; K: number };

/**
 * The largest error that a gauge may have at a length, in mm.
 *
 *   E = A + L/K
 *
 * "1.7 + L/300" is A = 1.7 and K = 300: at 300 mm it is 2.7 µm.
 *
 * Source: ISO 10360-2 (from memory), for the form in which makers of coordinate measuring machines state it.
 *
 * @throws InvalidInput when A is negative, K not positive or the length negative
 */
export function permissibleError({ A, K }: StatedError, length: number): number {
  const where = "permissibleError";
  requireFiniteNumbers(where, { A, length });
  if (A < 0) throw new InvalidInput(where, "A", A, "at least 0 µm");
  if (!(K > 0)) throw new InvalidInput(where, "K", K, "positive, in mm per µm");
  if (length < 0) throw new InvalidInput(where, "length", length, "at least 0 mm");
  return (A + length / K) / 1000;
}

export type ErrorAgainstTolerance = {
  /** In mm. */
  error: number;
  /** 2E over the width of the tolerance: the share that the gauge alone may take. */
  share: number;
  /** Standard uncertainty when the error may lie anywhere within ±E, E/√3, in mm. */
  standardUncertainty: number;
  /** Width of the tolerance over that of ±2u: 4 is the old rule of thumb. */
  testUncertaintyRatio: number;
};

/**
 * A gauge's maximum permissible error against the tolerance that it is to decide on.
 *
 *   share = 2E / (U − L),  test uncertainty ratio = (U − L) / (2·2u),  u = E/√3
 *
 * A rectangular distribution within ±E is the cautious reading of a stated limit. Further sources (temperature, setup,
 * form) come on top; give their standard uncertainty and it is added in squares.
 *
 * Source: ISO 14253-2 and the Guide to the Expression of Uncertainty in Measurement, 4.3.7; the ratio as in
 * ANSI/NCSL Z540.3 (all from memory).
 *
 * @throws InvalidInput as `permissibleError`; for a width that is not positive or a negative further uncertainty
 */
export function errorAgainstTolerance({
  stated,
  length,
  toleranceWidth,
  further,
}: {
  stated: StatedError;
  length: number;
  toleranceWidth: number;
  /** Standard uncertainty of everything else, in mm. */
  further: number;
}): ErrorAgainstTolerance {
  const where = "errorAgainstTolerance";
  requireFiniteNumbers(where, { toleranceWidth, further });
  if (toleranceWidth <= 0) throw new InvalidInput(where, "toleranceWidth", toleranceWidth, "positive");
  if (further < 0) throw new InvalidInput(where, "further", further, "at least 0");
  const error = permissibleError(stated, length);
  const standardUncertainty = Math.hypot(error / Math.sqrt(3), further);
  return {
    error,
    share: (2 * error) / toleranceWidth,
    standardUncertainty,
    testUncertaintyRatio: toleranceWidth / (4 * standardUncertainty),
  };
}
