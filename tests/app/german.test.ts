import { expect, test } from "vitest";
import { overflow } from "./accessibility";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";

const browser = browserForThisFile();

/** Pages of the rooms that speak German, with a heading to know them by. */
const PAGES: readonly [address: string, heading: string][] = [
  ["/", "Schichttafel"],
  ["/alarms", "Alarme"],
  ["/handover", "Übergabe"],
  ["/drift", "Drift"],
  ["/sign-in", "Anmelden"],
  ["/wall", "Ein Bildschirm an der Wand"],
  ["/people", "Personen"],
  ["/record", "Protokoll"],
  ["/capability", "Fähigkeit"],
  ["/capability/statements", "Fähigkeitsnachweise"],
  ["/capability/1", "Input bore diameter"],
  ["/features", "Merkmale"],
  ["/features/1", "Input bore diameter"],
  ["/features/1?chart=ewma", "Input bore diameter"],
  ["/plan", "Prüfplan"],
  ["/plan/features/1", "Input bore diameter"],
  ["/plan/budget", "Alarmhaushalt"],
  ["/plan/reactions", "Reaktionspläne"],
  ["/gauges", "Messmittel"],
  ["/intake", "Datenannahme"],
  ["/intake/bench", "Messplatz"],
  ["/lesson", "Lehrgang"],
  ["/glossary", "Glossar"],
  ["/set-up", "Das erste Konto"],
  ["/no-such-page", "Unter dieser Adresse ist nichts"],
];

test("pages in German name their language and stay in their window, narrow and wide", async () => {
  const page = await browser.page({ viewport: { width: 320, height: 640 } });
  await signInAs(page, "engineer");
  await page.goto("/");
  await page.getByRole("button", { name: "Deutsch" }).click();
  await page.getByRole("heading", { level: 1, name: "Schichttafel" }).waitFor();
  for (const [address, heading] of PAGES) {
    await page.goto(address);
    await page.getByRole("heading", { level: 1, name: heading }).waitFor();
    expect(await page.locator("html").getAttribute("lang")).toBe("de-DE");
    for (const width of [320, 1440]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await overflow(page), `${address} at ${width}`).toBeLessThanOrEqual(0);
    }
    await browser.screenshot(page, `german${address.replaceAll(/\W/g, "-")}`);
  }
  await page.goto("/");
  const act = page.getByRole("region", { name: "Handeln" });
  await act.getByText(/FX-2 driftet seit Los L-\d+ \(\d+\. \S+ \d{4}/).waitFor();
  expect(await act.textContent()).not.toMatch(/\b(sigma above|since|ago|has moved)\b/);
});
