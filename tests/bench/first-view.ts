import { gzipSync } from "node:zlib";
import type { Browser, BrowserContext, Page, Response } from "playwright-core";
import type { Server } from "../soak/server";
import type { ServedPlant } from "./serving-data";

/** What the page says of itself while it appears. */
type Seen = { paint: number; shift: number; moved: string[] };

export type FirstView = {
  /** Scripts, in kB (1,000 bytes): as they came over the line, and compressed by gzip at its usual level. */
  sent: number;
  compressed: number;
  /** Largest contentful paint, in ms after the navigation began. */
  paint: number;
  shift: number;
  /** What moved by itself. */
  moved: string[];
};

/** No new request for so long: the page has all that its first view loads. */
const STILL_MS = 700;

export type Visitor = { address: string; cookie: string; width: number; height: number };

export const DESK = { width: 1440, height: 900 };
export const PHONE = { width: 390, height: 844 };

export function visiting(
  { server, plant }: { server: Pick<Server, "address">; plant: Pick<ServedPlant, "cookie"> },
  size: typeof DESK,
): Visitor {
  return { address: server.address, cookie: plant.cookie, ...size };
}

/** A browser profile without anything in its cache, signed in. */
export async function visitor(
  browser: Browser,
  { address, cookie, width, height }: Visitor,
): Promise<BrowserContext> {
  const context = await browser.newContext({
    baseURL: address,
    locale: "en-GB",
    viewport: { width, height },
  });
  const [name, value] = cookie.split("=") as [string, string];
  await context.addCookies([{ name, value, url: address }]);
  await context.addInitScript(() => {
    const seen = { paint: 0, shift: 0, moved: [] as string[] };
    Object.assign(globalThis, { seen });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) seen.paint = entry.startTime;
    }).observe({ type: "largest-contentful-paint", buffered: true });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) {
        const {
          value: by,
          hadRecentInput,
          sources,
        } = entry as unknown as {
          value: number;
          hadRecentInput: boolean;
          sources: { node: Node | null }[];
        };
        if (hadRecentInput) continue;
        seen.shift += by;
        for (const { node } of sources) {
          const element = node instanceof Element ? node : node?.parentElement;
          seen.moved.push(`${element?.tagName.toLowerCase()}.${element?.getAttribute("class") ?? ""}`);
        }
      }
    }).observe({ type: "layout-shift", buffered: true });
  });
  return context;
}

/** Opens a page for the first time and waits until it asks for nothing more. */
export async function firstView(browser: Browser, who: Visitor, path: string): Promise<FirstView> {
  const context = await visitor(browser, who);
  try {
    const page = await context.newPage();
    const scripts: Response[] = [];
    page.on("response", (response) => {
      if (response.request().resourceType() === "script") scripts.push(response);
    });
    const answer = await page.goto(path);
    if (answer?.status() !== 200) throw new Error(`${path} answered ${answer?.status()}.`);
    await still(page);
    let [sent, compressed] = [0, 0];
    for (const script of scripts) {
      sent += (await script.request().sizes()).responseBodySize;
      compressed += gzipSync(await script.body()).length;
    }
    return { sent: sent / 1000, compressed: compressed / 1000, ...(await seenBy(page)) };
  } finally {
    await context.close();
  }
}

export function seenBy(page: Page): Promise<Seen> {
  return page.evaluate(() => (globalThis as unknown as { seen: Seen }).seen);
}

export async function still(page: Page): Promise<void> {
  await page.waitForLoadState("load");
  await page.evaluate(async (ms) => {
    const count = () => performance.getEntriesByType("resource").length;
    for (let before = -1; before !== count(); ) {
      before = count();
      await new Promise((resolve) => setTimeout(resolve, ms));
    }
  }, STILL_MS);
}
