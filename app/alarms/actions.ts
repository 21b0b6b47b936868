"use server";

import { revalidatePath } from "next/cache";
import { actOnAlarm } from "../../db/commands/alarms";
import { eventWords } from "../../lib/alarms/alarm-event";
import { refusalIn } from "../../lib/words/refusal";
import { requireAction } from "../access";
import { database } from "../database";
import { words } from "../language/language";
import { plant } from "../plant";
import { whoSigns } from "../signer";
import { readAlarmForm } from "./alarm-entry";
import type { AlarmAnswer } from "./answer";
import { savedWords } from "./saved-words";

/** Whatever a person does to an alarm: its forms differ, their answer is one. */
export async function answerAlarm(before: AlarmAnswer, form: FormData): Promise<AlarmAnswer> {
  const asker = await requireAction("answerAlarm");
  const attempt = before.attempt + 1;
  const refuse = (message: string): AlarmAnswer => ({ ...before, done: false, message, since: [], attempt });
  if (!asker.ok) return refuse(asker.message);
  const said = await words();
  const read = readAlarmForm(form, said.alarms.form);
  if (!read.ok) return refuse(read.message);

  const signer = await whoSigns(asker, form);
  if (!signer.ok) return refuse(signer.message);

  const { zone } = await plant();
  const { alarm: id, seen, acts } = read;
  const outcome = await actOnAlarm(await database(), { id, seen, acts, actor: signer.actor });
  // Also after a refusal: the page then shows how the alarm stands now.
  revalidatePath("/", "layout");
  if (outcome.ok)
    return {
      done: true,
      message: savedWords(acts, outcome.state, said.alarms),
      since: [],
      seen: outcome.seen,
      attempt,
    };
  const why = refusalIn(said, outcome.refusal);
  if (outcome.since.length === 0) return { ...refuse(why), seen: outcome.seen };
  return {
    done: false,
    message: `${why} ${said.alarms.stillHere}`,
    since: outcome.since.map((event) => eventWords(event, zone, said)),
    seen: outcome.seen,
    attempt,
  };
}
