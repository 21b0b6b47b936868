import type { Page } from "playwright-core";

/** Signs in as one of the demo's people and lands on the shift board. */
export async function signInAs(
  page: Page,
  who: "viewer" | "shift lead" | "engineer" | "quality" | "admin",
): Promise<void> {
  await page.goto("/sign-in");
  await page.getByRole("button", { name: `Continue as Demo ${who}` }).click();
  await page.getByRole("heading", { level: 1, name: "Shift board" }).waitFor();
  await page.waitForFunction(() => document.title !== "");
}
