"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import { setUp } from "../../db/commands/accounts";
import { accountById } from "../../db/queries/accounts";
import { openAction } from "../access";
import { database } from "../database";
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
  const read = Entry.safeParse(Object.fromEntries(form));
  if (!read.success) return notYet("fill in all fields.", { login: "", name: "" });
  const { token, again, ...entry } = read.data;
  if (entry.password !== again) return notYet("the two passwords differ. Type both again.", entry);
  const db = await database();
  const saved = await setUp(db, { token, entry, at: Date.now() });
  if (!saved.ok) return { done: false, message: saved.message, login: entry.login, name: entry.name };
  const account = await accountById(db, saved.id);
  if (account) await signIn(account);
  redirect(account ? "/" : "/sign-in");
}

function notYet(why: string, { login, name }: { login: string; name: string }): SetUpAnswer {
  return { done: false, message: `Nothing saved: ${why}`, login, name };
}
