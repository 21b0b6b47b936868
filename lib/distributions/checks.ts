import { InvalidInput, requireFiniteNumbers } from "../checks";

/** Throws `InvalidInput` unless 0 < p < 1. */
export function requireProbability(where: string, field: string, p: number): void {
  if (!(p > 0 && p < 1)) throw new InvalidInput(where, field, p, "a probability between 0 and 1");
}

/** Throws `InvalidInput` when one of the named parameters is not a positive finite number. */
export function requirePositive(where: string, numbers: Record<string, number>): void {
  requireFiniteNumbers(where, numbers);
  for (const [field, value] of Object.entries(numbers)) {
    if (value <= 0) throw new InvalidInput(where, field, value, "positive");
  }
}
