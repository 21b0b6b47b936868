import { requireCount } from "../checks";
import { D2_OF_TWO, D3_OF_TWO } from "../constants/control-chart-constants";
import { standardiseSpread } from "../limits/standardise";
import type { ChartKind } from "../plan/feature-plan";
import { randomStream } from "../random/random-stream";
import { judgePoint, startJudging, startPhase } from "../rules/judge";
import { rulesForSpread } from "../rules/known-rules";
import type { RunRule } from "../rules/rule";
import { summarise } from "../subgroups/summarise";
import { individualsRunLength } from "./individuals-moving-range";
import { keyOf, type RunLengthMethod, rulesRunLengths, type SimulationPlan } from "./rules-run-length";
import { simulateRunLength, simulateRuns } from "./simulate";
import { spreadBetween } from "./spread-between";
import { zoneChain, zoneRunLength } from "./zone-chain";

/** Subgroups per false alarm; null when it is longer than could be simulated. */
export type AlarmFreeRun = {
  subgroups: number | null;
  standardError: number | null;
  method: RunLengthMethod;
};

/** What is asked: the rules of a feature's two charts, and how long to simulate where nothing exact is known. */
export type RulesOnChart = {
  chart: ChartKind;
  subgroupSize: number;
  rules: readonly RunRule[];
  simulation: SimulationPlan;
};

export type FalseAlarms = {
  location: AlarmFreeRun;
  /** Null where the chart has no spread to plot, or none of the rules applies to it. */
  spread: AlarmFreeRun | null;
  /** Both charts as one: the first signal of either. */
  together: AlarmFreeRun;
};

/**
 * How many subgroups a feature's two charts run, on average, until a signal that means nothing.
 *
 * - Location: `rulesRunLengths` at shift 0.
 * - Spread: the rules that apply to it, on the exact distribution of R or s; no normal approximation.
 * - Together: mean and spread of normal readings are independent, so their alarm rates add up,
 *   1/together = 1/location + 1/spread. Single readings and their moving ranges are not: one wild reading
 *   signals on both. There the two are reckoned as one, exactly for limits, by simulation for other rules.
 *
 * Normal independent readings, known limits.
 *
 * @throws InvalidInput when there is no rule, the size does not fit the chart, or the simulation plan is not
 *   of whole numbers in range
 */
export function falseAlarms({ chart, subgroupSize, rules, simulation }: RulesOnChart): FalseAlarms {
  requireCount("falseAlarms", "subgroupSize", subgroupSize, 1, chart === "i-mr" ? 1 : undefined);
  const [found] = rulesRunLengths({ rules, shifts: [0], simulation });
  const { mean, standardError, method } = found!;
  const location = { subgroups: mean, standardError, method };
  const spreadRules = rulesForSpread(rules);
  if (spreadRules.length === 0 || (chart !== "i-mr" && subgroupSize === 1)) {
    return { location, spread: null, together: location };
  }

  const drawn = `${simulation.seed} ${simulation.runs}`;
  const key = `${chart} ${subgroupSize}: ${keyOf(rules)} on ${keyOf(spreadRules)}; ${drawn}`;
  const known = answered.get(key);
  if (known) return known;
  const spread =
    chart === "i-mr"
      ? ofMovingRanges(spreadRules, simulation)
      : ofSubgroupSpreads(chart, subgroupSize, spreadRules, simulation);
  const together =
    chart === "i-mr" ? ofIndividuals({ rules, spreadRules, simulation }) : eitherOf(location, spread);
  const answer = { location, spread, together };
  if (answered.size >= MOST_ANSWERS) answered.clear();
  answered.set(key, answer);
  return answer;
}

const answered = new Map<string, FalseAlarms>();
const MOST_ANSWERS = 1_000;

function ofSubgroupSpreads(
  chart: "xbar-r" | "xbar-s",
  size: number,
  rules: readonly RunRule[],
  simulation: SimulationPlan,
): AlarmFreeRun {
  const zones = rules.map(({ pattern }) => pattern).filter((pattern) => pattern.kind === "zone");
  const chain = zones.length === rules.length ? zoneChain(zones) : null;
  const between = spreadBetween(chart, size);
  if (chain !== null) return exact(zoneRunLength(chain, between).mean, "markov-chain");

  // Rules of the shop's own choosing that have no chain: readings are drawn and their spread is judged.
  const random = randomStream(simulation.seed, `spread of ${size}`);
  const nextPoint = () => drawnSpread(chart, size, random.normal);
  return simulated(simulateRunLength({ rules, nextPoint, runs: simulation.runs }));
}

