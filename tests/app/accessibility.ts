import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { AxeResults } from "axe-core";
import type { Page } from "playwright-core";
import { screenshot } from "./browser";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** What may differ between a page in the light and the same page in the dark. */
const RULES_ON_COLOURS = ["color-contrast", "link-in-text-block"];

/** What axe-core holds against the page as it stands, one line each; empty when it holds to WCAG 2.2 AA. */
export async function accessibilityFaults(page: Page, rules = RULES): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(AXE);
  const { violations } = await page.evaluate(async (rules): Promise<Pick<AxeResults, "violations">> => {
    const { axe } = window as unknown as { axe: typeof import("axe-core") };
    // What passes is not described node by node, which on a page of many strips takes longer than to look.
    return axe.run(document, { runOnly: rules, resultTypes: ["violations"] });
  }, rules);
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html }) => `${id}: ${help}: ${html.slice(0, 200)}`),
  );
}

const WIDTHS = [1920, 1440, 1024, 320];

/** The width at which axe-core looks as well; what a page holds is the same at the others. */
const EXAMINED = 1440;

/**
 * Looks at an opened page at every width, at one of them light and dark, and says what is wrong: what reaches beyond
 * the window (WCAG 1.4.10) and what axe-core finds. A look with faults is left as picture NAME-WIDTH-SCHEME.
 * Colours are all that tells a dark page from a light one, so they alone are examined there.
 */
export async function faultsInEveryLook(page: Page, name: string, widths = WIDTHS): Promise<string[]> {
  const faults: string[] = [];
  const examined = async (colorScheme: "light" | "dark", rules: string[]) => {
    await page.emulateMedia({ colorScheme });
    await noted(`${name}-${EXAMINED}-${colorScheme}`, await accessibilityFaults(page, rules));
  };
  const noted = async (look: string, found: string[]) => {
    if (found.length > 0) await screenshot(page, look);
    faults.push(...found.map((fault) => `${look}: ${fault}`));
  };
  for (const width of widths) {
    await page.setViewportSize({ width, height: 900 });
    // A chart takes its new width once it has been laid out. What is dark lies where it lay in the light.
    if (await reachesBeyond(page))
      await noted(`${name}-${width}-light`, [`reaches ${await overflow(page)} px beyond`]);
    if (width !== EXAMINED) continue;
    await examined("light", RULES);
    await examined("dark", RULES_ON_COLOURS);
    await page.emulateMedia({ colorScheme: "light" });
  }
  return faults;
}

/**
 * A page with sixty studies lays itself out, or takes other colours, in half a second, and in five on a machine that does
 * ten times as much besides. Whoever finds no fault waits no longer than that.
 */
export const SETTLED_WITHIN_MS = 20_000;

async function reachesBeyond(page: Page): Promise<boolean> {
  const within = page.waitForFunction(() => document.documentElement.scrollWidth <= window.innerWidth, null, {
    timeout: SETTLED_WITHIN_MS,
  });
  return within.then(
    () => false,
    () => true,
  );
}

/** How far the page reaches beyond its window; nothing on it may, whatever scrolls inside (WCAG 1.4.10). */
export async function overflow(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
}
