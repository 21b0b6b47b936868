"use server";

import { revalidatePath } from "next/cache";
import { addTarget, endTarget, setMailServer, tryAgain } from "../../../db/commands/messages";
import { mailServer } from "../../../db/queries/messages";
import { refusalIn } from "../../../lib/words/refusal";
import { requireAction } from "../../access";
import { database } from "../../database";
import { words } from "../../language/language";
import { addressFault } from "../../messages/address";
import { allowsOwnMachine } from "../../messages/sender";
import { isMailAddress, MAIL_FORM, TARGET_FORM, type TargetAnswer } from "./entry";

export type MessagesAnswer = { done: boolean; message: string };

const PAGE = "/people/messages";

/** Adds a receiver of messages; a trial message goes out to it at once. */
export async function addReceiver(before: TargetAnswer, form: FormData): Promise<TargetAnswer> {
  const asker = await requireAction("addReceiver");
  const read = TARGET_FORM.safeParse(Object.fromEntries(form));
  const fields = read.success ? read.data : before.fields;
  const attempt = before.attempt + 1;
  const refuse = (message: string): TargetAnswer => ({ done: false, message, secret: null, fields, attempt });
  if (!asker.ok) return refuse(asker.message);
  const said = await words();
  const { answers } = said.people.messages;
  if (!read.success) return refuse(said.people.answers.incomplete);

  const { kind, name, address } = read.data;
  if (name === "") return refuse(answers.nameless);
  const fault = kind === "webhook" ? addressFault(address, { allowsOwn: allowsOwnMachine() }) : null;
  if (fault) return refuse(answers.notSaved(answers.address[fault]));
  if (kind === "mail" && !isMailAddress(address)) return refuse(answers.noMail);
  const db = await database();
  if (kind === "mail" && !(await mailServer(db))) return refuse(answers.serverFirst);

  const actor = { ...asker.actor, at: Date.now() };
  const added = await addTarget(db, { kind, name, address, actor });
  if (!added.ok) return refuse(refusalIn(said, added.refusal));
  revalidatePath(PAGE);
  return {
    done: true,
    message: kind === "webhook" ? answers.webhookAdded : answers.mailAdded,
    secret: kind === "webhook" ? added.secret : null,
    fields: { kind, name: "", address: "" },
    attempt,
  };
}

/** Takes a receiver out. */
export async function endReceiver(_before: MessagesAnswer, form: FormData): Promise<MessagesAnswer> {
  const asker = await requireAction("endReceiver");
  if (!asker.ok) return asker;
  const actor = { ...asker.actor, at: Date.now() };
  const ended = await endTarget(await database(), { id: Number(form.get("receiver")), actor });
  const said = await words();
  if (!ended.ok) return { done: false, message: refusalIn(said, ended.refusal) };
  revalidatePath(PAGE);
  return { done: true, message: said.people.messages.answers.ended(ended.name) };
}

/** Has everything that failed tried again at once. */
export async function sendAgain(): Promise<MessagesAnswer> {
  const asker = await requireAction("sendAgain");
  if (!asker.ok) return asker;
  const count = await tryAgain(await database(), { actor: { ...asker.actor, at: Date.now() } });
  revalidatePath(PAGE);
  const { answers } = (await words()).people.messages;
  return { done: true, message: count === 0 ? answers.nothingWaits : answers.again(count) };
}

/** Sets the server through which e-mail goes. An empty password keeps the one that is set. */
export async function saveMailServer(_before: MessagesAnswer, form: FormData): Promise<MessagesAnswer> {
  const asker = await requireAction("saveMailServer");
  if (!asker.ok) return asker;
  const read = MAIL_FORM.safeParse({ secure: null, ...Object.fromEntries(form) });
  const { answers } = (await words()).people.messages;
  if (!read.success) {
    const field = MAIL_FORM.keyof().safeParse(read.error.issues[0]?.path[0]);
    return { done: false, message: answers.server[field.data ?? "secure"] };
  }
  const { secure, password, from, ...rest } = read.data;
  const db = await database();
  const known = await mailServer(db);
  await setMailServer(db, {
    server: { ...rest, from, secure: secure === "on", password: password || (known?.password ?? "") },
    actor: { ...asker.actor, at: Date.now() },
  });
  revalidatePath(PAGE);
  return { done: true, message: answers.serverSaved };
}
