import type { RunLength } from "./run-length";

/**
 * A chart as a Markov chain: where its memory may stand after a point without signal, as probabilities (or
 * as the weights of a density at nodes), and how one more point changes that.
 */
export type SurvivalChain = {
  /** Of the memory before the first point; adds up to 1. */
  start: ArrayLike<number>;
  /**
   * Writes into `next` what one more point makes of `now`, and returns how much of it signalled, reckoned
   * by itself: as the rest to 1 it would lose its digits when signals are rare.
   */
  step(now: Float64Array, next: Float64Array): number;
  /** No point older than this many matters. */
  memory: number;
};

/** Enough for every pattern of up to thirty points; most end far earlier, at the first of the two ends. */
const MOST_STEPS = 3_000;

/** Share of signals per point that no longer changes; rounding itself moves it by 1e-16 and more. */
const SETTLED = 1e-14;

/** What is left of a chance of survival below this changes no digit of the mean. */
const NOTHING_LEFT = 1e-20;

/**
 * Mean and standard deviation of the run length, from the chance Sₜ that the chart is still silent after t
 * points:
 *
 *   E N = Σ Sₜ,   E N² = Σ (2t + 1) Sₜ,   Sₜ₊₁ = Sₜ (1 − eₜ)
 *
 * eₜ is the share of the charts silent so far that signal at the next point. The distribution of the memory
 * among the silent ones is carried along, scaled to 1; a memory of a few points soon forgets how it began,
 * eₜ settles at a value e, and the rest of both sums is a geometric series. A set of eight in a row with
 * shorter rules needs some sixty steps, whether the mean is five or five million. Everything added is
 * positive, so a mean of millions keeps its digits; solving (I − Q)m = 1 as a system was tried on paper and
 * rejected: more work, and I − Q is near singular exactly when the mean is long.
 *
 * Source: the distribution among survivors as in J. N. Darroch and E. Seneta, Journal of Applied
 * Probability 2 (1965) 88-100; the run length as the time to absorption, D. Brook and D. A. Evans,
 * Biometrika 59 (1972) 539-549 (both from memory).
 */
export function runLengthOf({ start, step, memory }: SurvivalChain): RunLength {
  let now = Float64Array.from(start);
  let next = new Float64Array(now.length);
  let silent = 1;
  let mean = 0;
  let square = 0;
  let lastShare = 0;
  let settledFor = 0;
  for (let t = 0; t < MOST_STEPS; t++) {
    next.fill(0);
    const signalled = step(now, next);
    const share = signalled / (signalled + rescaled(next));
    const isSettled = share > 0 && Math.abs(share - lastShare) <= SETTLED * share;
    settledFor = isSettled ? settledFor + 1 : 0;
    lastShare = share;
    // A rule of thirty points adds nothing before its thirtieth, so standing still for less means nothing.
    if (settledFor > memory + 2) {
      const rest = (1 - share) / share;
      mean += silent / share;
      square += (silent * (2 * t + 1 + 2 * rest)) / share;
      return withDeviation(mean, square);
    }
    mean += silent;
    square += (2 * t + 1) * silent;
    silent *= 1 - share;
    if (silent < NOTHING_LEFT) return withDeviation(mean, square);
    [now, next] = [next, now];
  }
  // Rounding keeps the share of signals wandering in its last digits (a trend of thirty points comes once in
  // 10²⁹); its last value is as good as any.
  return withDeviation(mean + silent / lastShare, square + (2 * silent) / lastShare ** 2);
}

function withDeviation(mean: number, square: number): RunLength {
  return { mean, sd: Math.sqrt(Math.max(0, square - mean * mean)) };
}

/** Scales to a sum of 1, so that rounding cannot pile up over the steps; returns the sum there was. */
function rescaled(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  if (sum > 0) for (let i = 0; i < values.length; i++) values[i]! /= sum;
  return sum;
}
