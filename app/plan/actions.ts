"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { createFeature, createPart, updateFeature, updatePart } from "../../db/commands/plan";
import { featureById } from "../../db/queries/features";
import { requireAction } from "../access";
import { database } from "../database";
import { answersTo, SEE_FIELDS } from "../fittings/entry";
import type { FeatureAnswer, PartAnswer } from "./answers";
import { judgedChanges, readFeatureForm } from "./feature-entry";
import { readPartForm } from "./part-entry";

/** Enters a feature, or changes one whose id the form carries. */
export async function saveFeature(before: FeatureAnswer, form: FormData): Promise<FeatureAnswer> {
  const asker = await requireAction("saveFeature");
  const read = readFeatureForm(form);
  const { fields } = read;
  const { refuse, saved: answer } = answersTo(before, fields);
  if (!asker.ok) return refuse(asker.message);
  if (!read.ok) return refuse(SEE_FIELDS, read.faults);

  const { entry, reason } = read;
  const { actor } = asker;
  const db = await database();
  if (!form.has("feature")) {
    const saved = await createFeature(db, { partId: Number(form.get("part")), entry, actor });
    if (!saved.ok) return refuse(saved.message);
    revalidatePath("/plan");
    redirect(`/plan/features/${saved.id}`);
  }

  const id = Number(form.get("feature"));
  const stored = await featureById(db, id);
  if (!stored)
    return refuse("Nothing saved: this feature is not in the control plan any more. Reload the page.");
  const changes = judgedChanges(stored, entry);
  if (changes.length > 0 && reason === "") {
    const needs = `Changing ${changes.join(", ")} changes how this feature is judged, so the record wants a reason.`;
    return refuse(`Nothing saved: ${needs}`, { reason: needs });
  }
  const saved = await updateFeature(db, { id, entry, reason, actor });
  if (!saved.ok) return refuse(saved.message);
  revalidatePath("/plan");
  const judged = changes.length > 0 ? " Its measurements were judged anew." : "";
  return answer(`Saved.${judged}`, { reason: "" });
}

/** Enters a part, or changes one whose id the form carries. */
export async function savePart(before: PartAnswer, form: FormData): Promise<PartAnswer> {
  const asker = await requireAction("savePart");
  const read = readPartForm(form);
  const { fields } = read;
  const { refuse, saved: answer } = answersTo(before, fields);
  if (!asker.ok) return refuse(asker.message);
  if (!read.ok) return refuse(SEE_FIELDS, read.faults);

  const { entry, reason } = read;
  const { actor } = asker;
  const db = await database();
  const saved = form.has("id")
    ? await updatePart(db, { id: Number(form.get("id")), entry, reason, actor })
    : await createPart(db, entry, actor);
  if (!saved.ok) return refuse(saved.message);
  revalidatePath("/plan");
  if (!form.has("id")) redirect(`/plan/features/new?part=${saved.id}`);
  return answer("Saved.", { reason: "" });
}
