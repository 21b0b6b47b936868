import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { CHROMIUM_FLAGS } from "../chromium.mjs";
import { serverOn } from "../soak/server";

/** What README's reader has to load for each; a larger one is a picture of too much. */
const MOST_BYTES = 150_000;

type Picture = { name: string; height: number; show: (page: Page) => Promise<void> };

const PICTURES: readonly Picture[] = [
  { name: "shift-board", height: 620, show: async (page) => void (await page.goto("/")) },
  {
    name: "control-chart",
    height: 700,
    async show(page) {
      await page.goto("/features?find=Output+bore+height+above+base&part=H-210");
      await page.getByRole("rowheader").getByRole("link").first().click();
      const chart = page.getByRole("slider", { name: "Subgroups on the control chart" });
      await page.getByLabel("Colour by").selectOption("fixture");
      await chart.scrollIntoViewIfNeeded();
      await page
        .getByRole("heading", { name: "Control chart", exact: true })
        .evaluate((heading) => heading.scrollIntoView());
    },
  },
  {
    name: "drift",
    height: 700,
    async show(page) {
      await page.goto("/drift");
      const source = page.getByRole("link", { name: "T-114", exact: true }).first();
      await source.click();
      await page
        .getByRole("heading", { name: "Evidence: T-114" })
        .evaluate((heading) => heading.scrollIntoView());
    },
  },
];

/** Loads a demo of its own, starts the built program on it, and writes each picture as NAME.png into the folder. */
export async function takePictures(folder: string): Promise<void> {
  const data = mkdtempSync(join(tmpdir(), "steadyrest-pictures-"));
  const env = { ...process.env, STEADYREST_DATA: data, STEADYREST_LOG_LEVEL: "warn" };
  const verb = (...words: string[]) =>
    execFileSync(process.execPath, [join(process.cwd(), ".build", "cli.mjs"), ...words], {
      env,
      stdio: ["ignore", "ignore", "inherit"],
    });
  verb("migrate");
  verb("demo", "--if-empty");
  const server = await serverOn(data);
  let browser: Browser | undefined;
  try {
    await server.start();
    const executablePath = process.env.CHROMIUM;
    browser = await chromium.launch({
      ...(executablePath ? { executablePath } : {}),
      args: CHROMIUM_FLAGS,
    });
    for (const { name, height, show } of PICTURES) {
      const context = await browser.newContext({
        baseURL: server.address,
        locale: "en-GB",
        timezoneId: "Europe/Berlin",
        viewport: { width: 1200, height },
        colorScheme: "light",
      });
      const page = await context.newPage();
      await page.goto("/sign-in");
      await page.getByRole("button", { name: "Continue as Demo engineer" }).click();
      await page.getByRole("heading", { level: 1, name: "Shift board" }).waitFor();
      await show(page);
      await page.evaluate(() => document.fonts.ready);
      const png = await page.screenshot();
      if (png.length > MOST_BYTES) {
        throw new Error(
          `${name}.png has ${png.length} bytes, more than ${MOST_BYTES}. Show less of the page.`,
        );
      }
      writeFileSync(join(folder, `${name}.png`), png);
      console.log(`${name}.png, ${Math.round(png.length / 1000)} kB`);
      await context.close();
    }
  } finally {
    await browser?.close();
    await server.stop();
    rmSync(data, { recursive: true, force: true });
  }
}
