import { InvalidInput, requireFiniteNumbers } from "../checks";
import type { Tolerance } from "../plan/feature-plan";

/**
 * The limits against which an index means something.
 *
 * A limit that physics sets (a position deviation cannot be below 0) needs no index: no piece can lie
 * beyond it, and a process that crowds it is the better for it. The limit that equals the natural bound
 * is dropped; when the bound lies between the limits, the nearer one is beyond it and is dropped.
 *
 * @throws InvalidInput when a limit is not finite or the lower one is not below the upper one
 */
export function judgedTolerance(
  where: string,
  { tolerance, naturalBound }: { tolerance: Tolerance; naturalBound: number | null },
): Tolerance {
  const { lower, upper } = tolerance;
  if (lower !== null) requireFiniteNumbers(where, { "tolerance.lower": lower });
  if (upper !== null) requireFiniteNumbers(where, { "tolerance.upper": upper });
  if (lower !== null && upper !== null && lower >= upper) {
    throw new InvalidInput(where, "tolerance.lower", lower, `below the upper limit ${upper}`);
  }
  if (naturalBound === null) return tolerance;
  requireFiniteNumbers(where, { naturalBound });
  if (lower === naturalBound) return { lower: null, upper };
  if (upper === naturalBound) return { lower, upper: null };
  if (lower !== null && upper !== null && lower < naturalBound && naturalBound < upper) {
    return naturalBound - lower <= upper - naturalBound ? { lower: null, upper } : { lower, upper: null };
  }
  return tolerance;
}
