"use server";

import { revalidatePath } from "next/cache";
import { createApiKey, revokeApiKey } from "../../../db/people/api-keys";
import { refusalIn } from "../../../lib/words/refusal";
import { requireAction } from "../../access";
import { database } from "../../database";
import { words } from "../../language/language";
import { type KeyAnswer, readKeyForm } from "./key-entry";

const A_DAY_MS = 24 * 3_600_000;

/** Makes a key. Its secret is in this one answer and nowhere else. */
export async function makeKey(before: KeyAnswer, form: FormData): Promise<KeyAnswer> {
  const asker = await requireAction("makeKey");
  const fields = readKeyForm(form) ?? before.fields;
  const attempt = before.attempt + 1;
  const refuse = (message: string): KeyAnswer => ({ done: false, message, secret: null, fields, attempt });
  if (!asker.ok) return refuse(asker.message);
  const said = await words();
  if (!readKeyForm(form)) return refuse(said.people.answers.incomplete);

  const { name, scopes, days } = fields;
  // Keys end by the real clock, as sessions do, also in a demo whose own clock stands still.
  const at = Date.now();
  const expiresAt = days === "never" ? null : at + Number(days) * A_DAY_MS;
  const made = await createApiKey(await database(), {
    entry: { name, scopes, expiresAt },
    actor: { ...asker.actor, at },
  });
  if (!made.ok) return refuse(refusalIn(said, made.refusal));
  revalidatePath("/people/keys");
  return {
    done: true,
    message: said.people.keys.made(name.trim()),
    secret: made.secret,
    fields: { name: "", scopes: ["post-measurements"], days: "365" },
    attempt,
  };
}

export type EndKeyAnswer = { done: boolean; message: string };

/** Ends a key at once. */
export async function endKey(_before: EndKeyAnswer, form: FormData): Promise<EndKeyAnswer> {
  const asker = await requireAction("endKey");
  if (!asker.ok) return asker;
  const ended = await revokeApiKey(await database(), {
    id: Number(form.get("key")),
    actor: { ...asker.actor, at: Date.now() },
  });
  const said = await words();
  if (!ended.ok) return { done: false, message: refusalIn(said, ended.refusal) };
  revalidatePath("/people/keys");
  return { done: true, message: said.people.keys.endedNow(ended.name) };
}
