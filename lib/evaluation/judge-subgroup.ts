import { nextMemory, startMemory } from "../charts/memory-chart";
import { standardiseLocation, standardiseSpread } from "../limits/standardise";
import type { FeaturePlan, LimitsVersion, MemoryChart } from "../plan/feature-plan";
import { type Firing, judgePoint, startPhase } from "../rules/judge";
import { ruleBySlug, rulesForSpread } from "../rules/known-rules";
import { MEMORY_RULES } from "../rules/memory-rules";
import type { RunRule } from "../rules/rule";
import type { SubgroupSummary } from "../subgroups/summarise";
import type { ChartPart, Excursion, ExcursionRule, Progress, Signal } from "./progress";
import { type EvaluationSetup, isExcluded, QUIET_SUBGROUPS, versionAt } from "./setup";

/** The setup with its rule set looked up and the limits that judge, trial ones included. */
export type Judge = {
  setup: EvaluationSetup;
  rules: readonly RunRule[];
  spreadRules: readonly RunRule[];
  versions: readonly LimitsVersion[];
  /** How many recent subgroups are remembered. */
  window: number;
};

/** Subgroups that the shift board looks back on: 25, and at least 100 readings (the gate "enough"). */
export function recentWindow(subgroupSize: number): number {
  return Math.max(25, Math.ceil(100 / subgroupSize));
}

/** @throws InvalidInput naming the known rules when the plan names another */
export function judgeOf(setup: EvaluationSetup, versions: readonly LimitsVersion[]): Judge {
  const rules = setup.plan.rules.map(ruleBySlug);
  const size = setup.plan.chart === "i-mr" ? 1 : setup.plan.subgroupSize;
  return { setup, rules, spreadRules: rulesForSpread(rules), versions, window: recentWindow(size) };
}

/** What came of one subgroup, beside the change in `progress`. */
export type Judgement = {
  excluded: boolean;
  /** Range, standard deviation or moving range; null where the point has none. */
  spread: number | null;
  limits: LimitsVersion | null;
  signals: Signal[];
};

/** A subgroup that is ready to be judged. `at` is when its last reading was taken. */
export type ReadySubgroup = { number: number; at: number; summary: SubgroupSummary };

/**
 * Judges the next subgroup in order; changes `progress`. Cost does not depend on what came before.
 *
 * An excluded subgroup leaves everything as if it were absent. Where another version of the limits takes
 * over, the rules and the moving range begin anew.
 */
export function judgeSubgroup(judge: Judge, progress: Progress, ready: ReadySubgroup): Judgement {
  const { plan, exclusions } = judge.setup;
  enterPhase(progress, versionAt(judge.versions, ready.at));
  progress.judged = ready.number + 1;
  const limits = progress.limits;
  const excluded = isExcluded(exclusions, ready.at);
  const { summary } = ready;
  const spread = spreadOf(plan, summary, progress.previous);
  if (excluded) return { excluded, spread: null, limits, signals: [] };

  if (plan.chart === "i-mr") progress.previous = summary.mean;
  const signals: Signal[] = [];
  if (limits && limits.sigma > 0) {
    const { centre, sigma, betweenLots } = limits;
    const basis = { chart: plan.chart, centre, sigma, betweenLots };
    const z = standardiseLocation(basis, summary);
    take(judgePoint(judge.rules, progress.location, z, ready.number), "location");
    const spreadZ = spread === null ? null : standardiseSpread(basis, { spread, size: summary.size });
    take(judgePoint(judge.spreadRules, progress.spread, spreadZ, ready.number), "spread");
    if (plan.alsoWatch) take(watchMemory(plan.alsoWatch, progress, limits, ready), "memory");
  }
  function take(firings: readonly Firing[], chart: ChartPart): void {
    for (const { rule, at, members, direction } of firings) {
      signals.push({ chart, rule, at, atTime: ready.at, members, direction });
    }
  }

  progress.signals += signals.length;
  remember(progress, summary, judge.window);
  return { excluded, spread, limits, signals };
}

/** Consecutive signals on one side share a member, so that they are one pattern to a person. */
function watchMemory(
  chart: MemoryChart,
  progress: Progress,
  limits: LimitsVersion,
  { number, summary }: ReadySubgroup,
): Firing[] {
  progress.memory ??= { state: startMemory(chart, limits), signalled: null };
  const { memory } = progress;
  const { signal: side } = nextMemory(chart, { limits, state: memory.state, subgroup: summary });
  const before = memory.signalled;
  memory.signalled = side && { at: number, side };
  if (side === null) return [];
  const members = before?.side === side ? [before.at, number] : [number];
  return [{ rule: MEMORY_RULES[chart.kind].slug, at: number, members, direction: side }];
}

function enterPhase(progress: Progress, version: LimitsVersion | null): void {
  if (!version || progress.limits?.version === version.version) return;
  // Interleaved labels can bring an earlier subgroup later; a phase never goes back.
  if (progress.limits && progress.limits.effectiveFrom > version.effectiveFrom) return;
  progress.limits = version;
  progress.previous = null;
  startPhase(progress.location);
  startPhase(progress.spread);
  progress.memory = null;
}

function spreadOf(
  { chart, counts }: FeaturePlan,
  summary: SubgroupSummary,
  previous: number | null,
): number | null {
  if (counts) return null;
  if (chart === "i-mr") return previous === null ? null : Math.abs(summary.mean - previous);
  if (summary.size === 1) return null;
  return chart === "xbar-r" ? summary.range : summary.sd;
}

function remember(progress: Progress, { size, mean, sd }: SubgroupSummary, window: number): void {
  progress.recent.push([size, mean, sd]);
  if (progress.recent.length > window) progress.recent.shift();
}

/**
 * Takes a judged subgroup's signals into the running excursion; changes `progress`. Returns the excursion
 * that has just returned to normal, or null.
 */
export function followExcursion(
  progress: Progress,
  at: number,
  signals: readonly Signal[],
): Excursion | null {
  const running = progress.excursion;
  if (signals.length === 0) {
    if (!running) return null;
    running.quiet += 1;
    if (running.quiet < QUIET_SUBGROUPS) return null;
    progress.excursion = null;
    return running;
  }
  const excursion = running ?? { firstAt: at, latestAt: at, rules: [], quiet: 0 };
  excursion.latestAt = at;
  excursion.quiet = 0;
  for (const signal of signals)
    if (!excursion.rules.some((known) => isSame(known, signal))) add(excursion, signal);
  progress.excursion = excursion;
  return null;
}

function isSame(known: ExcursionRule, { chart, rule, direction }: Signal): boolean {
  return known.rule === rule && known.chart === chart && known.direction === direction;
}

function add(excursion: Excursion, { chart, rule, direction }: Signal): void {
  excursion.rules.push({ chart, rule, direction });
}
