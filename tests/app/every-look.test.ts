import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { ACCESS, type Allowed, type PageAddress } from "../../app/access-table";
import { accessibilityFaults, faultsInEveryLook, overflow, SETTLED_WITHIN_MS } from "./accessibility";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";

const browser = browserForThisFile();

/** What stands for an id in an address; several where a page shows things of several kinds. */
const SHOWN: Partial<Record<PageAddress, readonly string[]>> = {
  "/features/[id]": [
    "/features/1",
    "/features/1?chart=ewma",
    "/features/1?chart=short-run",
    "/features/1?chart=lots",
  ],
  "/alarms/[id]": ["/alarms/347"],
  "/gauges/[id]": ["/gauges/13"],
  "/gauges/[id]/studies/new": ["/gauges/13/studies/new"],
  "/plan/features/new": ["/plan/features/new?part=1"],
  "/gauges/studies/[id]": ["/gauges/studies/1", "/gauges/studies/4"],
  "/statement/[token]": ["/statement/no-such-token"],
};
/** Beside the table: the board on the wall, and what is shown for an address that is none. */
const WALL = "/?wall";
const NO_PAGE = "/no-such-page";
/** A wall is no telephone: its letters grow with the screen. */
const WIDTHS_OF_WALL = [1920, 1440, 1024];

type Who = "engineer" | "quality" | "admin" | "nobody";

/** Who may open most pages looks first, so that each page is looked at once, with all that can be done on it. */
function looker(allowed: Allowed): Who {
  if (allowed === "anyone") return "nobody";
  if (!Array.isArray(allowed)) throw new Error("A page is opened by people.");
  return (["engineer", "quality", "admin"] as const).find((role) => allowed.includes(role))!;
}

function addressesOf(who: Who): string[] {
  const pages = (Object.entries(ACCESS.pages) as [PageAddress, Allowed][]).flatMap(([page, allowed]) =>
    looker(allowed) === who ? (SHOWN[page] ?? [page.replace(/\[\w+\]/g, "1")]) : [],
  );
  return who === "engineer" ? [...pages, WALL, NO_PAGE] : pages;
}

/** Every width, light and dark; then forced colours, in which nothing may move either. */
async function faultsOf(page: Page, address: string): Promise<string[]> {
  await page.emulateMedia({ colorScheme: "light", forcedColors: "none", reducedMotion: "no-preference" });
  const answer = await page.goto(address);
  await page.getByRole("heading", { level: 1 }).first().waitFor();
  const name = address === "/" ? "shift-board" : address.slice(1).replace(/[^a-z0-9]+/gi, "-");
  const faults = await faultsInEveryLook(page, name, address === WALL ? WIDTHS_OF_WALL : undefined);
  if (answer?.status() !== 200 && address !== NO_PAGE)
    faults.push(`${name}: answered with ${answer?.status()}`);

  await page.setViewportSize({ width: 1440, height: 900 });
  await page.emulateMedia({ colorScheme: "light", forcedColors: "active", reducedMotion: "reduce" });
  // Taking other colours is a transition of a hundredth of a millisecond, and then everything stands still.
  const isStill = await page
    .waitForFunction(() => document.getAnimations().every(({ playState }) => playState !== "running"), null, {
      timeout: SETTLED_WITHIN_MS,
    })
    .then(
      () => true,
      () => false,
    );
  if (!isStill) faults.push(`${name}: things move although nothing should`);
  // Contrast is then the reader's own: axe-core reads the colours of the page, which are not the ones shown.
  const forced = await accessibilityFaults(page, ["link-in-text-block"]);
  return [...faults, ...forced.map((fault) => `${name} with forced colours: ${fault}`)];
}

describe("every page holds to WCAG 2.2 AA and stays in its window, at every width, in every look", () => {
  test.each(["engineer", "quality", "admin", "nobody"] as const)(
    "what a person signed in as %s opens",
    async (who) => {
      const page = await browser.page();
      if (who !== "nobody") await signInAs(page, who);
      const faults: string[] = [];
      for (const address of addressesOf(who)) faults.push(...(await faultsOf(page, address)));
      expect(faults).toEqual([]);
    },
    400_000,
  );
});

test("twice as large letters need no sideways scrolling", async () => {
  // A window of 1280 CSS px at 200 % zoom is one of 640.
  const page = await browser.page({ viewport: { width: 640, height: 450 }, deviceScaleFactor: 2 });
  await signInAs(page, "engineer");
  for (const address of ["/", "/features", "/features/1", "/plan", "/capability", "/drift", "/alarms"]) {
    await page.goto(address);
    expect(await overflow(page), address).toBeLessThanOrEqual(0);
  }
});

test("buttons and links of the board are large enough for gloves, or stand within text", async () => {
  const page = await browser.page({ viewport: { width: 1024, height: 768 }, hasTouch: true });
  await signInAs(page, "shift lead");
  await page.goto("/");
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("main button, main select, main summary, nav a")]
      .filter((element) => element.checkVisibility())
      .map((element) => [element.textContent?.slice(0, 20), element.getBoundingClientRect().height] as const)
      .filter(([, height]) => height < 44),
  );
  expect(small).toEqual([]);
});
