"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import { checkPassword } from "../../db/people/sign-in";
import { demoAccounts } from "../../db/queries/accounts";
import { durationWords } from "../../lib/format/times";
import { openAction } from "../access";
import { database } from "../database";
import { words } from "../language/language";
import { requestOrigin } from "../people/origin";
import { signIn } from "../session";
import { nextAddress } from "./next-address";

export type SignInAnswer = { done: boolean; message: string; login: string };

const Entry = z.object({ login: z.string().max(100), password: z.string().max(1000) });

/** Signs in with login and password. */
export async function signInWithPassword(_before: SignInAnswer, form: FormData): Promise<SignInAnswer> {
  openAction("signInWithPassword");
  const { signIn: said, times } = await words();
  const entry = Entry.safeParse({ login: form.get("login"), password: form.get("password") });
  if (!entry.success || entry.data.login.trim() === "" || entry.data.password === "") {
    return notSignedIn(said.not.enter, entry.data?.login ?? "");
  }
  const { login, password } = entry.data;
  const checked = await checkPassword(await database(), {
    login,
    password,
    origin: await requestOrigin(),
    now: Date.now(),
  });
  if (!checked.ok && checked.waitMs > 0) {
    return notSignedIn(said.not.wait(durationWords(checked.waitMs + 999, times)), login);
  }
  if (!checked.ok) return notSignedIn(said.not.wrong, login);
  await signIn(checked.account);
  redirect(nextAddress(form.get("next")));
}

/** Signs in as one of the demo's accounts, in a plant that is a demo. */
export async function continueInDemo(form: FormData): Promise<void> {
  openAction("continueInDemo");
  const login = form.get("login");
  const account = (await demoAccounts(await database())).find((each) => each.login === login);
  if (!account) redirect("/sign-in");
  await signIn(account);
  redirect(nextAddress(form.get("next")));
}

function notSignedIn(message: string, login: string): SignInAnswer {
  return { done: false, message, login };
}
