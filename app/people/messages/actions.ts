"use server";

import { revalidatePath } from "next/cache";
import { addTarget, endTarget, setMailServer, tryAgain } from "../../../db/commands/messages";
import { mailServer } from "../../../db/queries/messages";
import { counted } from "../../../lib/format/numbers";
import { requireAction } from "../../access";
import { database } from "../../database";
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
  if (!read.success) return refuse("Nothing saved: the form was not complete. Reload the page.");

  const { kind, name, address } = read.data;
  if (name === "") return refuse("Nothing saved: a name tells who gets these messages.");
  const fault = kind === "webhook" ? addressFault(address, { allowsOwn: allowsOwnMachine() }) : null;
  if (fault) return refuse(`Nothing saved: ${fault}`);
  if (kind === "mail" && !isMailAddress(address))
    return refuse("Nothing saved: this is no e-mail address. It looks like name@plant.example.");
  const db = await database();
  if (kind === "mail" && !(await mailServer(db)))
    return refuse("Nothing saved: set the mail server below first, or no mail can go out.");

  const actor = { ...asker.actor, at: Date.now() };
  const added = await addTarget(db, { kind, name, address, actor });
  if (!added.ok) return refuse(added.message);
  revalidatePath(PAGE);
  return {
    done: true,
    message:
      kind === "webhook"
        ? "Saved. A trial message is on its way. This secret signs every message: give it to the receiver now, it is not shown again."
        : "Saved. A trial message is on its way; below stands whether it arrived.",
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
  if (!ended.ok) return { done: false, message: ended.message };
  revalidatePath(PAGE);
  return { done: true, message: `Saved. Nothing more is sent to ${ended.name}.` };
}

/** Has everything that failed tried again at once. */
export async function sendAgain(): Promise<MessagesAnswer> {
  const asker = await requireAction("sendAgain");
  if (!asker.ok) return asker;
  const count = await tryAgain(await database(), { actor: { ...asker.actor, at: Date.now() } });
  revalidatePath(PAGE);
  return {
    done: true,
    message: count === 0 ? "Nothing waits." : `${counted(count, "message")} tried again now.`,
  };
}

/** Sets the server through which e-mail goes. An empty password keeps the one that is set. */
export async function saveMailServer(_before: MessagesAnswer, form: FormData): Promise<MessagesAnswer> {
  const asker = await requireAction("saveMailServer");
  if (!asker.ok) return asker;
  const read = MAIL_FORM.safeParse({ secure: null, ...Object.fromEntries(form) });
  if (!read.success) {
    const issue = read.error.issues[0];
    const says = issue?.message ?? "";
    return {
      done: false,
      message: says.startsWith("Nothing saved") ? says : `Nothing saved: ${issue?.path.join(" ")}: ${says}.`,
    };
  }
  const { secure, password, from, ...rest } = read.data;
  if (!isMailAddress(from))
    return { done: false, message: "Nothing saved: the sender is no e-mail address." };
  const db = await database();
  const known = await mailServer(db);
  await setMailServer(db, {
    server: { ...rest, from, secure: secure === "on", password: password || (known?.password ?? "") },
    actor: { ...asker.actor, at: Date.now() },
  });
  revalidatePath(PAGE);
  return { done: true, message: "Saved. The next message goes through this server." };
}
