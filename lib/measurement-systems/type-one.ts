import { InvalidInput, requireFiniteNumbers } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { type Bias, biasOf } from "./bias";

export type TypeOne = Bias & {
  /** Room for the scatter, and for scatter and bias together; at least 1.33 is commonly asked for. */
  Cg: number;
  Cgk: number;
  /** The gauge's step in per cent of the tolerance; null when it is not stated. */
  percentResolution: number | null;
};

/**
 * The first study of a gauge: one person measures one known piece, often, in a short time.
 *
 *   Cg  = share·(U − L) / (width·s)
 *   Cgk = (share·(U − L)/2 − |bias|) / (width·s/2)
 *
 * Houses differ in the share of the tolerance (20 % is usual) and in the width (6 or 4 standard deviations), so both
 * are said.
 *
 * Source: common practice, no source.
 *
 * @returns the problems "too-few-readings" below two, "no-variation" when all are alike
 * @throws InvalidInput when a number is not finite, a width, share or resolution is not positive, or unless
 *   0 < confidence < 1
 */
export function typeOneStudy(
  readings: ArrayLike<number>,
  {
    reference,
    toleranceWidth,
    resolution,
    share,
    width,
    confidence,
  }: {
    reference: number;
    toleranceWidth: number;
    resolution: number | null;
    share: number;
    width: 4 | 6;
    confidence: number;
  },
): Computed<TypeOne> {
  const where = "typeOneStudy";
  const positive = { toleranceWidth, share, width, ...(resolution !== null && { resolution }) };
  requireFiniteNumbers(where, positive);
  for (const [field, value] of Object.entries(positive)) {
    if (value <= 0) throw new InvalidInput(where, field, value, "positive");
  }
  const found = biasOf(readings, { reference, confidence });
  if (!found.ok) return found;
  const { standardDeviation, bias } = found.value;
  if (standardDeviation === 0) return problem({ code: "no-variation" });
  const room = share * toleranceWidth;
  return computed({
    ...found.value,
    Cg: room / (width * standardDeviation),
    Cgk: (room / 2 - Math.abs(bias)) / ((width / 2) * standardDeviation),
    percentResolution: resolution === null ? null : (100 * resolution) / toleranceWidth,
  });
}
