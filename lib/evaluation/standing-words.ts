import type { ChartKind, LimitsVersion, Tolerance } from "../plan/feature-plan";
import { signalRule } from "../rules/memory-rules";
import type { RuleWords } from "../rules/rule";
import { rules } from "../words/en/rules";
import { standing as english } from "../words/en/standing";
import type { Evaluation } from "./evaluation";
import { excursionWords } from "./excursion-words";
import type { Pattern } from "./patterns";
import type { RecentSubgroup } from "./progress";
import { LEAST_FOR_FINAL, TRIAL_SUBGROUPS, TRIAL_VERSION } from "./setup";
import { STRIP_SUBGROUPS } from "./standing";

/** How a language tells standing and rules; English where none is given. */
type StandingWords = { standing: typeof english; rules: RuleWords };

const ENGLISH: StandingWords = { standing: english, rules };

/**
 * Where a feature stands, in one sentence: what signals and since when, or that nothing does.
 *
 * A mean outside the tolerance is told as well, for a feature can be steady there.
 *
 * @param day how a moment is told
 */
export function standingWords(
  { progress, points }: Pick<Evaluation, "progress" | "points">,
  { tolerance, ...told }: Telling & { tolerance: Tolerance },
  words: StandingWords = ENGLISH,
): string {
  const said = signalWords({ progress, points }, told, words);
  return isOutside(progress.recent, tolerance) ? `${said} ${words.standing.outside}` : said;
}

type Telling = { chart: ChartKind; patterns: readonly Pattern[]; day: (at: number) => string };

/** Whether most of the latest subgroups have a mean that the drawing does not allow. */
function isOutside(recent: readonly RecentSubgroup[], { lower, upper }: Tolerance): boolean {
  const latest = recent.slice(-STRIP_SUBGROUPS);
  const outside = latest.filter(
    ([, mean]) => (lower !== null && mean < lower) || (upper !== null && mean > upper),
  );
  return outside.length > latest.length / 2;
}

function signalWords(
  { progress, points }: Pick<Evaluation, "progress" | "points">,
  { chart, patterns, day }: Telling,
  { standing, rules }: StandingWords,
): string {
  if (points.count === 0) {
    return progress.readings === 0 ? standing.nothing : standing.incomplete(progress.readings);
  }
  if (!progress.limits) return standing.notJudged;
  if (progress.excursion) {
    const { rules: seen, firstAt } = progress.excursion;
    return standing.signals(day(firstAt), excursionWords(seen, chart, rules));
  }
  const last = patterns.at(-1);
  if (!last) return standing.steady(points.count);
  const phrase = signalRule(last.rule).phrase(last.direction, rules);
  return standing.back(points.count - 1 - last.lastAt, day(last.lastTime), phrase);
}

/** What limits judge the feature, and who stands behind them. */
export function limitsWords(
  { progress, points }: Pick<Evaluation, "progress" | "points">,
  frozen: (LimitsVersion & { frozenAt: number; by: string | null }) | null,
  day: (at: number) => string,
  { limits: words }: typeof english = english,
): string {
  const { limits } = progress;
  if (!limits)
    return points.count >= 2
      ? words.noVariation(Math.min(TRIAL_SUBGROUPS, points.count))
      : words.none(points.count);
  if (limits.version === TRIAL_VERSION) {
    const used = Math.min(TRIAL_SUBGROUPS, points.count);
    return points.count < LEAST_FOR_FINAL ? words.trialFew(used, LEAST_FOR_FINAL) : words.trial(used);
  }
  if (!frozen) return words.version(limits.version);
  return words.frozen(frozen.version, day(frozen.frozenAt), frozen.by);
}
