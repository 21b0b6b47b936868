"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { createFeature, createPart, updateFeature, updatePart } from "../../db/commands/plan";
import { featureById } from "../../db/queries/features";
import { refusalIn } from "../../lib/words/refusal";
import { requireAction } from "../access";
import { database } from "../database";
import { answersTo } from "../fittings/entry";
import { words } from "../language/language";
import type { FeatureAnswer, PartAnswer } from "./answers";
import { judgedChanges, readFeatureForm } from "./feature-entry";
import { readPartForm } from "./part-entry";

/** Enters a feature, or changes one whose id the form carries. */
export async function saveFeature(before: FeatureAnswer, form: FormData): Promise<FeatureAnswer> {
  const asker = await requireAction("saveFeature");
  const language = await words();
  const { answers: said } = language.plan;
  const read = readFeatureForm(form, language);
  const { fields } = read;
  const { refuse, saved: answer } = answersTo(before, fields);
  if (!asker.ok) return refuse(asker.message);
  if (!read.ok) return refuse(language.fittings.seeFields, read.faults);

  const { entry, reason } = read;
  const { actor } = asker;
  const db = await database();
  if (!form.has("feature")) {
    const saved = await createFeature(db, { partId: Number(form.get("part")), entry, actor });
    if (!saved.ok) return refuse(refusalIn(language, saved.refusal));
    revalidatePath("/plan");
    redirect(`/plan/features/${saved.id}`);
  }

  const id = Number(form.get("feature"));
  const stored = await featureById(db, id);
  if (!stored) return refuse(said.gone);
  const changes = judgedChanges(stored, entry);
  if (changes.length > 0 && reason === "") {
    const needs = said.wantsReason(changes.map((change) => said.changes[change]).join(", "));
    return refuse(said.notSaved(needs), { reason: needs });
  }
  const saved = await updateFeature(db, { id, entry, reason, actor });
  if (!saved.ok) return refuse(refusalIn(language, saved.refusal));
  revalidatePath("/plan");
  return answer(said.saved + (changes.length > 0 ? said.judgedAnew : ""), { reason: "" });
}

/** Enters a part, or changes one whose id the form carries. */
export async function savePart(before: PartAnswer, form: FormData): Promise<PartAnswer> {
  const asker = await requireAction("savePart");
  const language = await words();
  const read = readPartForm(form, language.plan);
  const { fields } = read;
  const { refuse, saved: answer } = answersTo(before, fields);
  if (!asker.ok) return refuse(asker.message);
  if (!read.ok) return refuse(language.fittings.seeFields, read.faults);

  const { entry, reason } = read;
  const { actor } = asker;
  const db = await database();
  const saved = form.has("id")
    ? await updatePart(db, { id: Number(form.get("id")), entry, reason, actor })
    : await createPart(db, entry, actor);
  if (!saved.ok) return refuse(refusalIn(language, saved.refusal));
  revalidatePath("/plan");
  if (!form.has("id")) redirect(`/plan/features/new?part=${saved.id}`);
  return answer(language.plan.answers.saved, { reason: "" });
}
