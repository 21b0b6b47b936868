import { requireFinite } from "../../checks";
import { type Computed, computed, problem } from "../../computed";
import { negative } from "./not-positive";

/** A location below this share of the root mean square is no different from 0 in any figure. */
const LEAST_SHARE = 1e-3;

/** Where a second stationary point is looked for when the first one may be a saddle. */
const SCAN = 24;

/**
 * Location m and scale s of a folded normal distribution, by maximum likelihood.
 *
 *   s² = mean of x² − m²,   m = mean of x·tanh(m·x / s²)
 *
 * m = 0, the half normal, always solves this. When the mean of x⁴ is below three times the square of the mean
 * of x² another solution with higher likelihood exists; else a scan looks for one, and likelihood decides.
 *
 * Source: F. C. Leone, L. S. Nelson and R. B. Nottingham, Technometrics 3 (1961) 543-550 (from memory); the
 * equations by setting the derivatives of the likelihood to zero.
 *
 * @returns the problems "too-few-readings" below two, "not-positive" for a negative reading, "no-variation"
 * @throws InvalidInput when a reading is not a finite number
 */
export function fitFoldedNormal(values: ArrayLike<number>): Computed<{ location: number; scale: number }> {
  requireFinite("fitFoldedNormal", "values", values);
  const n = values.length;
  if (n < 2) return problem({ code: "too-few-readings", needed: 2, got: n });
  const refused = negative(values);
  if (refused) return problem(refused);

  let squares = 0;
  let fourths = 0;
  let spread = 0;
  for (let i = 0; i < n; i++) {
    const square = values[i]! * values[i]!;
    squares += square;
    fourths += square * square;
    if (values[i] !== values[0]) spread++;
  }
  if (spread === 0) return problem({ code: "no-variation" });
  const second = squares / n;
  const rms = Math.sqrt(second);

  // In units of the root mean square: r = m/rms, s² = 1 − r².
  const scaled = Float64Array.from(values, (x) => x / rms);
  const excess = (r: number) => {
    const factor = r / (1 - r * r);
    let sum = 0;
    for (const x of scaled) sum += x * Math.tanh(factor * x);
    return sum / n - r;
  };
  const share = locationShare(excess, { lightTailed: fourths / n < 3 * second * second, scaled });
  return computed({ location: share * rms, scale: rms * Math.sqrt((1 - share) * (1 + share)) });
}

function locationShare(
  excess: (r: number) => number,
  { lightTailed, scaled }: { lightTailed: boolean; scaled: Float64Array },
): number {
  const top = 1 - 1e-12;
  if (lightTailed) return excess(LEAST_SHARE) <= 0 ? 0 : root(excess, LEAST_SHARE, top);
  // The last place where the excess is still positive starts the bracket of the highest solution.
  for (let k = SCAN - 1; k > 0; k--) {
    const low = k / SCAN;
    if (excess(low) <= 0) continue;
    const found = root(excess, low, top);
    return logLikelihood(scaled, found) > logLikelihood(scaled, 0) ? found : 0;
  }
  return 0;
}

/** Up to a constant, for readings of root mean square 1. */
function logLikelihood(scaled: Float64Array, r: number): number {
  const variance = 1 - r * r;
  let sum = 0;
  for (const x of scaled) {
    sum += -((x - r) ** 2) / (2 * variance) + Math.log1p(Math.exp((-2 * r * x) / variance));
  }
  return sum - (scaled.length / 2) * Math.log(variance);
}

/** The zero of a function that is positive at `low` and negative at `high`: false position, Illinois variant. */
function root(f: (x: number) => number, low: number, high: number): number {
  let [a, fa] = [low, f(low)];
  let [b, fb] = [high, f(high)];
  for (let k = 0; k < 200; k++) {
    const x = Math.abs(fb - fa) > 0 ? b - (fb * (b - a)) / (fb - fa) : (a + b) / 2;
    const fx = f(x);
    if (fx === 0 || Math.abs(x - b) <= 4e-16) return x;
    if (fx * fb < 0) [a, fa] = [b, fb];
    else fa /= 2;
    [b, fb] = [x, fx];
  }
  return b;
}
