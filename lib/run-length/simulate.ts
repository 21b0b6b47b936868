import { requireCount } from "../checks";
import { judgePoint, startJudging, startPhase } from "../rules/judge";
import type { RunRule } from "../rules/rule";

/** What a simulation found. `mean` and the others are null when hardly any of its runs came to an end. */
export type SimulatedRunLength = {
  mean: number | null;
  sd: number | null;
  /** Of the mean: it lies within four of these, all but once in 16,000. */
  standardError: number | null;
  /** Runs that came to a signal. */
  runs: number;
};

/** Work of some two seconds. */
const MOST_POINTS = 10_000_000;

/** With fewer runs the mean is off by a tenth and more. */
const FEWEST_RUNS = 100;

/**
 * Run length of rules by trying it out: points are drawn and judged by the same code that judges measured
 * ones, until the first signal, again and again.
 *
 *   mean = points drawn / signals,   standard error = s of the run lengths / √signals
 *
 * For rule sets that have no exact form, and as a check of those that have. A simulation stops early after
 * ten million points; points without a signal at its end count with the rest, so that rules that seldom
 * fire are not taken to be quicker than they are.
 *
 * @param nextPoint draws the next point, in units of its sigma; told whether a new run begins
 * @param runs how many run lengths to draw, from 2 on
 */
export function simulateRunLength({
  rules,
  nextPoint,
  runs,
}: {
  rules: readonly RunRule[];
  nextPoint: (isFirst: boolean) => number | null;
  runs: number;
}): SimulatedRunLength {
  requireCount("simulateRunLength", "runs", runs, 2);
  const state = startJudging(rules);
  let points = 0;
  let ended = 0;
  // Welford's sums: a million run lengths are added up without losing digits.
  let average = 0;
  let squares = 0;
  while (ended < runs && points < MOST_POINTS) {
    startPhase(state);
    let length = 1;
    while (judgePoint(rules, state, nextPoint(length === 1), length).length === 0) {
      if (points + length >= MOST_POINTS) return found({ points: MOST_POINTS, ended, squares });
      length++;
    }
    points += length;
    ended++;
    const difference = length - average;
    average += difference / ended;
    squares += difference * (length - average);
  }
  return found({ points, ended, squares });
}

function found({ points, ended, squares }: { points: number; ended: number; squares: number }) {
  if (points >= MOST_POINTS && ended < FEWEST_RUNS) {
    return { mean: null, sd: null, standardError: null, runs: ended };
  }
  const sd = Math.sqrt(squares / (ended - 1));
  return { mean: points / ended, sd, standardError: sd / Math.sqrt(ended), runs: ended };
}
