import { mkdirSync } from "node:fs";
import { join } from "node:path";
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from "playwright-core";
import { afterAll, afterEach, beforeAll } from "vitest";
import { CHROMIUM_FLAGS, chromium as chromiumPath } from "../chromium.mjs";
import { address } from "./plant";

const RESULTS = join(import.meta.dirname, "../../test-results");

/** What a page reported while it was used: script errors, refused scripts, answers of 500 and above. */
export type Complaint = { page: string; text: string };

export type TestBrowser = {
  /** A page in a fresh profile, on the application under test; relative addresses are meant there. */
  page(options?: BrowserContextOptions): Promise<Page>;
  /** Saves what the page shows as test-results/NAME.png and gives the file's name. */
  screenshot(page: Page, name: string): Promise<string>;
  /** What the pages of this test have complained about so far; taking it empties it. */
  complaints(): Complaint[];
};

/**
 * One browser for the tests of a file. Call it at the top of the file; pages are closed after each test.
 *
 * A test fails when its pages complained of anything it did not take with `complaints()` itself.
 */
export function browserForThisFile(): TestBrowser {
  let browser: Browser | undefined;
  let contexts: BrowserContext[] = [];
  let complaints: Complaint[] = [];

  beforeAll(async () => {
    const executablePath = chromiumPath();
    if (!executablePath)
      throw new Error("No Chromium was found: run these tests through `npm test -- browser`.");
    browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
  });

  afterEach(async () => {
    await Promise.all(contexts.map((context) => context.close()));
    const left = complaints;
    contexts = [];
    complaints = [];
    if (left.length > 0) {
      throw new Error(`Pages complained: ${left.map(({ page, text }) => `${page}: ${text}`).join("\n")}`);
    }
  });

  afterAll(() => browser?.close());

  return {
    async page(options = {}) {
      if (!browser) throw new Error("page() belongs inside a test or a hook.");
      const context = await browser.newContext({
        baseURL: address,
        locale: "en-GB",
        timezoneId: "Europe/Berlin",
        viewport: { width: 1280, height: 900 },
        ...options,
      });
      contexts.push(context);
      const page = await context.newPage();
      listen(page, (text) => complaints.push({ page: page.url(), text }));
      return page;
    },
    screenshot,
    complaints() {
      const taken = complaints;
      complaints = [];
      return taken;
    },
  };
}

export async function screenshot(page: Page, name: string): Promise<string> {
  mkdirSync(RESULTS, { recursive: true });
  const path = join(RESULTS, `${name}.png`);
  await page.screenshot({ path, fullPage: true });
  return path;
}

function listen(page: Page, complain: (text: string) => void): void {
  page.on("pageerror", (error) => complain(error.message));
  page.on("console", (message) => {
    // The browser notes every answer of 400 and above; a refusal is no fault, and faults are seen below.
    const isAnswer = message.text().startsWith("Failed to load resource");
    if (message.type() === "error" && !isAnswer) complain(message.text());
  });
  page.on("response", (response) => {
    if (response.status() >= 500) complain(`${response.status()} from ${response.url()}`);
  });
}
