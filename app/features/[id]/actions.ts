"use server";

import { revalidatePath } from "next/cache";
import { addExclusion, freezeLimits, withdrawExclusion } from "../../../db/commands/limits";
import { type FeatureHistory, featureHistory } from "../../../db/queries/history";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { FROM_THE_START } from "../../../lib/evaluation/trial-limits";
import { counted } from "../../../lib/format/numbers";
import { dayIn } from "../../../lib/format/times";
import { requireAction } from "../../access";
import { database } from "../../database";
import { plant } from "../../plant";
import type { FreezeAnswer, LeaveOutAnswer, TakeBackAnswer } from "./engineer-answers";
import { causeWords, FreezeForm, LeaveOutForm, positionsOf, TakeBackForm } from "./engineer-entry";

/** Freezes limits from the baseline whose first and last subgroup the form names. */
export async function freezeChartLimits(before: FreezeAnswer, form: FormData): Promise<FreezeAnswer> {
  const asker = await requireAction("freezeChartLimits");
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
  const refuse = (why: string) => answer(false, `Nothing saved: ${why}`);
  if (!asker.ok) return answer(false, asker.message);
  const read = FreezeForm.safeParse(Object.fromEntries(form));
  if (!read.success) return refuse(firstFault(read.error.issues, "the reason"));

  const chart = await chartAsSeen(read.data);
  if (!chart.ok) return refuse(chart.why);
  const { points } = chart.evaluation;
  const baseline = positionsOf(read.data, points.count);
  if (!baseline.ok) return refuse(baseline.why);
  const { effective, effectiveNumber, reason, feature } = read.data;
  if (effective === "from-number" && (effectiveNumber < 1 || effectiveNumber > points.count)) {
    return refuse(`the new limits are to judge from a subgroup between 1 and ${points.count} on. Name it.`);
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
  if (!saved.ok) return answer(false, saved.message);
  // Signals and alarms were judged anew, and every page may show some of them.
  revalidatePath("/", "layout");
  const since = await sinceWords(effectiveFrom, chart.history);
  return answer(true, `Saved. Limits ${saved.version} are frozen and judge ${since}.`);
}

/** Leaves subgroups out of limits and rules, with their assigned cause. */
export async function leaveOutSubgroups(before: LeaveOutAnswer, form: FormData): Promise<LeaveOutAnswer> {
  const asker = await requireAction("leaveOutSubgroups");
  const text = textOf(form);
  const fields = { cause: text("cause"), detail: text("detail") };
  const answer = (done: boolean, message: string): LeaveOutAnswer => ({
    done,
    message,
    fields: done ? { cause: "", detail: "" } : fields,
    attempt: before.attempt + 1,
  });
  const refuse = (why: string) => answer(false, `Nothing saved: ${why}`);
  if (!asker.ok) return answer(false, asker.message);
  const read = LeaveOutForm.safeParse(Object.fromEntries(form));
  if (!read.success) return refuse(firstFault(read.error.issues, "the cause"));

  const chart = await chartAsSeen(read.data);
  if (!chart.ok) return refuse(chart.why);
  const { points } = chart.evaluation;
  const chosen = positionsOf(read.data, points.count);
  if (!chosen.ok) return refuse(chosen.why);
  const { from, to } = chosen;
  const numbers = from === to ? `subgroup ${from + 1}` : `subgroups ${from + 1} to ${to + 1}`;
  if (points.excluded.subarray(from, to + 1).every((left) => left === 1)) {
    return refuse(`${numbers} ${from === to ? "is" : "are"} left out already.`);
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
  if (!saved.ok) return answer(false, saved.message);
  revalidatePath("/", "layout");
  const frozen = chart.history.limits.length > 0;
  return answer(
    true,
    `Saved. ${counted(to - from + 1, "subgroup")} left out (${numbers}): ${cause}.` +
      (frozen ? " Frozen limits stay as they are until somebody freezes new ones." : ""),
  );
}

/** Takes left-out subgroups back in; the record keeps that they were left out. */
export async function takeSubgroupsBackIn(_before: TakeBackAnswer, form: FormData): Promise<TakeBackAnswer> {
  const asker = await requireAction("takeSubgroupsBackIn");
  if (!asker.ok) return { done: false, message: asker.message };
  const read = TakeBackForm.safeParse(Object.fromEntries(form));
  if (!read.success) {
    return {
      done: false,
      message: "Nothing saved: it was not said which subgroups to take back in. Reload the page.",
    };
  }
  const saved = await withdrawExclusion(await database(), {
    id: read.data.exclusion,
    actor: asker.actor,
  });
  if (!saved.ok) return { done: false, message: saved.message };
  revalidatePath("/", "layout");
  return { done: true, message: "Saved. The subgroups count again, and the chart was judged anew." };
}

type Seen = { feature: number; count: number; lastAt: number };
type SeenChart = { ok: true; history: FeatureHistory; evaluation: Evaluation } | { ok: false; why: string };

/**
 * The feature's chart, unless its subgroups have other numbers than on the page that asks: what arrives
 * late is placed at its time and moves all that come after it. Further subgroups at the end do no harm.
 */
async function chartAsSeen({ feature, count, lastAt }: Seen): Promise<SeenChart> {
  const history = await featureHistory(await database(), feature);
  if (!history) return { ok: false, why: "this feature is not in the control plan any more." };
  const evaluation = evaluate(history.series, history.setup);
  const { points } = evaluation;
  if (count > points.count || (count > 0 && points.at[count - 1] !== lastAt)) {
    return {
      ok: false,
      why: "measurements were added or taken away since this page was opened, so subgroups have other numbers now. Reload the page and look again.",
    };
  }
  return { ok: true, history, evaluation };
}

/** From when the new limits judge, and up to when, where a later version takes over. */
async function sinceWords(effectiveFrom: number | null, { limits }: FeatureHistory): Promise<string> {
  const { zone } = await plant();
  const since = effectiveFrom === null ? "the whole history" : `from ${dayIn(effectiveFrom, zone)} on`;
  const next = limits.find((row) => row.effectiveFrom > (effectiveFrom ?? FROM_THE_START));
  return next
    ? `${since}, up to ${dayIn(next.effectiveFrom, zone)}, when limits ${next.version} take over`
    : since;
}

function firstFault(issues: readonly { path: PropertyKey[]; message: string }[], field: string): string {
  const texts = ["reason", "cause", "detail"];
  const fault = issues.find(({ path }) => texts.includes(String(path[0])));
  return fault
    ? `${field}: ${fault.message}`
    : "the form did not come whole. Reload the page and send it again.";
}

function textOf(form: FormData): (name: string) => string {
  return (name) => {
    const value = form.get(name);
    return typeof value === "string" ? value : "";
  };
}
