import "server-only";
import { cookies, headers } from "next/headers";
import { cache } from "react";
import { createSession, endSession } from "../db/commands/accounts";
import { type Account, accountOfSession } from "../db/queries/accounts";
import { database } from "./database";
import { deviceWords } from "./people/device-words";

const COOKIE = "steadyrest-session";

/** Who is signed in; null for nobody. Read once for each request. */
export const signedIn = cache(async (): Promise<Account | null> => {
  const token = (await cookies()).get(COOKIE)?.value;
  if (!token) return null;
  // Sessions end by the real clock, also in a demo whose own clock stands still.
  return accountOfSession(await database(), { token, now: Date.now() });
});

/** Who is signed in by this request's session, asked anew at each call; for an answer that goes on for hours. */
export async function laterSignedIn(): Promise<() => Promise<Account | null>> {
  const token = (await cookies()).get(COOKIE)?.value;
  return async () => (token ? accountOfSession(await database(), { token, now: Date.now() }) : null);
}

/** The secret of this browser's session; empty for none. */
export async function sessionToken(): Promise<string> {
  return (await cookies()).get(COOKIE)?.value ?? "";
}

/** Signs a person in on this browser. A session that was open there ends. */
export async function signIn(account: Account): Promise<void> {
  await signOut();
  const { token, expiresAt } = await createSession(await database(), {
    accountId: account.id,
    device: deviceWords((await headers()).get("user-agent") ?? ""),
    now: Date.now(),
  });
  (await cookies()).set(COOKIE, token, {
    httpOnly: true,
    sameSite: "lax",
    secure: await isEncrypted(),
    path: "/",
    expires: expiresAt,
  });
}

export async function signOut(): Promise<void> {
  const jar = await cookies();
  const token = jar.get(COOKIE)?.value;
  if (!token) return;
  await endSession(await database(), { token });
  jar.delete(COOKIE);
}

/** Whether the browser's own connection is encrypted, as this server or a trusted proxy says (forwarded.ts). */
export async function isEncrypted(): Promise<boolean> {
  return (await headers()).get("x-forwarded-proto")?.split(",")[0]?.trim() === "https";
}
