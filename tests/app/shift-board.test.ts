import { expect, test } from "vitest";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";

const browser = browserForThisFile();

test("three bands in order; every feature that needs somebody says why, the quiet ones are counted per part", async () => {
  const page = await browser.page();
  await signInAs(page, "shift lead");
  await page.goto("/");
  expect(await page.getByRole("heading", { level: 2 }).allTextContents()).toEqual([
    " Act",
    " Watch",
    " Quiet",
  ]);

  const act = page.getByRole("region", { name: "Act" });
  // Sources that moved stand first, without a strip.
  const rows = act.getByRole("listitem").filter({ has: page.getByRole("img") });
  expect(await rows.count()).toBeGreaterThan(0);
  const first = rows.first();
  // The feature, its alarm, and the source that moves it.
  expect(await first.getByRole("link").count()).toBeGreaterThanOrEqual(2);
  expect(await first.getByRole("img").getAttribute("aria-label")).toMatch(
    /^Newest mean .* Tolerance .* Control limits /,
  );
  expect(await first.textContent()).toMatch(/unacknowledged.*sigma|centre|rising|falling/);

  const quiet = page.getByRole("region", { name: "Quiet" });
  const fold = quiet.locator("summary").first();
  const count = Number(/(\d+) quiet feature/.exec((await fold.textContent()) ?? "")?.[1]);
  await fold.click();
  expect(await quiet.getByRole("row").count()).toBe(count + 1);
});

test("a filter lives in the address and narrows all bands", async () => {
  const page = await browser.page();
  await signInAs(page, "viewer");
  await page.goto("/");
  await page.getByLabel("Part").selectOption("H-210");
  await page.getByRole("button", { name: "Show" }).click();
  await page.waitForURL(/part=H-210/);
  await page.getByText(/^\d+ of \d+ features shown$/).waitFor();
  const rows = page.getByRole("region", { name: "Act" }).getByRole("listitem");
  const parts = await rows.filter({ has: page.getByRole("img") }).allTextContents();
  for (const text of parts) expect(text).toContain("H-210");
  await page.getByRole("link", { name: "Show all" }).click();
  await page.waitForURL((url) => url.search === "");
});

test("a filter that nothing passes says so and leads back", async () => {
  const page = await browser.page();
  await signInAs(page, "viewer");
  await page.goto("/?part=nothing-like-it");
  await page.getByText("No feature passes this filter").waitFor();
});

test("the list of features finds words of name, part and kind together", async () => {
  const page = await browser.page();
  await signInAs(page, "viewer");
  await page.goto("/features");
  const all = await page.getByRole("row").count();
  await page.getByLabel("Find").fill("bore H-210");
  await page.getByRole("button", { name: "Show" }).click();
  await page.waitForURL(/find=bore/);
  const rows = await page.getByRole("row").allTextContents();
  expect(rows.length).toBeLessThan(all);
  for (const text of rows.slice(1)) expect(text).toMatch(/bore.*H-210/i);
});

test("by keyboard: past the navigation, to a feature", async () => {
  const page = await browser.page();
  await signInAs(page, "viewer");
  await page.goto("/");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  expect(await page.evaluate(() => document.activeElement?.id)).toBe("content");
  // The words to find, three choices and their button, the source that moved, then the first feature of the first band.
  for (let press = 0; press < 7; press++) await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/features\/\d+$/);
});
