"use server";

import { revalidatePath } from "next/cache";
import { changeSettings } from "../../../db/commands/settings";
import { requireAction } from "../../access";
import { database } from "../../database";
import type { Answer } from "../../fittings/answer";
import { words } from "../../language/language";
import { PLANT_FORM } from "./entry";

/** Sets in which unit, with which marks and in which language pages speak. */
export async function choosePlantDisplay(_before: Answer, form: FormData): Promise<Answer> {
  const asker = await requireAction("choosePlantDisplay");
  if (!asker.ok) return asker;
  const said = (await words()).plant;
  const read = PLANT_FORM.safeParse(Object.fromEntries(form));
  if (!read.success) return { done: false, message: said.incomplete };
  const actor = { ...asker.actor, at: Date.now() };
  await changeSettings(await database(), { changes: read.data, actor });
  revalidatePath("/", "layout");
  return { done: true, message: said.saved };
}
