import { type Computed, computed, problem } from "../computed";
import { normalUpperTail } from "../distributions/normal";
import { mean } from "../summary/moments";

/** `r` between −1 and 1; `z` = r√n; `p` of both tails; `count` the n they rest on. */
export type LagOne = { r: number; z: number; p: number; count: number };

const FEWEST = 3;

/**
 * Do neighbours in time resemble each other? Run rules and the indices' intervals assume they do not.
 *
 *   r = Σ (xₜ − x̄)(xₜ₊₁ − x̄) / Σ (xₜ − x̄)²,  z = r√n
 *
 * z is standard normal for many independent readings; below some 30 it is a rough guide, a little too
 * seldom beyond ±1.96. Values come in the order of time.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.12 (autocorrelation) and 1.3.3.1 (bounds ±z/√n), from memory.
 *
 * @returns the problem "too-few-readings" below three values, "no-variation" when all are alike
 * @throws InvalidInput when a value is not a finite number
 */
export function lagOneAutocorrelation(values: ArrayLike<number>): Computed<LagOne> {
  const count = values.length;
  if (count < FEWEST) return problem({ code: "too-few-readings", needed: FEWEST, got: count });

  const centre = mean(values);
  let products = 0;
  let squares = 0;
  let previous = 0;
  for (let i = 0; i < count; i++) {
    const deviation = values[i]! - centre;
    products += previous * deviation;
    squares += deviation * deviation;
    previous = deviation;
  }
  if (squares === 0) return problem({ code: "no-variation" });

  const r = products / squares;
  const z = r * Math.sqrt(count);
  return computed({ r, z, p: 2 * normalUpperTail(Math.abs(z)), count });
}