function ofMovingRanges(rules: readonly RunRule[], simulation: SimulationPlan): AlarmFreeRun {
  const limit = rangeLimitOf(rules);
  if (limit !== null) {
    const alone = { individualsLimit: null, movingRangeLimit: limit, shift: 0 };
    return exact(individualsRunLength(alone).mean, "integral-equation");
  }
  const random = randomStream(simulation.seed, "moving ranges");
  let last = 0;
  const nextPoint = (isFirst: boolean) => {
    const reading = random.normal();
    const range = Math.abs(reading - last);
    last = reading;
    return isFirst ? null : (range - D2_OF_TWO) / D3_OF_TWO;
  };
  return simulated(simulateRunLength({ rules, nextPoint, runs: simulation.runs }));
}

function ofIndividuals({
  rules,
  spreadRules,
  simulation,
}: {
  rules: readonly RunRule[];
  spreadRules: readonly RunRule[];
  simulation: SimulationPlan;
}): AlarmFreeRun {
  const individualsLimit = limitOf(rules);
  const movingRangeLimit = rangeLimitOf(spreadRules);
  if (individualsLimit !== null && movingRangeLimit !== null) {
    const { mean } = individualsRunLength({ individualsLimit, movingRangeLimit, shift: 0 });
    return exact(mean, "integral-equation");
  }
  const random = randomStream(simulation.seed, "individuals with moving ranges");
  const location = startJudging(rules);
  const spread = startJudging(spreadRules);
  let last: number | null = null;
  const found = simulateRuns({
    runs: simulation.runs,
    begin() {
      startPhase(location);
      startPhase(spread);
      last = null;
    },
    signals() {
      const reading = random.normal();
      const range = last === null ? null : (Math.abs(reading - last) - D2_OF_TWO) / D3_OF_TWO;
      last = reading;
      // Both charts have to see the point, also when the first one signals.
      const above = judgePoint(rules, location, reading, 0).length > 0;
      return judgePoint(spreadRules, spread, range, 0).length > 0 || above;
    },
  });
  return simulated(found);
}

/** The limit in sigma when all rules are about single points beyond one; else null. */
function limitOf(rules: readonly RunRule[]): number | null {
  const limits = rules.map(({ pattern }) =>
    pattern.kind === "zone" && pattern.where !== "within" && pattern.count === 1 ? pattern.distance : null,
  );
  const found = limits.filter((limit) => limit !== null);
  const least = Math.min(...found);
  // The equation reaches nine sigma; a wider limit is never passed.
  return found.length === limits.length && least > 0 && least <= 9 ? least : null;
}

/** The same on moving ranges, as a range in sigma; null also where there is a lower limit above 0. */
function rangeLimitOf(rules: readonly RunRule[]): number | null {
  const limit = limitOf(rules);
  if (limit === null || D2_OF_TWO - limit * D3_OF_TWO > 0) return null;
  return D2_OF_TWO + limit * D3_OF_TWO;
}

function eitherOf(a: AlarmFreeRun, b: AlarmFreeRun): AlarmFreeRun {
  const rate = rateOf(a) + rateOf(b);
  if (rate === 0) return { ...a, subgroups: null, standardError: null };
  const subgroups = 1 / rate;
  // The error of each mean, carried through 1/(1/a + 1/b).
  const parts = [a, b].map((one) => (one.standardError ?? 0) * (subgroups * rateOf(one)) ** 2);
  const standardError = Math.hypot(...parts);
  const method = a.method === "simulation" || b.method === "simulation" ? "simulation" : a.method;
  return { subgroups, standardError: standardError === 0 ? null : standardError, method };
}

/** False alarms per subgroup. */
export function rateOf({ subgroups }: AlarmFreeRun): number {
  return subgroups === null ? 0 : 1 / subgroups;
}

function exact(subgroups: number, method: RunLengthMethod): AlarmFreeRun {
  return { subgroups, standardError: null, method };
}

function simulated({ mean, standardError }: { mean: number | null; standardError: number | null }) {
  return { subgroups: mean, standardError, method: "simulation" as const };
}

function drawnSpread(chart: "xbar-r" | "xbar-s", size: number, normal: () => number): number {
  const summary = summarise(Array.from({ length: size }, normal));
  const spread = chart === "xbar-r" ? summary.range : summary.sd;
  return standardiseSpread({ chart, centre: 0, sigma: 1 }, { spread, size })!;
}
