"use server";

import { revalidatePath } from "next/cache";
import { addExclusion, freezeLimits, withdrawExclusion } from "../../../db/commands/limits";
import { type FeatureHistory, featureHistory } from "../../../db/queries/history";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { FROM_THE_START } from "../../../lib/evaluation/trial-limits";
import { dayIn } from "../../../lib/format/times";
import { refusalIn } from "../../../lib/words/refusal";
import type { Words } from "../../../lib/words/words";
import { requireAction } from "../../access";
import { database } from "../../database";
import { words } from "../../language/language";
import { plant } from "../../plant";
import type { FreezeAnswer, LeaveOutAnswer, TakeBackAnswer } from "./engineer-answers";
import {
  causeWords,
  FreezeForm,
  LeaveOutForm,
  LONGEST_REASON,
  positionsOf,
  TakeBackForm,
} from "./engineer-entry";

/** Freezes limits from the baseline whose first and last subgroup the form names. */
export async function freezeChartLimits(before: FreezeAnswer, form: FormData): Promise<FreezeAnswer> {
  const asker = await requireAction("freezeChartLimits");
  const language = await words();
  const { answers: said } = language.features;
  const text = textOf(form);
  const fields = {
    reason: text("reason"),
    effective: text("effective"),
    effectiveNumber: text("effectiveNumber"),
  };
  const answer = (done: boolean, message: string): FreezeAnswer => ({
    done,
    message,
    // Only first limits may judge the whole history.
    fields: done ? { ...fields, effective: "after-baseline", reason: "" } : fields,
    attempt: before.attempt + 1,
  });
  const refuse = (why: string) => answer(false, said.notSaved(why));
  if (!asker.ok) return answer(false, asker.message);
  const read = FreezeForm.safeParse(Object.fromEntries(form));
  if (!read.success) return refuse(firstFault(read.error.issues, said.longReason(LONGEST_REASON), said));

  const chart = await chartAsSeen(read.data, said);
  if (!chart.ok) return refuse(chart.why);
  const { points } = chart.evaluation;
  const baseline = positionsOf(read.data, points, said);
  if (!baseline.ok) return refuse(baseline.why);
  const { effective, effectiveNumber, reason, feature } = read.data;
  if (effective === "from-number" && (effectiveNumber < 1 || effectiveNumber > points.count)) {
    return refuse(said.fromWhich(points.count));
  }
  const baselineTo = points.at[baseline.to]!;
  const effectiveFrom =
    effective === "everything"
      ? null
      : effective === "after-baseline"
        ? baselineTo + 1
        : points.at[effectiveNumber - 1]!;

  const saved = await freezeLimits(await database(), {
    featureId: feature,
    baselineFrom: points.at[baseline.from]!,
    baselineTo,
    effectiveFrom,
    estimator: read.data.estimator,
    reason,
    actor: asker.actor,
  });
  if (!saved.ok) return answer(false, refusalIn(language, saved.refusal));
  // Signals and alarms were judged anew, and every page may show some of them.
  revalidatePath("/", "layout");
  const since = await sinceWords(effectiveFrom, chart.history);
  return answer(true, said.frozen(saved.version, since));
}

