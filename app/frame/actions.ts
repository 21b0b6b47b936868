"use server";

import { cookies } from "next/headers";
import { redirect } from "next/navigation";
import { isLanguage, LANGUAGE_COOKIE } from "../../lib/words/language";
import { openAction } from "../access";
import { signOut } from "../session";
import { THEME_COOKIE, THEMES } from "../theme";

const A_YEAR_S = 365 * 24 * 60 * 60;

/** Keeps the light or dark pages that this browser chose. */
export async function chooseTheme(form: FormData): Promise<void> {
  openAction("chooseTheme");
  const wanted = THEMES.find((theme) => theme === form.get("theme"));
  if (!wanted) return;
  (await cookies()).set(THEME_COOKIE, wanted, { sameSite: "lax", path: "/", maxAge: A_YEAR_S });
}

/** Keeps the language that this browser chose; until then the plant's holds. */
export async function chooseLanguage(form: FormData): Promise<void> {
  openAction("chooseLanguage");
  const wanted = form.get("language");
  if (!isLanguage(wanted)) return;
  (await cookies()).set(LANGUAGE_COOKIE, wanted, { sameSite: "lax", path: "/", maxAge: A_YEAR_S });
}

/** Ends the session on this browser. */
export async function leave(): Promise<void> {
  openAction("leave");
  await signOut();
  redirect("/sign-in");
}
