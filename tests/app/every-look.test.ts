import { describe, expect, test } from "vitest";
import { accessibilityFaults, faultsInEveryLook, overflow } from "./accessibility";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";

const browser = browserForThisFile();

const PAGES: readonly [name: string, address: string][] = [
  ["shift-board", "/"],
  ["features", "/features"],
  ["intake", "/intake"],
  ["intake-detail", "/intake/1"],
  ["control-plan", "/plan"],
  ["plan-feature", "/plan/features/1"],
  ["plan-part", "/plan/parts/1"],
  ["not-found", "/no-such-page"],
];

describe("pages hold to WCAG 2.2 AA and stay in their window, at every width, light and dark", () => {
  test("signing in", async () => {
    const page = await browser.page();
    await page.goto("/sign-in");
    expect(await faultsInEveryLook(page, "sign-in")).toEqual([]);
  });

  test.each(PAGES)("%s", async (name, address) => {
    const page = await browser.page();
    await signInAs(page, "engineer");
    await page.goto(address);
    expect(await faultsInEveryLook(page, name)).toEqual([]);
  });
});

test("with forced colours everything that carries meaning is still there", async () => {
  const page = await browser.page({ forcedColors: "active" });
  await signInAs(page, "viewer");
  expect(await accessibilityFaults(page)).toEqual([]);
  await browser.screenshot(page, "shift-board-forced-colours");
});

test("twice as large letters need no sideways scrolling", async () => {
  // A window of 1280 CSS px at 200 % zoom is one of 640.
  const page = await browser.page({ viewport: { width: 640, height: 450 }, deviceScaleFactor: 2 });
  await signInAs(page, "viewer");
  for (const address of ["/", "/features", "/plan"]) {
    await page.goto(address);
    expect(await overflow(page), address).toBeLessThanOrEqual(0);
  }
});

test("buttons and links of the board are large enough for gloves, or stand within text", async () => {
  const page = await browser.page({ viewport: { width: 1024, height: 768 }, hasTouch: true });
  await signInAs(page, "shift lead");
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("main button, main select, main summary, nav a")]
      .filter((element) => element.checkVisibility())
      .map((element) => [element.textContent?.slice(0, 20), element.getBoundingClientRect().height] as const)
      .filter(([, height]) => height < 44),
  );
  expect(small).toEqual([]);
});