/** Leaves subgroups out of limits and rules, with their assigned cause. */
export async function leaveOutSubgroups(before: LeaveOutAnswer, form: FormData): Promise<LeaveOutAnswer> {
  const asker = await requireAction("leaveOutSubgroups");
  const language = await words();
  const { answers: said, numbers } = language.features;
  const text = textOf(form);
  const fields = { cause: text("cause"), detail: text("detail") };
  const answer = (done: boolean, message: string): LeaveOutAnswer => ({
    done,
    message,
    fields: done ? { cause: "", detail: "" } : fields,
    attempt: before.attempt + 1,
  });
  const refuse = (why: string) => answer(false, said.notSaved(why));
  if (!asker.ok) return answer(false, asker.message);
  const read = LeaveOutForm.safeParse(Object.fromEntries(form));
  if (!read.success) return refuse(firstFault(read.error.issues, said.longCause(LONGEST_REASON), said));

  const chart = await chartAsSeen(read.data, said);
  if (!chart.ok) return refuse(chart.why);
  const { points } = chart.evaluation;
  const chosen = positionsOf(read.data, points, said);
  if (!chosen.ok) return refuse(chosen.why);
  const { from, to } = chosen;
  if (points.excluded.subarray(from, to + 1).every((left) => left === 1)) {
    return refuse(said.outAlready(from + 1, to + 1));
  }
  const cause = causeWords(read.data);
  const saved = await addExclusion(await database(), {
    featureId: read.data.feature,
    // Subgroups with labels can end in another order than they began.
    from: Math.min(points.at[from]!, points.at[to]!),
    to: Math.max(points.at[from]!, points.at[to]!),
    cause,
    actor: asker.actor,
  });
  if (!saved.ok) return answer(false, refusalIn(language, saved.refusal));
  revalidatePath("/", "layout");
  const frozen = chart.history.limits.length > 0;
  return answer(
    true,
    said.leftOut(to - from + 1, numbers(from + 1, to + 1), cause) + (frozen ? said.frozenStay : ""),
  );
}

/** Takes left-out subgroups back in; the record keeps that they were left out. */
export async function takeSubgroupsBackIn(_before: TakeBackAnswer, form: FormData): Promise<TakeBackAnswer> {
  const asker = await requireAction("takeSubgroupsBackIn");
  const language = await words();
  const { answers: said } = language.features;
  if (!asker.ok) return { done: false, message: asker.message };
  const read = TakeBackForm.safeParse(Object.fromEntries(form));
  if (!read.success) {
    return { done: false, message: said.whichIn };
  }
  const saved = await withdrawExclusion(await database(), {
    id: read.data.exclusion,
    actor: asker.actor,
  });
  if (!saved.ok) return { done: false, message: refusalIn(language, saved.refusal) };
  revalidatePath("/", "layout");
  return { done: true, message: said.takenIn };
}

type Answers = Words["features"]["answers"];
type Seen = { feature: number; count: number; lastAt: number };
type SeenChart = { ok: true; history: FeatureHistory; evaluation: Evaluation } | { ok: false; why: string };

/**
 * The feature's chart, unless its subgroups have other numbers than on the page that asks: what arrives
 * late is placed at its time and moves all that come after it. Further subgroups at the end do no harm.
 */
async function chartAsSeen({ feature, count, lastAt }: Seen, said: Answers): Promise<SeenChart> {
  const history = await featureHistory(await database(), feature);
  if (!history) return { ok: false, why: said.gone };
  const evaluation = evaluate(history.series, history.setup);
  const { points } = evaluation;
  if (count > points.count || (count > 0 && points.at[count - 1] !== lastAt)) {
    return { ok: false, why: said.renumbered };
  }
  return { ok: true, history, evaluation };
}

/** From when the new limits judge, and up to when, where a later version takes over. */
async function sinceWords(effectiveFrom: number | null, { limits }: FeatureHistory): Promise<string> {
  const { zone } = await plant();
  const { features, times } = await words();
  const { answers: said } = features;
  const since = effectiveFrom === null ? said.everything : said.from(dayIn(effectiveFrom, zone, times));
  const next = limits.find((row) => row.effectiveFrom > (effectiveFrom ?? FROM_THE_START));
  return next ? said.until(since, dayIn(next.effectiveFrom, zone, times), next.version) : since;
}

function firstFault(
  issues: readonly { path: PropertyKey[] }[],
  tooLong: string,
  { incomplete }: Answers,
): string {
  const texts = ["reason", "cause", "detail"];
  return issues.some(({ path }) => texts.includes(String(path[0]))) ? tooLong : incomplete;
}

function textOf(form: FormData): (name: string) => string {
  return (name) => {
    const value = form.get(name);
    return typeof value === "string" ? value : "";
  };
}
