import type { RulePattern } from "../rules/pattern";
import type { RunLength } from "./run-length";
import { runLengthOf } from "./survival";
import { SIGNAL, type WindowStates, windowStates } from "./window-states";

export type ZonePattern = RulePattern & { kind: "zone" };

/**
 * Zone rules that are judged together, as one Markov chain.
 *
 * The levels of all rules cut the line into zones; a point is one of them, whatever its exact value. A state
 * is what every rule remembers on each of its sides, as far as it can still matter; where the next point
 * falls decides which state follows, or that some rule fires. Only states that can be reached are made: 295
 * for the four Western Electric rules, of 2 · 2⁷ · 2⁴ · 2² and more that could be written down.
 *
 * It depends on the rules alone, so one chain serves every shift, and every distribution of the points.
 */
export type ZoneChain = {
  /** Ascending; zone i lies between cuts i − 1 and i, the first and last without end. */
  cuts: number[];
  states: number;
  /** By state and zone: the state that follows, or `SIGNAL`. */
  next: Int32Array;
  /** Points the longest rule looks at. */
  memory: number;
};

/** Probability that a standardised point lies between two values, either of which may be infinite. */
export type BetweenProbability = (lower: number, upper: number) => number;

/** Above this the chain would take longer than a simulation. */
const MOST_STATES = 20_000;

/**
 * The chain of the zone rules given, or null when they have too many states to be worth it (two rules of
 * 10 of 20 points, say).
 *
 * Source: C. W. Champ and W. H. Woodall, Technometrics 29 (1987) 393-399 (from memory).
 */
export function zoneChain(patterns: readonly ZonePattern[]): ZoneChain | null {
  const cuts = cutsOf(patterns);
  const machines: Machine[] = [];
  for (const pattern of patterns) {
    const states = windowStates({ count: pattern.count, of: pattern.of, most: MOST_STATES });
    if (states === null) return null;
    for (const holds of sidesOf(pattern)) {
      machines.push({ ...states, isInside: middlesOf(cuts).map(holds) });
    }
  }
  const memory = patterns.reduce((most, { of }) => Math.max(most, of), 1);
  return joined(machines, { cuts, memory });
}

/**
 * Run length of the chain when points are independent and alike.
 *
 * @param between how they are distributed, in units of their own sigma from the centre
 */
export function zoneRunLength(chain: ZoneChain, between: BetweenProbability): RunLength {
  const { cuts, states, next, memory } = chain;
  const zones = cuts.length + 1;
  const chances = Array.from({ length: zones }, (_, zone) =>
    between(cuts[zone - 1] ?? Number.NEGATIVE_INFINITY, cuts[zone] ?? Number.POSITIVE_INFINITY),
  );
  const start = new Float64Array(states);
  start[0] = 1;
  return runLengthOf({
    start,
    memory,
    step(now, after) {
      let signalled = 0;
      for (let state = 0; state < states; state++) {
        const mass = now[state]!;
        if (mass === 0) continue;
        for (let zone = 0; zone < zones; zone++) {
          const to = next[state * zones + zone]!;
          if (to === SIGNAL) signalled += mass * chances[zone]!;
          else after[to]! += mass * chances[zone]!;
        }
      }
      return signalled;
    },
  });
}

type Machine = WindowStates & { isInside: boolean[] };

function joined(machines: readonly Machine[], { cuts, memory }: { cuts: number[]; memory: number }) {
  const zones = cuts.length + 1;
  const start = machines.map(() => 0);
  const numbers = new Map([[start.join(), 0]]);
  const tuples = [start];
  const next: number[] = [];
  for (let state = 0; state < tuples.length; state++) {
    if (tuples.length > MOST_STATES) return null;
    for (let zone = 0; zone < zones; zone++) {
      const after = tuples[state]!.map((own, i) => {
        const { inside, outside, isInside } = machines[i]!;
        return (isInside[zone] ? inside : outside)[own]!;
      });
      if (after.includes(SIGNAL)) {
        next.push(SIGNAL);
        continue;
      }
      const key = after.join();
      const known = numbers.get(key) ?? tuples.length;
      if (known === tuples.length) {
        numbers.set(key, known);
        tuples.push(after);
      }
      next.push(known);
    }
  }
  return { cuts, states: tuples.length, next: Int32Array.from(next), memory };
}

function cutsOf(patterns: readonly ZonePattern[]): number[] {
  const levels = patterns.flatMap(({ distance }) => (distance === 0 ? [0] : [-distance, distance]));
  return [...new Set(levels)].sort((a, b) => a - b);
}

/** A value inside each zone: levels are numbers of sigma, so a whole sigma beyond the outermost will do. */
function middlesOf(cuts: readonly number[]): number[] {
  if (cuts.length === 0) return [0];
  const inner = cuts.slice(1).map((cut, i) => (cuts[i]! + cut) / 2);
  return [cuts[0]! - 1, ...inner, cuts.at(-1)! + 1];
}

function sidesOf({ where, distance }: ZonePattern): ((z: number) => boolean)[] {
  switch (where) {
    case "beyond one side":
      return [(z) => z > distance, (z) => z < -distance];
    case "beyond any side":
      return [(z) => Math.abs(z) > distance];
    case "within":
      return [(z) => Math.abs(z) < distance];
  }
}
