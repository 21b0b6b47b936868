import { InvalidInput, requireFiniteNumbers } from "../checks";

/** A standard deviation, or the sum of squares behind it, with its degrees of freedom. */
export type RepeatabilityPart = { sumOfSquares: number; degreesOfFreedom: number };

/**
 * The repeatability of a gauge from many short series, each about its own mean.
 *
 *   s = √(Σ SSᵢ / Σ νᵢ)
 *
 * A series known by its standard deviation s of n readings has SS = (n − 1)s² with n − 1 degrees of freedom.
 *
 * Source: NIST/SEMATECH e-Handbook 2.4.4.4.
 *
 * @throws InvalidInput without parts, for a negative sum or degrees of freedom that are not positive
 */
export function pooledRepeatability(parts: readonly RepeatabilityPart[]): {
  standardDeviation: number;
  degreesOfFreedom: number;
} {
  const where = "pooledRepeatability";
  if (parts.length === 0) throw new InvalidInput(where, "parts.length", 0, "at least 1");
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const [i, part] of parts.entries()) {
    requireFiniteNumbers(where, part);
    if (part.sumOfSquares < 0) {
      throw new InvalidInput(where, `parts[${i}].sumOfSquares`, part.sumOfSquares, "at least 0");
    }
    if (part.degreesOfFreedom <= 0) {
      throw new InvalidInput(where, `parts[${i}].degreesOfFreedom`, part.degreesOfFreedom, "positive");
    }
    squares += part.sumOfSquares;
    degreesOfFreedom += part.degreesOfFreedom;
  }
  return { standardDeviation: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
}
