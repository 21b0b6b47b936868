"use server";

import { redirect } from "next/navigation";
import { apiKeyOf } from "../../db/people/api-keys";
import { SCOPE_WORDS } from "../../lib/people/scopes";
import { openAction } from "../access";
import { database } from "../database";
import { keepWallSecret } from "./wall-cookie";

export type WallAnswer = { done: boolean; message: string };

/** Lets this screen show the wall board with a key, from now on. */
export async function showOnWall(_before: WallAnswer, form: FormData): Promise<WallAnswer> {
  openAction("showOnWall");
  const secret = form.get("key");
  if (typeof secret !== "string" || secret.trim() === "" || secret.length > 200)
    return refuse("type or paste the key that an admin made on the page Keys.");
  const found = await apiKeyOf(await database(), { secret: secret.trim(), now: Date.now() });
  if (!found.ok)
    return refuse(
      found.why === "unknown"
        ? "this key is not known here. Compare it with the one that was shown."
        : `the key “${found.name}” lets nobody in any more. An admin makes another on the page Keys.`,
    );
  if (!found.key.scopes.includes("show-wall"))
    return refuse(
      `the key “${found.key.name}” may not ${SCOPE_WORDS["show-wall"]}. An admin makes one that may.`,
    );
  await keepWallSecret(secret.trim());
  redirect("/?wall");
}

function refuse(why: string): WallAnswer {
  return { done: false, message: `Nothing saved: ${why}` };
}
