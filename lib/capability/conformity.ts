import { InvalidInput, requireFinite, requireFiniteNumbers } from "../checks";
import type { Tolerance } from "../plan/feature-plan";

/** Between the first two nothing can be proved: supplier and customer would both be right. */
export type Verdict = "conforms" | "not provable" | "does not conform";

export type ConformityZones = {
  /** Where a reading proves that the piece conforms; null when the guard bands leave no room. */
  conformance: Tolerance | null;
  /** Beyond these a reading proves that the piece does not conform. */
  nonConformance: Tolerance;
};

/**
 * Zones of a tolerance when readings are uncertain by ±U.
 *
 *   conformance L + U to U₀ − U,  non-conformance below L − U and above U₀ + U,  between them not provable
 *
 * Who has to prove takes the guard band on himself: a supplier delivers from the conformance zone, a customer rejects
 * from the non-conformance zone. Fewer pieces are accepted the larger U is; a better gauge pays there.
 *
 * `uncertainty` is the expanded one, in the unit of the tolerance, with the factor that both sides agreed on.
 *
 * Source: ISO 14253-1 (from memory).
 *
 * @throws InvalidInput when a number is not finite, the uncertainty negative, the limits swapped or both absent
 */
export function conformityZones({
  tolerance,
  uncertainty,
}: {
  tolerance: Tolerance;
  uncertainty: number;
}): ConformityZones {
  const where = "conformityZones";
  const { lower, upper } = tolerance;
  requireFiniteNumbers(where, { uncertainty });
  if (uncertainty < 0) throw new InvalidInput(where, "uncertainty", uncertainty, "at least 0");
  if (lower !== null) requireFiniteNumbers(where, { "tolerance.lower": lower });
  if (upper !== null) requireFiniteNumbers(where, { "tolerance.upper": upper });
  if (lower === null && upper === null) {
    throw new InvalidInput(where, "tolerance", null, "a tolerance with at least one limit");
  }
  if (lower !== null && upper !== null && lower >= upper) {
    throw new InvalidInput(where, "tolerance.lower", lower, `below the upper limit ${upper}`);
  }
  const conformance = {
    lower: lower === null ? null : lower + uncertainty,
    upper: upper === null ? null : upper - uncertainty,
  };
  const isEmpty =
    conformance.lower !== null && conformance.upper !== null && conformance.lower > conformance.upper;
  return {
    conformance: isEmpty ? null : conformance,
    nonConformance: {
      lower: lower === null ? null : lower - uncertainty,
      upper: upper === null ? null : upper + uncertainty,
    },
  };
}

/**
 * What a reading proves. A reading on the edge of the conformance zone conforms; one on the edge of the
 * non-conformance zone proves nothing yet.
 *
 * @throws InvalidInput when the value is not finite
 */
export function verdictOf(value: number, { conformance, nonConformance }: ConformityZones): Verdict {
  requireFiniteNumbers("verdictOf", { value });
  if (conformance !== null && isInside(value, conformance)) return "conforms";
  return isInside(value, nonConformance) ? "not provable" : "does not conform";
}

/**
 * How many readings prove what.
 *
 * @throws InvalidInput when a reading is not finite
 */
export function countVerdicts(values: ArrayLike<number>, zones: ConformityZones): Record<Verdict, number> {
  requireFinite("countVerdicts", "values", values);
  const counts: Record<Verdict, number> = { conforms: 0, "not provable": 0, "does not conform": 0 };
  for (let i = 0; i < values.length; i++) counts[verdictOf(values[i]!, zones)]++;
  return counts;
}

function isInside(value: number, { lower, upper }: Tolerance): boolean {
  return (lower === null || value >= lower) && (upper === null || value <= upper);
}
