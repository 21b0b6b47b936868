import { counted } from "../format/numbers";
import type { ChartKind, LimitsVersion, Tolerance } from "../plan/feature-plan";
import { signalRule } from "../rules/memory-rules";
import type { Evaluation } from "./evaluation";
import { excursionWords } from "./excursion-words";
import type { Pattern } from "./patterns";
import type { RecentSubgroup } from "./progress";
import { LEAST_FOR_FINAL, TRIAL_SUBGROUPS, TRIAL_VERSION } from "./setup";
import { STRIP_SUBGROUPS } from "./standing";

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
): string {
  const standing = signalWords({ progress, points }, told);
  return isOutside(progress.recent, tolerance) ? `${standing} ${OUTSIDE}` : standing;
}

type Telling = { chart: ChartKind; patterns: readonly Pattern[]; day: (at: number) => string };

const OUTSIDE = "The latest means lie outside the tolerance: steady is not the same as fitting.";

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
): string {
  if (points.count === 0) {
    return progress.readings === 0
      ? "No measurement yet."
      : `No subgroup is complete yet: ${counted(progress.readings, "measurement")} so far.`;
  }
  if (!progress.limits) return "Not judged yet: there are no limits to judge by.";
  if (progress.excursion) {
    const { rules, firstAt } = progress.excursion;
    return `Signals since ${day(firstAt)}: ${excursionWords(rules, chart)}.`;
  }
  const last = patterns.at(-1);
  if (!last) return `Steady: no signal in ${counted(points.count, "subgroup")}.`;
  const quiet = points.count - 1 - last.lastAt;
  const phrase = signalRule(last.rule).phrase(last.direction);
  return `Back to normal: ${counted(quiet, "subgroup")} without a signal since ${day(last.lastTime)} (${phrase}).`;
}

/** What limits judge the feature, and who stands behind them. */
export function limitsWords(
  { progress, points }: Pick<Evaluation, "progress" | "points">,
  frozen: (LimitsVersion & { frozenAt: number; by: string | null }) | null,
  day: (at: number) => string,
): string {
  const { limits } = progress;
  if (!limits) {
    if (points.count >= 2) return "No limits: the readings show no variation at this resolution.";
    return `No limits yet: ${counted(points.count, "subgroup")} of at least 2. They appear with the next ones; nothing needs to be repaired.`;
  }
  if (limits.version === TRIAL_VERSION) {
    const used = Math.min(TRIAL_SUBGROUPS, points.count);
    const missing =
      points.count < LEAST_FOR_FINAL ? `; final ones need ${LEAST_FOR_FINAL}` : "; nobody has frozen them";
    return `Trial limits from the first ${counted(used, "subgroup")}${missing}.`;
  }
  if (!frozen) return `Limits ${limits.version}.`;
  return `Limits ${frozen.version}, frozen ${day(frozen.frozenAt)}${frozen.by ? ` by ${frozen.by}` : ""}.`;
}
