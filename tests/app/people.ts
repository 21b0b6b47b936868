import { join } from "node:path";
import type { Cookie, Page } from "playwright-core";
import { createSession } from "../../db/commands/accounts";
import { openDatabase } from "../../db/connection";
import { demoAccounts } from "../../db/queries/accounts";
import { address, dataFolder } from "./plant";

type Person = "viewer" | "shift lead" | "engineer" | "quality" | "admin";
type Session = Pick<Cookie, "name" | "value" | "httpOnly" | "sameSite"> & { url: string };

/** Sessions of this file's people. */
const sessions = new Map<Person, Session>();

/**
 * Gives the page's browser a session of one of the demo's people; no page is opened. What the page of signing in does
 * is tested in sign-in.test.ts alone: to go through it and the board before each test cost as much as most tests.
 */
export async function signInAs(page: Page, who: Person): Promise<void> {
  const session = sessions.get(who) ?? (await sessionOf(who));
  sessions.set(who, session);
  await page.context().addCookies([session]);
}

async function sessionOf(who: Person): Promise<Session> {
  const database = await openDatabase(join(dataFolder, "steadyrest.db"));
  const account = (await demoAccounts(database)).find(({ name }) => name === `Demo ${who}`);
  if (!account) throw new Error(`The demo has no ${who}.`);
  const { token } = await createSession(database, { accountId: account.id, now: Date.now() });
  await database.close();
  return { name: "steadyrest-session", value: token, url: address, httpOnly: true, sameSite: "Lax" };
}
