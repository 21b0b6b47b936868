"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { signHandover } from "../../db/commands/handovers";
import { handoverContent } from "../../db/queries/handover-content";
import { shiftsBetween } from "../../lib/handover/shift-span";
import { refusalIn } from "../../lib/words/refusal";
import { requireAction } from "../access";
import { database } from "../database";
import { words } from "../language/language";
import { plant } from "../plant";
import { whoSigns } from "../signer";

export type SignAnswer = { done: boolean; message: string; remarks: string; attempt: number };

const LONGEST_REMARKS = 4_000;
const FORM = z.object({
  shift: z.coerce.number().int(),
  remarks: z.string().trim().max(LONGEST_REMARKS),
});

/** Signs a shift's handover with a person's remarks; it is written anew at that moment, from what is stored. */
export async function signShift(before: SignAnswer, form: FormData): Promise<SignAnswer> {
  const asker = await requireAction("signShift");
  const said = await words();
  const { answers } = said.handover;
  const typed = form.get("remarks");
  const remarks = typeof typed === "string" ? typed : "";
  const attempt = before.attempt + 1;
  const refuse = (message: string): SignAnswer => ({ done: false, message, remarks, attempt });
  if (!asker.ok) return refuse(asker.message);
  const read = FORM.safeParse(Object.fromEntries(form));
  if (!read.success) return refuse(answers.longRemarks(LONGEST_REMARKS));
  const signer = await whoSigns(asker, form);
  if (!signer.ok) return refuse(signer.message);
  const { shifts, zone, now } = await plant();
  const from = read.data.shift;
  const span = shiftsBetween({ from, to: from + 1, shifts, zone }).find((each) => each.from === from);
  if (!span) return refuse(answers.shiftsChanged);
  const db = await database();
  const { content, coversFrom } = await handoverContent(db, { span, now, zone, shifts, words: said });
  const { actor } = signer;
  const saved = await signHandover(db, {
    span,
    coversFrom,
    remarks: read.data.remarks,
    content,
    actor,
  });
  revalidatePath("/handover");
  if (!saved.ok) return refuse(refusalIn(said, saved.refusal));
  return { done: true, message: answers.signed, remarks: "", attempt };
}
