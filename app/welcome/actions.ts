"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import { acceptInvitation } from "../../db/people/manage";
import { accountById } from "../../db/queries/accounts";
import { refusalIn } from "../../lib/words/refusal";
import { openAction } from "../access";
import { database } from "../database";
import { words } from "../language/language";
import { signIn } from "../session";

export type WelcomeAnswer = { done: boolean; message: string };

const Entry = z.object({
  token: z.string().max(200),
  password: z.string().max(1000),
  again: z.string().max(1000),
});

/** Sets the password with a one-time link, and signs the person in. */
export async function welcome(_before: WelcomeAnswer, form: FormData): Promise<WelcomeAnswer> {
  openAction("welcome");
  const said = await words();
  const read = Entry.safeParse(Object.fromEntries(form));
  if (!read.success) return { done: false, message: said.welcome.answers.fillBoth };
  const { token, password, again } = read.data;
  if (password !== again) return { done: false, message: said.welcome.answers.differ };
  const db = await database();
  const saved = await acceptInvitation(db, { token, password, now: Date.now() });
  if (!saved.ok) return { done: false, message: refusalIn(said, saved.refusal) };
  const account = await accountById(db, saved.id);
  if (account) await signIn(account);
  redirect(account ? "/" : "/sign-in");
}
