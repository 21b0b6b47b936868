import { type Computed, computed, problem } from "../computed";
import { groupReadings } from "./groups";

/** Variances, in the square of the unit, and the mean over groups that goes with them. */
export type RestrictedComponents = { between: number; within: number; mean: number };

/** The ratio of the components is looked for in this range of its logarithm, and at 0. */
const RANGE = { from: -25, to: 15, steps: 160 };
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Variance between and within groups of unequal size, by restricted maximum likelihood.
 *
 *   −2ℓ(θ) = (N − 1) ln σ̂² + Σ ln(1 + nᵢθ) + ln Σ wᵢ,  θ = between/within,  wᵢ = nᵢ/(1 + nᵢθ)
 *   μ̂ = Σ wᵢx̄ᵢ / Σ wᵢ,  σ̂² = [SS within + Σ wᵢ(x̄ᵢ − μ̂)²] / (N − 1)
 *
 * Where groups differ much in size it uses them better than the estimate from mean squares (lib/components/nested),
 * with which it agrees for equal sizes unless that is negative; here a component is never below 0.
 *
 * Source: H. D. Patterson and R. Thompson, Biometrika 58 (1971) 545-554 (from memory).
 *
 * @returns the problem "too-few-subgroups" below two groups, "too-few-readings" when no group has two, "no-variation"
 *   when nothing varies within
 * @throws InvalidInput when the lengths differ or a reading is not a finite number
 */
export function restrictedComponents(
  values: ArrayLike<number>,
  ids: ArrayLike<number>,
): Computed<RestrictedComponents> {
  const { counts, means, squares } = groupReadings("restrictedComponents", values, ids);
  const N = values.length;
  if (counts.length < 2) return problem({ code: "too-few-subgroups", needed: 2, got: counts.length });
  if (N === counts.length) return problem({ code: "too-few-readings", needed: N + 1, got: N });
  const within = squares.reduce((sum, square) => sum + square, 0);
  if (within === 0) return problem({ code: "no-variation" });

  const at = (theta: number) => {
    let weight = 0;
    let weighted = 0;
    let logs = 0;
    for (let i = 0; i < counts.length; i++) {
      const w = counts[i]! / (1 + counts[i]! * theta);
      weight += w;
      weighted += w * (means[i]! - means[0]!);
      logs += Math.log1p(counts[i]! * theta);
    }
    const offset = weighted / weight;
    let about = 0;
    for (let i = 0; i < counts.length; i++) {
      const w = counts[i]! / (1 + counts[i]! * theta);
      about += w * (means[i]! - means[0]! - offset) ** 2;
    }
    const variance = (within + about) / (N - 1);
    const cost = (N - 1) * Math.log(variance) + logs + Math.log(weight);
    return { cost, within: variance, between: theta * variance, mean: means[0]! + offset };
  };

  const zero = at(0);
  let best = RANGE.from;
  const step = (RANGE.to - RANGE.from) / RANGE.steps;
  for (let k = 0; k <= RANGE.steps; k++) {
    const u = RANGE.from + k * step;
    if (at(Math.exp(u)).cost < at(Math.exp(best)).cost) best = u;
  }
  const found = at(Math.exp(lowest((u) => at(Math.exp(u)).cost, best - step, best + step)));
  const { between, within: inside, mean } = zero.cost <= found.cost ? zero : found;
  return computed({ between, within: inside, mean });
}

/** The lowest point of a function with one valley, by golden sections. */
function lowest(f: (x: number) => number, from: number, to: number): number {
  let [a, b] = [from, to];
  let [x, y] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
  let [fx, fy] = [f(x), f(y)];
  while (b - a > 1e-9) {
    if (fx <= fy) {
      [b, y, fy] = [y, x, fx];
      x = b - GOLDEN * (b - a);
      fx = f(x);
    } else {
      [a, x, fx] = [x, y, fy];
      y = a + GOLDEN * (b - a);
      fy = f(y);
    }
  }
  return (a + b) / 2;
}
