import "server-only";
import { cookies } from "next/headers";
import { isEncrypted } from "../session";

/*
 * A screen on a wall keeps its key in a cookie that scripts cannot read. It opens the wall board and its news and
 * nothing else; an admin ends the key, and the screen goes dark.
 */

const COOKIE = "steadyrest-wall";

/** The longest that browsers keep a cookie: 400 days. */
const KEPT_S = 400 * 24 * 3600;

export async function wallSecret(): Promise<string | undefined> {
  return (await cookies()).get(COOKIE)?.value;
}

export async function keepWallSecret(secret: string): Promise<void> {
  (await cookies()).set(COOKIE, secret, {
    httpOnly: true,
    sameSite: "lax",
    secure: await isEncrypted(),
    path: "/",
    maxAge: KEPT_S,
  });
}
