import { InvalidInput, requireCount, requireFinite } from "../checks";
import { randomStream } from "../random/random-stream";
import type { RunRule } from "../rules/rule";
import { normalBetween } from "./normal-between";
import { FARTHEST_SHIFT } from "./run-length";
import { simulateRunLength } from "./simulate";
import { type StepPattern, stepRunLength } from "./step-chain";
import { type ZoneChain, type ZonePattern, zoneChain, zoneRunLength } from "./zone-chain";

export type RunLengthMethod = "markov-chain" | "integral-equation" | "simulation";

/** The run length at one shift; `standardError` is null where the figure is exact. */
export type RunLengthAt = {
  /** How far the mean of the plotted points lies off the centre, in their sigma. */
  shift: number;
  /** Null when a simulation of ten million points saw hardly any signal: it is longer than 100,000. */
  mean: number | null;
  sd: number | null;
  standardError: number | null;
  method: RunLengthMethod;
};

/** How a simulation is to be run where one is needed: the same seed gives the same figures. */
export type SimulationPlan = { seed: number; runs: number };

/**
 * Average run length of a set of run rules on a chart of independent normal points with known limits,
 * shifted from the first point on (zero state); the signalling point counts.
 *
 * - Zone rules of any kind ("k of m", one-side runs, within and outside): exact, as a Markov chain on what
 *   all of them remember together.
 * - Trends and alternations, alone or beside limits for single points: exact, by an integral equation.
 * - Both together, or zone rules with more states than are worth it: simulation with the judging code.
 *
 * Limits from a baseline of 25 subgroups are themselves uncertain: one feature's false alarms then come
 * more often than this says, another's less (C. P. Quesenberry, Journal of Quality Technology 25 (1993)
 * 237-247, from memory). Over a plant the figure is the one to plan with, a little on the hopeful side.
 *
 * A pure number of points. Four rules at seven shifts take some milliseconds, a simulation about 0.1 s for
 * a million points. The same question is answered from memory.
 *
 * Source: C. W. Champ and W. H. Woodall, Technometrics 29 (1987) 393-399 (from memory).
 *
 * @throws InvalidInput when there is no rule, a shift is not finite or beyond ±20, or the simulation's seed
 *   or number of runs is not a whole number in range
 */
export function rulesRunLengths({
  rules,
  shifts,
  simulation,
}: {
  rules: readonly RunRule[];
  shifts: readonly number[];
  simulation: SimulationPlan;
}): RunLengthAt[] {
  requireQuestion({ rules, shifts, simulation });
  const rulesKey = `${keyOf(rules)}; ${simulation.seed} ${simulation.runs}`;
  let at: Method | undefined;
  return shifts.map((shift) => {
    const key = `${rulesKey} ${shift}`;
    const known = answered.get(key);
    if (known) return known;
    at ??= methodFor(rules);
    const answer = at(shift, simulation);
    if (answered.size >= MOST_ANSWERS) answered.clear();
    answered.set(key, answer);
    return answer;
  });
}

/** Pages ask for the same few rule sets again and again. */
const answered = new Map<string, RunLengthAt>();
const MOST_ANSWERS = 5_000;

/** What rules look for, in one line: two sets that judge alike have the same one. */
export function keyOf(rules: readonly RunRule[]): string {
  return rules
    .map(({ pattern }) =>
      pattern.kind === "zone"
        ? `${pattern.count}/${pattern.of} ${pattern.where} ${pattern.distance}`
        : `${pattern.kind} ${pattern.of}`,
    )
    .sort()
    .join("; ");
}

type Method = (shift: number, simulation: SimulationPlan) => RunLengthAt;

function methodFor(rules: readonly RunRule[]): Method {
  const zones: ZonePattern[] = [];
  const steps: StepPattern[] = [];
  for (const { pattern } of rules) {
    if (pattern.kind === "zone") zones.push(pattern);
    else steps.push(pattern);
  }
  if (steps.length === 0) {
    const chain = zoneChain(zones);
    if (chain !== null) return byChain(chain);
  } else if (zones.every(isLimit)) {
    const limit = Math.min(...zones.map(({ distance }) => distance));
    return byEquation(steps, limit);
  }
  return bySimulation(rules);
}

/** A rule for single points beyond a distance on either side. */
function isLimit({ where, count }: ZonePattern): boolean {
  return where !== "within" && count === 1;
}

function byChain(chain: ZoneChain): Method {
  return (shift) => {
    const { mean, sd } = zoneRunLength(chain, (lower, upper) => normalBetween(lower, upper, shift));
    return { shift, mean, sd, standardError: null, method: "markov-chain" };
  };
}

function byEquation(patterns: readonly StepPattern[], limit: number): Method {
  return (shift) => {
    const { mean, sd } = stepRunLength({ patterns, limit, shift });
    return { shift, mean, sd, standardError: null, method: "integral-equation" };
  };
}

function bySimulation(rules: readonly RunRule[]): Method {
  return (shift, { seed, runs }) => {
    const random = randomStream(seed, `run length at ${shift}`);
    const nextPoint = () => random.normal() + shift;
    const { mean, sd, standardError } = simulateRunLength({ rules, nextPoint, runs });
    return { shift, mean, sd, standardError, method: "simulation" };
  };
}

function requireQuestion({
  rules,
  shifts,
  simulation,
}: {
  rules: readonly RunRule[];
  shifts: readonly number[];
  simulation: SimulationPlan;
}): void {
  const where = "rulesRunLengths";
  if (rules.length === 0) throw new InvalidInput(where, "rules.length", 0, "at least 1");
  requireFinite(where, "shifts", shifts);
  for (const [i, shift] of shifts.entries()) {
    if (Math.abs(shift) > FARTHEST_SHIFT) {
      throw new InvalidInput(where, `shifts[${i}]`, shift, `within ±${FARTHEST_SHIFT}`);
    }
  }
  requireCount(where, "simulation.seed", simulation.seed, 0, 0xffffffff);
  requireCount(where, "simulation.runs", simulation.runs, 2);
}
