import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { LOCATOR, PLANTED_FAULTS } from "../../seed/truth";
import { accessibilityFaults, faultsInEveryLook } from "./accessibility";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";

const browser = browserForThisFile();

const worn = PLANTED_FAULTS.find(({ id }) => id === "worn-locator")!;

async function openDrift(page: Page, address = "/drift"): Promise<void> {
  await page.goto(address);
  await page.getByRole("heading", { level: 1, name: "Drift" }).waitFor();
}

describe("the demo's worn locator", () => {
  test("is named first, since its lot, with the features that moved and those that did not", async () => {
    const page = await browser.page();
    await signInAs(page, "viewer");
    await openDrift(page);

    const moved = page.getByRole("list").filter({ hasText: "now lies" });
    expect(await moved.getByRole("listitem").count()).toBe(1);
    const sentence = (await moved.textContent()) ?? "";
    expect(sentence).toContain(`${LOCATOR.fixture} now lies +`);
    const since = Number(/before lot L-(\d+)/.exec(sentence)?.[1]);
    expect(Math.abs(since - Number(worn.since.slice(2)))).toBeLessThanOrEqual(1);
    expect(sentence).toMatch(/5 of \d+ features agree/);

    const evidence = page.getByRole("region", { name: /features moved with FX-2/ });
    const up = await evidence
      .getByRole("row", { name: /moved up/ })
      .getByRole("link")
      .allTextContents();
    expect(up.sort()).toEqual([...LOCATOR.moved].sort());
    for (const { feature } of worn.untouched) {
      const row = evidence.getByRole("row", { name: new RegExp(`^${feature}`) });
      expect(await row.textContent()).toContain("did not move");
    }
    const link = evidence.getByRole("link", { name: LOCATOR.firstToMeetTolerance.feature });
    expect(await link.getAttribute("href")).toMatch(/^\/features\/\d+\?colour=fixture&from=\d+$/);
    await page.getByText("FX-1 stayed flat").waitFor();
    await page.getByText("FX-3 stayed flat").waitFor();
  });

  test("stands in the grid; arrow keys walk over its cells and each says its figure", async () => {
    const page = await browser.page();
    await signInAs(page, "viewer");
    await openDrift(page);
    const grid = page.getByRole("grid", { name: "Sources by lots" });
    const row = grid.getByRole("row", { name: /^FX-2/ });
    const last = row.getByRole("gridcell").last();
    await last.focus();
    const words = (await last.getAttribute("aria-label")) ?? "";
    expect(words).toMatch(/^FX-2 in L-0236, .*: \+\d\.\d.sigma from the others, over \d+ features/);
    await page.getByText(words, { exact: true }).waitFor();
    await page.keyboard.press("ArrowLeft");
    await page.getByText(/^FX-2 in L-0235, /).waitFor();
    await page.keyboard.press("ArrowUp");
    await page.getByText(/^FX-1 (in|did not run in) L-0235/).waitFor();
    await page.keyboard.press("Home");
    await page.getByText(/^FX-1 (in|did not run in) L-0197/).waitFor();

    await page.getByText("The same as a table of figures").click();
    const figures = page.getByRole("region", { name: /^Deviation from the others/ });
    expect(await figures.getByRole("row").count()).toBe(41);

    await page.getByRole("link", { name: "Earlier lots" }).click();
    await grid.getByRole("columnheader", { name: "L-0196" }).waitFor();
    expect(await grid.getByRole("columnheader", { name: "L-0236" }).count()).toBe(0);
  });

  test("sources that nothing ran beside say what would bring them in", async () => {
    const page = await browser.page();
    await signInAs(page, "viewer");
    await openDrift(page);
    await page.getByText(/sources that cannot be compared/).click();
    await page
      .getByText(/Cut part of a lot with another tool/)
      .first()
      .waitFor();
    await page.getByText(/sources without a change/).click();
    await page
      .getByText(/would be named within 5 lots/)
      .first()
      .waitFor();
  });
});

describe("the other parts", () => {
  test("aluminium housings: two fixtures side by side, nothing named; and only the kind asked for", async () => {
    const page = await browser.page();
    await signInAs(page, "viewer");
    await openDrift(page);
    await page
      .getByLabel("Part", { exact: true })
      .selectOption({ label: "H-320 rev B Light gearbox housing" });
    await page.getByLabel("Kind of source").selectOption("fixture");
    await page.getByRole("button", { name: "Show" }).click();
    await page.getByRole("heading", { name: "Nothing has moved" }).waitFor();
    await page.getByText(/2 sources were compared within lots/).waitFor();
    const grid = page.getByRole("grid", { name: "Sources by lots" });
    expect(await grid.getByRole("rowheader").allTextContents()).not.toContain("T-114");
  });
});

test("holds to WCAG 2.2 AA and stays in its window", async () => {
  const page = await browser.page();
  await signInAs(page, "engineer");
  await openDrift(page, "/drift");
  expect(await faultsInEveryLook(page, "drift")).toEqual([]);
});

describe("events", () => {
  test("a viewer may not log one", async () => {
    const page = await browser.page();
    await signInAs(page, "viewer");
    await openDrift(page);
    expect(await page.getByRole("button", { name: "Log an event" }).count()).toBe(0);
  });

  test("what lies ahead is refused and everything typed stays", async () => {
    const page = await browser.page();
    await signInAs(page, "shift lead");
    await openDrift(page);
    await page.getByRole("button", { name: "Log an event" }).click();
    const form = page.getByRole("dialog");
    expect(await accessibilityFaults(page)).toEqual([]);
    await browser.screenshot(page, "drift-log-event");
    await form.getByLabel("When").fill("2031-05-01T10:00");
    await form.getByLabel("Note").fill("Pin renewed");
    await form.getByRole("button", { name: "Log this event" }).click();
    await form.getByText("This lies ahead. Log it once it is done.").waitFor();
    expect(await form.getByLabel("Note").inputValue()).toBe("Pin renewed");
  });

  test("a repair begins the fixture's history anew, and its neighbours do not inherit the change", async () => {
    const page = await browser.page();
    await signInAs(page, "shift lead");
    await openDrift(page);
    await page.getByRole("button", { name: "Log an event" }).click();
    const form = page.getByRole("dialog");
    expect(await form.getByLabel("Source").locator("option:checked").textContent()).toBe("fixture FX-2");
    await form.getByLabel("Note").fill("Locator pin replaced");
    await form.getByRole("button", { name: "Log this event" }).click();
    await page.getByText("Saved. FX-2 is compared afresh from this event on").waitFor();
    expect(await form.isVisible()).toBe(false);

    await openDrift(page, "/drift?part=1");
    await page.getByRole("heading", { name: "Nothing has moved" }).waitFor();
    await page
      .getByText(/Ended by an event: FX-2 had moved by \+\d\.\d sigma since L-0231 on 5 features/)
      .waitFor();
    const row = page.getByRole("region", { name: /^Latest event of/ }).getByRole("row", { name: /FX-2/ });
    expect(await row.textContent()).toMatch(/repaired.*Locator pin replaced.*Demo shift lead/);
    await browser.screenshot(page, "drift-after-event");
  });
});
