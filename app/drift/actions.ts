"use server";

import { revalidatePath } from "next/cache";
import { logSourceEvent } from "../../db/commands/sources";
import { listSources } from "../../db/queries/sources";
import { requireAction } from "../access";
import { database } from "../database";
import { hurryScan } from "../jobs/scans";
import { plant } from "../plant";
import { type EventAnswer, readEventForm } from "./event-entry";

/** Notes what was done to a source; from then on its history begins anew. */
export async function logEvent(before: EventAnswer, form: FormData): Promise<EventAnswer> {
  const asker = await requireAction("logEvent");
  const read = readEventForm(form, await plant());
  const { fields } = read;
  const attempt = before.attempt + 1;
  const refuse = (message: string, faults: EventAnswer["faults"] = {}): EventAnswer => ({
    done: false,
    message,
    faults,
    fields,
    attempt,
  });
  if (!asker.ok) return refuse(asker.message);
  if (!read.ok) return refuse("Nothing saved: see the fields marked below.", read.faults);

  const db = await database();
  const saved = await logSourceEvent(db, { ...read.entry, actor: asker.actor });
  if (!saved.ok) return refuse(saved.message, { source: "Choose a source." });
  const source = (await listSources(db)).find(({ id }) => id === read.entry.sourceId);
  hurryScan();
  revalidatePath("/drift");
  const message = `Saved. ${source?.code} is compared afresh from this event on; earlier lots no longer count for it.`;
  return { done: true, message, faults: {}, fields: { ...fields, note: "" }, attempt };
}
