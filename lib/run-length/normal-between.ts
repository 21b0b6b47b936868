import { normalCdf, normalUpperTail } from "../distributions/normal";

/** P(lower < Z + shift ≤ upper) of a standard normal Z, without cancellation in either tail. */
export function normalBetween(lower: number, upper: number, shift: number): number {
  const from = lower - shift;
  const to = upper - shift;
  return from > 0 ? normalUpperTail(from) - normalUpperTail(to) : normalCdf(to) - normalCdf(from);
}
