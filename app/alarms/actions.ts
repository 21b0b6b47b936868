"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { acknowledgeAlarm } from "../../db/commands/alarms";
import { requireAction } from "../access";
import { database } from "../database";

export type AlarmAnswer = { done: boolean; message: string };

const LONGEST_NOTE = 2_000;
const FORM = z.object({
  alarm: z.coerce.number().int().positive(),
  note: z.string().trim().max(LONGEST_NOTE),
});

/** A person has seen an alarm, and says what was found or done. */
export async function acknowledge(_before: AlarmAnswer, form: FormData): Promise<AlarmAnswer> {
  const asker = await requireAction("acknowledge");
  if (!asker.ok) return asker;
  const read = FORM.safeParse(Object.fromEntries(form));
  if (!read.success) {
    return {
      done: false,
      message: `Nothing saved: a note has at most ${LONGEST_NOTE} characters. Shorten it.`,
    };
  }
  const { alarm: id, note } = read.data;
  const saved = await acknowledgeAlarm(await database(), { id, note, actor: asker.actor });
  if (!saved.ok) return { done: false, message: saved.message };
  revalidatePath("/", "layout");
  return {
    done: true,
    message: saved.closed
      ? "Saved. The alarm is closed."
      : "Saved. The alarm stays open until its feature returns to normal.",
  };
}
