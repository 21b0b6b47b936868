import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { AxeResults } from "axe-core";
import type { Page } from "playwright-core";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** What axe-core holds against the page as it stands, one line each; empty when it holds to WCAG 2.2 AA. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(async (rules): Promise<Pick<AxeResults, "violations">> => {
    const { axe } = window as unknown as { axe: typeof import("axe-core") };
    return axe.run(document, { runOnly: rules });
  }, RULES);
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html }) => `${id}: ${help}: ${html.slice(0, 200)}`),
  );
}

/** How far the page reaches beyond its window; nothing on it may, whatever scrolls inside (WCAG 1.4.10). */
export async function overflow(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
}
