import { InvalidInput, requireFiniteNumbers } from "../checks";
import { normalDensity } from "../distributions/normal";
import { normalBetween } from "./normal-between";
import { panelsOn, sharesBelow } from "./panels";
import { FARTHEST_SHIFT, type RunLength } from "./run-length";
import { runLengthOf } from "./survival";

/** Beyond this a normal reading lies less than once in 10¹⁸. */
const FARTHEST_READING = 9;

/** In sigma: sixteen nodes carry a normal density over this width to the last digits. */
const WIDEST_PANEL = 1.2;

/**
 * Run length of single readings with a limit on the reading and one on the moving range of two, whichever
 * is passed first, by an integral equation.
 *
 *   h(x) = 1 + ∫ h(y) φ(y − shift) dy   over abs y ≤ limit and abs(y − x) ≤ moving range limit
 *
 * h(x) is the expected number of further readings when the last one was x and all is quiet; the first
 * reading has no moving range. The two charts share their readings, so their alarm rates do not add up:
 * 3 sigma on both gives 105 readings per false alarm where readings alone give 370.
 *
 * h bends where a limit on the reading and one on the range meet, at ±(limit − j · range limit); between
 * those it is smooth, so that each piece gets nodes of its own.
 *
 * All numbers are in sigma of single readings, which is taken as known.
 *
 * Source: S. V. Crowder, Technometrics 29 (1987) 161-169 (from memory).
 *
 * @param individualsLimit null for the moving range chart alone
 * @throws InvalidInput when a number is not finite, a limit is not above 0, or the shift is beyond ±20
 */
export function individualsRunLength({
  individualsLimit,
  movingRangeLimit,
  shift,
}: {
  individualsLimit: number | null;
  movingRangeLimit: number;
  shift: number;
}): RunLength {
  requireNumbers({ individualsLimit, movingRangeLimit, shift });
  // A constant shift leaves ranges as they are: alone, they may be reckoned about 0.
  const about = individualsLimit === null ? 0 : shift;
  const reach = individualsLimit ?? FARTHEST_READING;
  const panels = panelsOn(cutsWithin(reach, movingRangeLimit), WIDEST_PANEL);
  const { points, weights } = panels;
  const nodes = points.length;

  const densities = points.map((y, i) => weights[i]! * normalDensity(y - about));
  const outside = normalBetween(reach, Infinity, about) + normalBetween(-Infinity, -reach, about);
  // By the last reading: the chance that the next one is inside its own limit but too far away.
  const tooFar = points.map(
    (x) =>
      between(-reach, Math.max(-reach, x - movingRangeLimit), about) +
      between(Math.min(reach, x + movingRangeLimit), reach, about),
  );
  const near = Array.from(points, (y) => {
    const upTo = sharesBelow(panels, y + movingRangeLimit);
    const from = sharesBelow(panels, y - movingRangeLimit);
    return upTo.map((share, j) => share - from[j]!);
  });

  // Entry 0 is the chart before its first reading.
  const start = new Float64Array(1 + nodes);
  start[0] = 1;
  return runLengthOf({
    start,
    memory: 2,
    step(now, next) {
      let signalled = now[0]! * outside;
      for (let j = 0; j < nodes; j++) signalled += now[1 + j]! * (outside + tooFar[j]!);
      for (let i = 0; i < nodes; i++) {
        let sum = now[0]!;
        const shares = near[i]!;
        for (let j = 0; j < nodes; j++) sum += shares[j]! * now[1 + j]!;
        next[1 + i] = densities[i]! * sum;
      }
      return signalled;
    },
  });
}

function between(lower: number, upper: number, shift: number): number {
  return upper > lower ? normalBetween(lower, upper, shift) : 0;
}

function cutsWithin(reach: number, range: number): number[] {
  const cuts = [-reach, reach];
  for (let cut = reach - range; cut > -reach; cut -= range) cuts.push(cut, -cut);
  const ordered = cuts.sort((a, b) => a - b);
  // Two cuts that meet but for rounding would leave a piece of no width.
  return ordered.filter((cut, i) => i === 0 || cut - ordered[i - 1]! > 1e-12);
}

const LEAST_RANGE_LIMIT = 0.05;

function requireNumbers(given: {
  individualsLimit: number | null;
  movingRangeLimit: number;
  shift: number;
}): void {
  const where = "individualsRunLength";
  const { individualsLimit, movingRangeLimit, shift } = given;
  requireFiniteNumbers(where, { movingRangeLimit, shift });
  if (Math.abs(shift) > FARTHEST_SHIFT) {
    throw new InvalidInput(where, "shift", shift, `within ±${FARTHEST_SHIFT}`);
  }
  if (movingRangeLimit < LEAST_RANGE_LIMIT) {
    throw new InvalidInput(where, "movingRangeLimit", movingRangeLimit, `at least ${LEAST_RANGE_LIMIT}`);
  }
  if (individualsLimit === null) return;
  if (!(individualsLimit > 0 && individualsLimit <= FARTHEST_READING)) {
    const needs = `above 0 and at most ${FARTHEST_READING}, or null`;
    throw new InvalidInput(where, "individualsLimit", individualsLimit, needs);
  }
}
