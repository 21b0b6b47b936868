"use server";

import { redirect } from "next/navigation";
import { apiKeyOf } from "../../db/people/api-keys";
import { openAction } from "../access";
import { database } from "../database";
import { words } from "../language/language";
import { keepWallSecret } from "./wall-cookie";

export type WallAnswer = { done: boolean; message: string };

/** Lets this screen show the wall board with a key, from now on. */
export async function showOnWall(_before: WallAnswer, form: FormData): Promise<WallAnswer> {
  openAction("showOnWall");
  const { wall } = (await words()).signIn;
  const secret = form.get("key");
  if (typeof secret !== "string" || secret.trim() === "" || secret.length > 200) return refuse(wall.noKey);
  const found = await apiKeyOf(await database(), { secret: secret.trim(), now: Date.now() });
  if (!found.ok) return refuse(found.why === "unknown" ? wall.unknown : wall.ended(found.name));
  if (!found.key.scopes.includes("show-wall")) return refuse(wall.mayNot(found.key.name));
  await keepWallSecret(secret.trim());
  redirect("/?wall");
}

function refuse(message: string): WallAnswer {
  return { done: false, message };
}
