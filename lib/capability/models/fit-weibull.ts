import { requireFinite } from "../../checks";
import { type Computed, computed, problem } from "../../computed";
import { notPositive } from "./not-positive";

const MOST_STEPS = 100;

/**
 * Shape and scale of a Weibull distribution from zero, by maximum likelihood.
 *
 *   Σ xᵏ ln x / Σ xᵏ − 1/k = mean of ln x,   λ = (mean of xᵏ)^(1/k)
 *
 * The left side rises with k, so Newton's method from the moments of ln x closes in within some six steps; a
 * step that would leave k > 0 is halved. Readings are taken relative to the largest, so that no power overflows.
 *
 * Source: A. C. Cohen, Technometrics 7 (1965) 579-588 (from memory).
 *
 * @returns the problems "too-few-readings" below two, "not-positive", "no-variation"
 * @throws InvalidInput when a reading is not a finite number
 */
export function fitWeibull(values: ArrayLike<number>): Computed<{ shape: number; scale: number }> {
  requireFinite("fitWeibull", "values", values);
  const n = values.length;
  if (n < 2) return problem({ code: "too-few-readings", needed: 2, got: n });
  const refused = notPositive(values);
  if (refused) return problem(refused);

  let top = 0;
  for (let i = 0; i < n; i++) top = Math.max(top, values[i]!);
  const logs = Float64Array.from(values, (x) => Math.log(x / top));
  let sum = 0;
  for (const log of logs) sum += log;
  const meanLog = sum / n;
  let squares = 0;
  for (const log of logs) squares += (log - meanLog) ** 2;
  if (squares === 0) return problem({ code: "no-variation" });

  // ln X of a Weibull X has the standard deviation π / (k√6).
  let shape = Math.PI / Math.sqrt((6 * squares) / (n - 1));
  for (let k = 0; k < MOST_STEPS; k++) {
    const { zero, one, two } = powerSums(logs, shape);
    const ratio = one / zero;
    const excess = ratio - 1 / shape - meanLog;
    const slope = two / zero - ratio * ratio + 1 / (shape * shape);
    const next = shape - excess / slope;
    const before = shape;
    shape = next > 0 ? next : shape / 2;
    if (Math.abs(shape - before) <= 4e-16 * shape) break;
  }
  const scale = top * (powerSums(logs, shape).zero / n) ** (1 / shape);
  return computed({ shape, scale });
}

/** Σ xᵏ, Σ xᵏ ln x and Σ xᵏ ln² x. */
function powerSums(logs: Float64Array, shape: number): { zero: number; one: number; two: number } {
  let zero = 0;
  let one = 0;
  let two = 0;
  for (const log of logs) {
    const power = Math.exp(shape * log);
    zero += power;
    one += power * log;
    two += power * log * log;
  }
  return { zero, one, two };
}
