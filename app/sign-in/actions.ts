"use server";

import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { z } from "zod";
import { accountForLogin, demoAccounts } from "../../db/queries/accounts";
import { durationWords } from "../../lib/format/times";
import { openAction } from "../access";
import { database } from "../database";
import { signIn } from "../session";
import { SignInAttempts } from "./attempts";
import { nextAddress } from "./next-address";

export type SignInAnswer = { done: boolean; message: string; login: string };

const Entry = z.object({ login: z.string().max(100), password: z.string().max(1000) });

const attempts = new SignInAttempts();

/** Signs in with login and password. */
export async function signInWithPassword(_before: SignInAnswer, form: FormData): Promise<SignInAnswer> {
  openAction("signInWithPassword");
  const entry = Entry.safeParse({ login: form.get("login"), password: form.get("password") });
  if (!entry.success || entry.data.login.trim() === "" || entry.data.password === "") {
    return notSignedIn("enter your login and your password.", entry.data?.login ?? "");
  }
  const { login, password } = entry.data;
  const from = { login, address: await remoteAddress(), now: Date.now() };
  const wait = attempts.waitFor(from);
  if (wait > 0) {
    return notSignedIn(
      `after several wrong passwords for this login, wait ${durationWords(wait + 999)} before the next try. An admin can set a new password.`,
      login,
    );
  }
  // Noted before the check, so that many tries at once count as many.
  attempts.noteWrong(from);
  const account = await accountForLogin(await database(), { login, password });
  if (!account) {
    return notSignedIn("login and password do not belong together. Check both and try again.", login);
  }
  attempts.noteRight(from);
  await signIn(account);
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

function notSignedIn(why: string, login: string): SignInAnswer {
  return { done: false, message: `Not signed in: ${why}`, login };
}

/** As Next, or the proxy before it, saw it. */
async function remoteAddress(): Promise<string> {
  return (await headers()).get("x-forwarded-for")?.split(",")[0]?.trim() ?? "";
}
