import "server-only";
import { randomBytes } from "node:crypto";
import { cookies, headers } from "next/headers";
import type { Origin } from "../../db/people/guesses";
import { peerOf } from "../forwarded";
import { isEncrypted } from "../session";

/*
 * Where a guess at a password or PIN comes from. The browser's own cookie names no person; it only tells a
 * browser in which somebody has got in before from all others, so that strangers cannot lock them out of it.
 */

const COOKIE = "steadyrest-device";
const A_YEAR_S = 365 * 24 * 60 * 60;

/** For an action or a route handler; gives the browser its cookie when it has none. */
export async function requestOrigin(): Promise<Origin> {
  const jar = await cookies();
  const known = jar.get(COOKIE)?.value;
  const device = known && /^[\w-]{22}$/.test(known) ? known : randomBytes(16).toString("base64url");
  jar.set(COOKIE, device, {
    httpOnly: true,
    sameSite: "lax",
    secure: await isEncrypted(),
    path: "/",
    maxAge: A_YEAR_S,
  });
  return { device, address: peerOf(await headers()) };
}
