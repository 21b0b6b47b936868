import { readFileSync } from "node:fs";
import { join } from "node:path";
import Papa from "papaparse";
import { SaxesParser } from "saxes";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Database, openDatabase } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { featureHistory } from "../../db/queries/history";
import { evaluate } from "../../lib/evaluation/evaluate";
import { fixed } from "../../lib/format/numbers";
import { limitsForSize } from "../../lib/limits/limits-for-size";
import { browserForThisFile } from "./browser";
import { press } from "./keyboard";
import { signInAs } from "./people";
import { dataFolder } from "./plant";

const browser = browserForThisFile();
let database: Database;
let feature: { id: number; name: string };

beforeAll(async () => {
  database = await openDatabase(join(dataFolder, "steadyrest.db"));
  const found = (await listFeatures(database)).find(
    ({ part, name }) => part.number === "H-210" && name === "Output bore height above base",
  );
  feature = found!;
});
afterAll(() => database.close());

/** The chart as lib has it, from the same database. */
async function judged() {
  const history = (await featureHistory(database, feature.id))!;
  return { history, evaluation: evaluate(history.series, history.setup) };
}

describe("the control chart", () => {
  test("says in one sentence where the feature stands, and draws the limits that lib computes", async () => {
    const { history, evaluation } = await judged();
    const page = await browser.page();
    await signInAs(page, "viewer");
    await page.goto(`/features/${feature.id}`);
    await page.getByText(/Signals since .* Beyond 3 sigma above/).waitFor();

    const version = evaluation.versions.at(-1)!;
    const { location, spread } = limitsForSize(version, 5);
    const places = 4; // One more than the feature's resolution of 0.001 mm.
    expect(history.feature.resolution).toBe(0.001);
    const texts = await page.getByRole("slider").locator("svg text").allTextContents();
    for (const value of [location.lower, location.centre, location.upper, spread!.centre, spread!.upper]) {
      expect(texts).toContain(fixed(value, places));
    }
    // Each plot has an upright axis with figures.
    const axes = await page.getByRole("slider").locator(".recharts-wrapper").allTextContents();
    expect(axes).toHaveLength(2);
    for (const axis of axes) expect(axis).toMatch(/^(\d+\.\d+){3,}$/);
  });

  test("marks points beyond a limit as diamonds and brackets patterns with a short phrase", async () => {
    const page = await browser.page();
    await signInAs(page, "viewer");
    await page.goto(`/features/${feature.id}`);
    const chart = page.getByRole("slider", { name: "Subgroups on the control chart" });
    await chart.getByText("2 of 3 beyond 2 sigma above").waitFor();
    await page.getByRole("listitem").filter({ hasText: "beyond a limit" }).waitFor();
    await page.getByText("limits 1, 21 Aug 2026").waitFor();
  });

  test("the arrow keys walk over the points, and the panel has lib's figures", async () => {
    const { history, evaluation } = await judged();
    const { points, formed } = evaluation;
    const last = points.count - 1;
    const page = await browser.page();
    await signInAs(page, "viewer");
    await page.goto(`/features/${feature.id}`);
    const chart = page.getByRole("slider", { name: "Subgroups on the control chart" });
    await chart.focus();
    await page.keyboard.press("End");
    await page.keyboard.press("ArrowLeft");
    const panel = page.getByRole("complementary", { name: "The chosen subgroup" });
    await panel.getByRole("heading", { name: `Subgroup ${last}` }).waitFor();
    expect(await panel.textContent()).toContain(`${fixed(points.mean[last - 1]!, 4)}\u00a0mm`);
    const readings = await panel.getByRole("row").allTextContents();
    for (let k = formed.start[last - 1]!; k < formed.start[last]!; k++) {
      const reading = fixed(history.series.value[formed.order[k]!]!, 3);
      expect(readings.some((row) => row.includes(reading))).toBe(true);
    }
    expect(await chart.getAttribute("aria-valuetext")).toContain(`${last}`);
    await page.keyboard.press("Home");
    expect(Number(await chart.getAttribute("aria-valuenow"))).toBe(
      Number(await chart.getAttribute("aria-valuemin")),
    );
  });

  test("steps over the history show lib's points, the address follows, and the way back leads back", async () => {
    const { history, evaluation } = await judged();
    const { points, formed } = evaluation;
    const page = await browser.page();
    await signInAs(page, "viewer");
    await page.goto(`/features/${feature.id}`);
    const chart = page.getByRole("slider", { name: "Subgroups on the control chart" });
    const first = async () => Number(await chart.getAttribute("aria-valuemin")) - 1;
    const latest = points.count - 120;
    expect(await first()).toBe(latest);
    await page.getByRole("link", { name: "Earlier" }).click();
    await expect.poll(first).toBe(latest - 120);
    await chart.press("Home");
    const panel = page.getByRole("complementary", { name: "The chosen subgroup" });
    await panel.getByRole("heading", { name: `Subgroup ${latest - 119}` }).waitFor();
    expect(await panel.textContent()).toContain(`${fixed(points.mean[latest - 120]!, 4)}\u00a0mm`);
    const reading = history.series.value[formed.order[formed.start[latest - 120]!]!]!;
    await panel
      .getByRole("row", { name: fixed(reading, 3) })
      .first()
      .waitFor();

    await page.waitForURL(new RegExp(`w=${latest - 120}-${latest - 1}$`));
    // Who walks past the end of the window takes it along.
    await chart.press("ArrowLeft");
    await panel.getByRole("heading", { name: `Subgroup ${latest - 120}` }).waitFor();
    await page.waitForURL(new RegExp(`w=${latest - 121}-${latest - 2}$`));
    await chart.press("ArrowRight");
    expect(await first()).toBe(latest - 121);
    await page.getByRole("link", { name: "Later" }).click();
    await page.waitForURL(new RegExp(`w=${latest - 1}-`));
    await page.getByRole("link", { name: "All", exact: true }).click();
    await page.waitForURL(/w=0-/);
    expect(await first()).toBe(0);
    for (const before of [latest - 1, latest - 121, latest]) {
      await page.goBack();
      await expect.poll(first).toBe(before);
    }

    // What is no part of the history is refused in words, and at most three times what a chart shows is read at once.
    const asked = (path: string) => page.request.get(`/api/features/${path}`);
    const whole = await asked(`${feature.id}/points?from=0&to=1499`);
    expect(await whole.json()).toMatchObject({ from: 0, to: points.count - 1 });
    for (const range of ["from=0&to=1500", "from=5&to=4", "from=-1&to=4", "from=0"]) {
      expect((await asked(`${feature.id}/points?${range}`)).status(), range).toBe(400);
    }
    for (const path of [
      "999999/points?from=0&to=1",
      `${feature.id}/readings?from=${points.count}&to=${points.count}`,
    ]) {
      expect((await asked(path)).status(), path).toBe(404);
    }
  });

  test("colours points by fixture, with a shape for each, from the address and from the list", async () => {
    const page = await browser.page();
    await signInAs(page, "viewer");
    await page.goto(`/features/${feature.id}?colour=fixture`);
    for (const fixture of ["FX-1", "FX-2", "FX-3"]) {
      await page.getByRole("listitem").filter({ hasText: fixture }).waitFor();
    }
    await page.getByLabel("Colour by").selectOption("");
    await page.getByRole("listitem").filter({ hasText: "within limits" }).waitFor();
  });

  test("marks the moment that the address asks for", async () => {
    const page = await browser.page();
    await signInAs(page, "viewer");
    await page.goto(`/features/${feature.id}?from=2026-11-11T06:00:00Z`);
    await page.getByText("since 11 Nov 2026").waitFor();
  });

  test("an unknown feature is not found", async () => {
    const page = await browser.page();
    await signInAs(page, "engineer");
    const response = await page.goto("/features/999999");
    expect(response?.status()).toBe(404);
  });

  test("leaves as a picture and its points as CSV, by keyboard alone", async () => {
    const { evaluation } = await judged();
    const page = await browser.page({ colorScheme: "dark" });
    await signInAs(page, "viewer");
    await page.goto(`/features/${feature.id}`);
    const saved = async (title: string) => {
      const waiting = page.waitForEvent("download");
      await press(page.getByTitle(title));
      return readFileSync(await (await waiting).path());
    };
    const svg = (await saved("SVG file of the picture: Control chart")).toString();
    const texts: string[] = [];
    const elements: string[] = [];
    const parser = new SaxesParser();
    parser.on("text", (text) => texts.push(text.trim()));
    parser.on("opentag", ({ name, attributes }) => elements.push(`${name} ${attributes.style ?? ""}`));
    parser.write(svg).close();
    expect(texts).toContain(`${feature.name}: Control chart`);
    expect(texts.some((text) => /^H-210.*2026 to .*2026$/.test(text))).toBe(true);
    expect(texts).toContain("beyond a limit");
    // Looks stand in the file itself, in the light look: blue limits, and a diamond of the palette's vermilion.
    expect(svg).not.toMatch(/var\(|class=/);
    expect(elements.some((element) => /^path .*stroke:rgb\(0, 114, 178\)/.test(element))).toBe(true);
    expect(elements.some((element) => /^path .*fill:rgb\(213, 94, 0\)/.test(element))).toBe(true);

    const png = await saved("PNG file of the picture: Control chart");
    // A PNG says so in its first eight bytes (ISO/IEC 15948, 5.2) and its width in the 16th to 19th.
    expect(png.subarray(0, 8).toString("hex")).toBe("89504e470d0a1a0a");
    expect(png.readUInt32BE(16)).toBeGreaterThanOrEqual(1800);

    await press(page.locator("summary", { hasText: "The points as a table" }));
    const csv = (await saved("CSV file of the table: Points of the chart")).toString();
    const { data } = Papa.parse<Record<string, string>>(csv.slice(1), { header: true, skipEmptyLines: true });
    const last = data.at(-1)!;
    expect(Number(last.Subgroup)).toBe(evaluation.points.count);
    expect(Number(last.Mean)).toBe(evaluation.points.mean[evaluation.points.count - 1]);
  });
});
