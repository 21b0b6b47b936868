/**
 * A broken argument: the caller handed over something the function cannot work with.
 *
 * It carries the function, the field and the value, so that a page or the command line can say what was
 * wrong and where. Shortages that a running line meets every day (one reading, no tolerance yet) are
 * `Computed` values instead.
 */
export class InvalidInput extends Error {
  override name = "InvalidInput";

  constructor(
    readonly where: string,
    readonly field: string,
    readonly value: unknown,
    needs: string,
  ) {
    super(`${where} requires ${field} to be ${needs}, got ${shown(value)}`);
  }
}

function shown(value: unknown): string {
  if (typeof value === "string") return JSON.stringify(value);
  if (Array.isArray(value)) return `${value.length} values`;
  return String(value);
}

/** Throws `InvalidInput` naming the first element that is NaN or infinite. */
export function requireFinite(where: string, field: string, values: ArrayLike<number>): void {
  for (let i = 0; i < values.length; i++) {
    if (!Number.isFinite(values[i])) {
      throw new InvalidInput(where, `${field}[${i}]`, values[i], "a finite number");
    }
  }
}

/** Throws `InvalidInput` when one of the named numbers is NaN or infinite. */
export function requireFiniteNumbers(where: string, numbers: Record<string, number>): void {
  for (const [field, value] of Object.entries(numbers)) {
    if (!Number.isFinite(value)) throw new InvalidInput(where, field, value, "a finite number");
  }
}

/** Throws `InvalidInput` unless the value is a whole number of at least `least` (and at most `most`). */
export function requireCount(
  where: string,
  field: string,
  value: number,
  least: number,
  most = Number.POSITIVE_INFINITY,
): void {
  if (!Number.isInteger(value) || value < least || value > most) {
    const range = most === Number.POSITIVE_INFINITY ? `of at least ${least}` : `from ${least} to ${most}`;
    throw new InvalidInput(where, field, value, `a whole number ${range}`);
  }
}
