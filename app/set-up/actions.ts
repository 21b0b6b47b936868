"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import { setUp } from "../../db/commands/accounts";
import { accountById } from "../../db/queries/accounts";
import { refusalIn } from "../../lib/words/refusal";
import { openAction } from "../access";
import { database } from "../database";
import { words } from "../language/language";
import { signIn } from "../session";

export type SetUpAnswer = { done: boolean; message: string; login: string; name: string };

const Entry = z.object({
  token: z.string().max(200),
  login: z.string().max(100),
  name: z.string().max(200),
  password: z.string().max(1000),
  again: z.string().max(1000),
});

/** Creates the plant's first account with the one-time link, and signs it in. */
export async function setUpFirstAccount(_before: SetUpAnswer, form: FormData): Promise<SetUpAnswer> {
  openAction("setUpFirstAccount");
  const said = await words();
  const read = Entry.safeParse(Object.fromEntries(form));
  if (!read.success) return notYet(said.welcome.setUp.fillAll, { login: "", name: "" });
  const { token, again, ...entry } = read.data;
  if (entry.password !== again) return notYet(said.welcome.answers.differ, entry);
  const db = await database();
  const saved = await setUp(db, { token, entry, at: Date.now() });
  if (!saved.ok) return notYet(refusalIn(said, saved.refusal), entry);
  const account = await accountById(db, saved.id);
  if (account) await signIn(account);
  redirect(account ? "/" : "/sign-in");
}

function notYet(message: string, { login, name }: { login: string; name: string }): SetUpAnswer {
  return { done: false, message, login, name };
}
