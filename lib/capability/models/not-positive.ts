import type { Problem } from "../../computed";

/** The problem of readings that a distribution above zero cannot hold, with the least of them; null without. */
export function notPositive(values: ArrayLike<number>): Problem | null {
  const least = leastOf(values);
  return least > 0 ? null : { code: "not-positive", least };
}

/** Likewise for a distribution from zero on, which holds zero itself. */
export function negative(values: ArrayLike<number>): Problem | null {
  const least = leastOf(values);
  return least >= 0 ? null : { code: "not-positive", least };
}

function leastOf(values: ArrayLike<number>): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < values.length; i++) if (values[i]! < least) least = values[i]!;
  return least;
}
