import type { RulePattern } from "../rules/pattern";
import { normalBetween } from "./normal-between";
import { panelsOn, sharesBelow } from "./panels";
import type { RunLength } from "./run-length";
import { runLengthOf } from "./survival";

export type StepPattern = RulePattern & { kind: "trend" | "alternation" };

/** Pieces of the unit interval, for the polynomials of a trend of up to thirty points. */
const PANELS = 4;

/**
 * Run length of trends and alternations, alone or beside limits at ±`limit` sigma for single points, by an
 * integral equation.
 *
 * What such rules remember is the lengths of the present rise, fall and zigzag, and the last point, since
 * the next step goes up or down from there. With u = Φ(z − shift) a point is uniform whatever the shift,
 * and the density of the last point among the silent charts in a state becomes
 *
 *   after a step up: g(u) = ∫ g(v) dv from the lower limit to u,   after one down: from u to the upper limit
 *
 * so trends and alternations alone have the same run length at every shift, and for every distribution.
 * Densities are kept at Gauss-Legendre nodes in u and integrated as polynomials.
 *
 * Source: the equation is our own; it stands on the step signs of independent points, as in J. Wolfowitz,
 * Annals of Mathematical Statistics 15 (1944) 163-172 (from memory). Checked against other programs.
 *
 * @param limit infinite when there is no rule for single points
 */
export function stepRunLength({
  patterns,
  limit,
  shift,
}: {
  patterns: readonly StepPattern[];
  limit: number;
  shift: number;
}): RunLength {
  const { up, down } = stepStates(patterns);
  const silentSpan = normalBetween(-limit, limit, shift);
  const outside = normalBetween(limit, Number.POSITIVE_INFINITY, shift) + belowChance(limit, shift);

  // Only the length of the stretch of u matters, so it may begin at 0.
  const panels = panelsOn([0, silentSpan], silentSpan / PANELS || 1);
  const { points, weights } = panels;
  const nodes = points.length;
  const below = Array.from(points, (u) => sharesBelow(panels, u));

  // Entry 0 is the chart before its first point; then the nodes of each state in turn.
  const start = new Float64Array(1 + nodes * up.length);
  start[0] = 1;
  const before = (state: number) => 1 + state * nodes;
  const memory = patterns.reduce((most, { of }) => Math.max(most, of), 1);

  return runLengthOf({
    start,
    memory,
    step(now, next) {
      let signalled = now[0]! * outside;
      for (let i = 0; i < nodes; i++) next[1 + i]! += now[0]! * weights[i]!;
      for (let state = 0; state < up.length; state++) {
        const mass = now.subarray(before(state), before(state + 1));
        let whole = 0;
        for (let j = 0; j < nodes; j++) whole += mass[j]!;
        if (whole === 0) continue;
        signalled += whole * outside;
        for (let i = 0; i < nodes; i++) {
          let lower = 0;
          const shares = below[i]!;
          for (let j = 0; j < nodes; j++) lower += shares[j]! * mass[j]!;
          const rising = weights[i]! * lower;
          const falling = weights[i]! * (whole - lower);
          if (up[state] === SIGNAL) signalled += rising;
          else next[before(up[state]!) + i]! += rising;
          if (down[state] === SIGNAL) signalled += falling;
          else next[before(down[state]!) + i]! += falling;
        }
      }
      return signalled;
    },
  });
}

function belowChance(limit: number, shift: number): number {
  return normalBetween(Number.NEGATIVE_INFINITY, -limit, shift);
}

const SIGNAL = -1;

/**
 * All rules' memories of steps as one machine: which state follows a step up, and a step down. State 0 is
 * that after the first point. Ties have no probability.
 */
function stepStates(patterns: readonly StepPattern[]): { up: number[]; down: number[] } {
  // A trend keeps the points of the present rise and fall, an alternation its points and the last step.
  const first = patterns.map(({ kind }): [number, number] => (kind === "trend" ? [1, 1] : [1, 0]));
  const numbers = new Map([[first.join(), 0]]);
  const states = [first];
  const machine = { up: [] as number[], down: [] as number[] };
  for (let state = 0; state < states.length; state++) {
    for (const step of [1, -1]) {
      const after = states[state]!.map((own, i) => afterStep(patterns[i]!, own, step));
      const to = machine[step > 0 ? "up" : "down"];
      if (after.some(([length, other], i) => isComplete(patterns[i]!, length, other))) {
        to.push(SIGNAL);
        continue;
      }
      const key = after.join();
      const number = numbers.get(key) ?? states.length;
      if (number === states.length) {
        numbers.set(key, number);
        states.push(after);
      }
      to.push(number);
    }
  }
  return machine;
}

function afterStep({ kind }: StepPattern, [a, b]: [number, number], step: number): [number, number] {
  if (kind === "trend") return step > 0 ? [a + 1, 1] : [1, b + 1];
  return [b === -step ? a + 1 : 2, step];
}

function isComplete({ kind, of }: StepPattern, a: number, b: number): boolean {
  return a >= of || (kind === "trend" && b >= of);
}
