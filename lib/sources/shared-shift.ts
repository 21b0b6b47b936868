/** Exact by definition (international yard and pound agreement, 1959; from memory). */
export const MM_PER_INCH = 25.4;

/** A shift that several features have in common, in the unit in which theirs were given. */
export type SharedShift = {
  shift: number;
  standardError: number;
  /** Birge's ratio: near 1 the features agree on one shift, 2 and above they do not. Null for one feature. */
  disagreement: number | null;
};

/**
 * One shift for all: the mean weighted by 1/error², its error widened where the features disagree.
 *
 * A gauge that was set wrong adds the same millimetres to everything it reads; a worn locator adds to each
 * feature what its geometry makes of it. Null without a feature.
 *
 * Source: R. T. Birge, Physical Review 40 (1932) 207-227 (from memory).
 */
export function sharedShift(
  features: readonly { difference: number; standardError: number }[],
): SharedShift | null {
  if (features.length === 0) return null;
  let information = 0;
  let weighted = 0;
  for (const { difference, standardError } of features) {
    information += 1 / standardError ** 2;
    weighted += difference / standardError ** 2;
  }
  const shift = weighted / information;
  const scatter = features.reduce(
    (sum, { difference, standardError }) => sum + ((difference - shift) / standardError) ** 2,
    0,
  );
  const disagreement = features.length > 1 ? Math.sqrt(scatter / (features.length - 1)) : null;
  return { shift, standardError: Math.max(1, disagreement ?? 0) / Math.sqrt(information), disagreement };
}
