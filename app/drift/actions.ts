"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { closeFlag } from "../../db/commands/drift";
import { logSourceEvent } from "../../db/commands/sources";
import { listSources } from "../../db/queries/sources";
import { refusalIn } from "../../lib/words/refusal";
import { requireAction } from "../access";
import { database } from "../database";
import type { Answer } from "../fittings/answer";
import { answersTo } from "../fittings/entry";
import { cancelScan as endScan, hurryScan } from "../jobs/scans";
import { words } from "../language/language";
import { plant } from "../plant";
import { type CloseAnswer, type EventAnswer, readEventForm } from "./event-entry";

/** Notes what was done to a source; from then on its history begins anew. */
export async function logEvent(before: EventAnswer, form: FormData): Promise<EventAnswer> {
  const asker = await requireAction("logEvent");
  const language = await words();
  const { answers: said } = language.driftPage;
  const read = readEventForm(form, { ...(await plant()), words: said });
  const { fields } = read;
  const { refuse, saved: answer } = answersTo(before, fields);
  if (!asker.ok) return refuse(asker.message);
  if (!read.ok) return refuse(said.marked, read.faults);

  const db = await database();
  const saved = await logSourceEvent(db, { ...read.entry, actor: asker.actor });
  if (!saved.ok) return refuse(refusalIn(language, saved.refusal), { source: said.chooseSource });
  const source = (await listSources(db)).find(({ id }) => id === read.entry.sourceId);
  hurryScan();
  revalidatePath("/drift");
  return answer(said.logged(source?.code ?? ""), { note: "" });
}

/** Ends the scan under way. Nothing is lost by it: what the latest one found stands, and the next one begins anew. */
export async function cancelScan(_before: Answer): Promise<Answer> {
  const asker = await requireAction("cancelScan");
  if (!asker.ok) return asker;
  const wasRunning = endScan({ by: asker.person.name, at: asker.actor.at });
  revalidatePath("/drift");
  return wasRunning
    ? { done: true, message: "" }
    : { done: false, message: (await words()).driftPage.answers.justEnded };
}

/** Begins the scan that was cancelled. */
export async function beginScan(_before: Answer): Promise<Answer> {
  const asker = await requireAction("beginScan");
  if (!asker.ok) return asker;
  hurryScan();
  revalidatePath("/drift");
  return { done: true, message: "" };
}

/** Closes a flag: a person has looked into it. */
export async function closeDriftFlag(before: CloseAnswer, form: FormData): Promise<CloseAnswer> {
  const asker = await requireAction("closeDriftFlag");
  const remark = String(form.get("remark") ?? "").trim();
  const attempt = before.attempt + 1;
  const refuse = (message: string): CloseAnswer => ({ done: false, message, remark, attempt });
  if (!asker.ok) return refuse(asker.message);
  const read = CLOSING.safeParse({ id: form.get("flag"), remark });
  const language = await words();
  const { answers: said } = language.driftPage;
  if (!read.success) return refuse(remark === "" ? said.noRemark : said.longRemark);
  const closed = await closeFlag(await database(), { ...read.data, actor: asker.actor });
  if (!closed.ok) return refuse(refusalIn(language, closed.refusal));
  revalidatePath("/drift");
  return { done: true, message: said.closed, remark: "", attempt };
}

const CLOSING = z.object({
  id: z.coerce.number().int().positive(),
  remark: z.string().min(1).max(500),
});
