"use server";

import { revalidatePath } from "next/cache";
import { writeReactionPlan } from "../../../db/commands/reaction-plans";
import { requireAction } from "../../access";
import { database } from "../../database";
import { answersTo, SEE_FIELDS } from "../../fittings/entry";
import type { ReactionAnswer } from "./reaction-entry";
import { readReactionForm } from "./reaction-entry";

/** Writes the next version of a reaction plan, or takes the plan back. */
export async function saveReactions(before: ReactionAnswer, form: FormData): Promise<ReactionAnswer> {
  const asker = await requireAction("saveReactions");
  const read = readReactionForm(form);
  const { fields } = read;
  const { refuse, saved: answer } = answersTo(before, fields);
  if (!asker.ok) return refuse(asker.message);
  if (!read.ok) return refuse(SEE_FIELDS, read.faults);
  const saved = await writeReactionPlan(await database(), { ...read.entry, actor: asker.actor });
  revalidatePath("/plan/reactions");
  if (!saved.ok) return refuse(saved.message);
  const message =
    read.entry.steps.length === 0
      ? "Saved. The plan is taken back; alarms raised under it keep it."
      : `Saved. Version ${saved.version} holds for alarms raised from now on.`;
  return answer(message, { reason: "" });
}
