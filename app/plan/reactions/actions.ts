"use server";

import { revalidatePath } from "next/cache";
import { writeReactionPlan } from "../../../db/commands/reaction-plans";
import { refusalIn } from "../../../lib/words/refusal";
import { requireAction } from "../../access";
import { database } from "../../database";
import { answersTo } from "../../fittings/entry";
import { words } from "../../language/language";
import type { ReactionAnswer } from "./reaction-entry";
import { readReactionForm } from "./reaction-entry";

/** Writes the next version of a reaction plan, or takes the plan back. */
export async function saveReactions(before: ReactionAnswer, form: FormData): Promise<ReactionAnswer> {
  const asker = await requireAction("saveReactions");
  const language = await words();
  const { answers: said, faults } = language.reactionPlans;
  const read = readReactionForm(form, faults);
  const { fields } = read;
  const { refuse, saved: answer } = answersTo(before, fields);
  if (!asker.ok) return refuse(asker.message);
  if (!read.ok) return refuse(language.fittings.seeFields, read.faults);
  const saved = await writeReactionPlan(await database(), { ...read.entry, actor: asker.actor });
  revalidatePath("/plan/reactions");
  if (!saved.ok) return refuse(refusalIn(language, saved.refusal));
  const message = read.entry.steps.length === 0 ? said.takenBack : said.saved(saved.version);
  return answer(message, { reason: "" });
}
