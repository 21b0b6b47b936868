import type { Cookie, Page } from "playwright-core";

type Person = "viewer" | "shift lead" | "engineer" | "quality" | "admin";

/** Sessions of this file's people: checking a password takes longer than most of what is tested after it. */
const sessions = new Map<Person, Cookie[]>();

/** Signs in as one of the demo's people, once a file, and lands on the shift board. */
export async function signInAs(page: Page, who: Person): Promise<void> {
  const known = sessions.get(who);
  if (known) {
    await page.context().addCookies(known);
    await page.goto("/");
    // A test may have ended the session; then it begins anew.
    if (new URL(page.url()).pathname === "/") return landed(page);
  }
  await page.goto("/sign-in");
  await page.getByRole("button", { name: `Continue as Demo ${who}` }).click();
  await landed(page);
  sessions.set(who, await page.context().cookies());
}

async function landed(page: Page): Promise<void> {
  await page.getByRole("heading", { level: 1, name: "Shift board" }).waitFor();
  await page.waitForFunction(() => document.title !== "");
}
