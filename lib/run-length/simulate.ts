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
 * Run length by trying it out: points are drawn until the first signal, again and again.
 *
 *   mean = points drawn / signals,   standard error = s of the run lengths / √signals
 *
 * A simulation stops early after ten million points; points without a signal at its end count with the
 * rest, so that charts that seldom signal are not taken to be quicker than they are.
 *
 * @param begin forgets everything: a new run begins
 * @param signals draws one more point and tells whether the chart signals at it
 * @param runs how many run lengths to draw, from 2 on
 */
export function simulateRuns({
  begin,
  signals,
  runs,
}: {
  begin: () => void;
  signals: () => boolean;
  runs: number;
}): SimulatedRunLength {
  requireCount("simulateRuns", "runs", runs, 2);
  let points = 0;
  let ended = 0;
  // Welford's sums: a million run lengths are added up without losing digits.
  let average = 0;
  let squares = 0;
  while (ended < runs && points < MOST_POINTS) {
    begin();
    let length = 1;
    while (!signals()) {
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

/**
 * Run length of rules by simulation, judged by the same code that judges measured points: for rule sets that
 * have no exact form, and as a check of those that have.
 *
 * @param nextPoint draws the next point, in units of its sigma; told whether a new run begins. Null where
 *   the chart has no point, as a moving range chart at its first reading: it counts all the same.
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
  const state = startJudging(rules);
  let isFirst = true;
  return simulateRuns({
    runs,
    begin() {
      startPhase(state);
      isFirst = true;
    },
    signals() {
      const firings = judgePoint(rules, state, nextPoint(isFirst), state.seen);
      isFirst = false;
      return firings.length > 0;
    },
  });
}
