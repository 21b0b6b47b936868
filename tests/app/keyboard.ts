import type { Locator, Page } from "playwright-core";

/** More than any page asks for to get around it once. */
const MOST_STEPS = 600;

/** Walks with Tab, as a hand that has no mouse, until the thing has the focus. */
export async function walkTo(target: Locator): Promise<void> {
  const page = target.page();
  await target.waitFor();
  for (let steps = 0; steps < MOST_STEPS; steps++) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`Tab does not lead to ${target}.`);
}

/** Presses a button or follows a link by keyboard alone. */
export async function press(target: Locator, key: "Enter" | "Space" = "Enter"): Promise<void> {
  await walkTo(target);
  await target.page().keyboard.press(key);
}

/** Types into a field by keyboard alone, in place of what stands there. */
export async function type(target: Locator, text: string): Promise<void> {
  await walkTo(target);
  await target.page().keyboard.press("ControlOrMeta+a");
  await target.page().keyboard.type(text);
}

/** Chooses from a list by typing the beginning of a choice, as browsers let people do. */
export async function choose(target: Locator, words: string): Promise<void> {
  await walkTo(target);
  await target.page().keyboard.type(words);
}

/** What a picture of a moment shows: wall, desk and tablet, light and dark, as NAME-WIDTH-SCHEME. */
export async function picturesOf(
  page: Page,
  name: string,
  save: (page: Page, name: string) => Promise<string>,
): Promise<void> {
  const before = page.viewportSize();
  for (const width of [1920, 1440, 1024]) {
    await page.setViewportSize({ width, height: 900 });
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      await save(page, `${name}-${width}-${colorScheme}`);
    }
  }
  await page.emulateMedia({ colorScheme: "light" });
  if (before) await page.setViewportSize(before);
}
