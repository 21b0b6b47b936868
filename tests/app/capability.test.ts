import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Database, openDatabase } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { shareOfFeature } from "../../db/queries/gauges";
import { featureHistory } from "../../db/queries/history";
import { plantSettings } from "../../db/queries/settings";
import { type FeatureStudy, featureStudy } from "../../lib/capability/feature-study";
import { gaugeBasis } from "../../lib/capability/gauge-basis";
import { fixed, fixedAtLeast } from "../../lib/format/numbers";
import { PORES } from "../../seed/demo/castings";
import { faultsInEveryLook } from "./accessibility";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";
import { dataFolder } from "./plant";

const browser = browserForThisFile();

const DAY = 86_400_000;

let database: Database;
beforeAll(async () => {
  database = await openDatabase(join(dataFolder, "steadyrest.db"));
});
afterAll(() => database.close());

/** The study that the page of this feature has to show, made here from the database under the server. */
async function studyOf(
  part: string,
  name: string,
  days: number,
): Promise<{ id: number; result: FeatureStudy }> {
  const feature = (await listFeatures(database)).find(
    (each) => each.part.number === part && each.name === name,
  );
  const history = feature && (await featureHistory(database, feature.id));
  if (!feature || !history) throw new Error(`The demo has no ${name} of ${part}.`);
  const { clock } = await plantSettings(database);
  if (clock === null) throw new Error("The demo's clock runs.");
  const window = { from: clock - days * DAY, to: clock, lots: null };
  const gauge = await shareOfFeature(database, { feature, series: history.series, window });
  const result = featureStudy({
    series: history.series,
    setup: history.setup,
    window,
    resolution: feature.resolution,
    gaugeShare: gauge?.share ?? null,
    gaugeBasis: gauge && gaugeBasis(gauge),
    confidence: 0.95,
    answered: history.answered,
  });
  return { id: feature.id, result };
}

function table(page: Page, name: RegExp | string) {
  return page.getByRole("region", { name }).getByRole("table");
}

test("the table says of every feature what can be said, never an index without its bound", async () => {
  const page = await browser.page();
  await signInAs(page, "quality");
  await page.goto("/capability");
  const rows = table(page, /^\d+ features, last 90 days/)
    .locator("tbody")
    .getByRole("row");
  expect(await rows.count()).toBe((await listFeatures(database)).length);

  const texts = await rows.allTextContents();
  // Counts alone have no tolerance.
  const counted = texts.filter((text) => text.startsWith(PORES.name));
  expect(counted).toEqual([expect.stringContaining("No index: the feature has no tolerance limit")]);
  for (const text of texts.filter((one) => !counted.includes(one))) {
    expect(text).toMatch(/Cpk.*at least|Not presentable as capability: .*Performance Ppk .*at least/);
    const indices = [...text.matchAll(/[CP]pk? −?\d+\.\d\d(.{0,10})/g)];
    expect(indices.length, text).toBeGreaterThanOrEqual(3);
    for (const [, after] of indices) expect(after, text).toMatch(/^,? at least/);
    for (const gate of ["stable", "enough", "gauge", "independent", "resolution"])
      expect(text).toContain(gate);
  }
});

test("key characteristics come first, and within them what cannot be presented", async () => {
  const page = await browser.page();
  await signInAs(page, "quality");
  await page.goto("/capability?window=90");
  const rows = await table(page, /last 90 days/)
    .locator("tbody")
    .getByRole("row")
    .allTextContents();
  const order = rows.map(
    (text) => (/ key chart/.test(text) ? 0 : 2) + (text.includes("Not presentable") ? 0 : 1),
  );
  expect(order).toEqual([...order].sort());
  expect(new Set(order).size).toBeGreaterThan(1);
});

test("filters live in the address", async () => {
  const page = await browser.page();
  await signInAs(page, "quality");
  await page.goto("/capability");
  await page.getByLabel("Part", { exact: true }).selectOption({ index: 1 });
  await page.getByLabel("Window").selectOption("30");
  await page.getByLabel("Only key characteristics").check();
  await page.getByRole("button", { name: "Show" }).click();
  await page.waitForURL(/part=\d+&window=30&key=1/);
  const rows = table(page, /last 30 days/)
    .locator("tbody")
    .getByRole("row");
  await rows.first().waitFor();
  for (const text of await rows.allTextContents()) expect(text).toMatch(/ key chart/);
  expect(await page.getByLabel("Only key characteristics").isChecked()).toBe(true);

  await rows.first().getByRole("link").first().click();
  await page.waitForURL(/\/capability\/\d+\?window=30/);
  expect(await page.getByRole("link", { name: "last 30 days" }).getAttribute("aria-current")).toBe("page");
  await page.getByRole("link", { name: "all measurements" }).click();
  await page.waitForURL(/window=all/);
});

test.each([
  ["H-320", "Mounting hole position"],
  ["H-210", "Input bore diameter"],
  ["H-320", "Locating groove depth"],
])("%s %s: the page's figures are those of the study", async (part, name) => {
  const { id, result } = await studyOf(part, name, 90);
  const { study } = result;
  const page = await browser.page();
  await signInAs(page, "quality");
  await page.goto(`/capability/${id}?window=90`);
  await page.getByText(study.claim, { exact: true }).waitFor();

  const indices = table(page, /^Intervals two-sided/);
  for (const index of ["Cp", "Cpk", "Pp", "Ppk"] as const) {
    const row = indices.getByRole("row", { name: new RegExp(`^${index} `) });
    const value = study[index];
    if (value === null) {
      expect(await row.count()).toBe(0);
      continue;
    }
    const cells = await row.getByRole("cell").allTextContents();
    const [low, high] = study.intervals[index]!;
    expect(cells.slice(0, 3)).toEqual([
      fixed(value, 2),
      fixedAtLeast(study.lowerBounds[index]!, 2),
      `${fixed(low, 2)} to ${fixed(high, 2)}`,
    ]);
  }

  const outside = table(page, /^Readings outside the tolerance/);
  for (const [side, head] of [
    ["below", "Below the lower limit"],
    ["above", "Above the upper limit"],
  ] as const) {
    const row = outside.getByRole("row", { name: new RegExp(`^${head}`) });
    const count = study.observedOutside[side];
    if (count === null) expect(await row.count()).toBe(0);
    else expect((await row.getByRole("cell").allTextContents())[0]).toBe(String(count));
  }
  for (const { reason } of study.gates) expect(await page.getByText(reason).count()).toBeGreaterThan(0);
  await page.getByText(`${study.count} on`, { exact: false }).first().waitFor();

  // Every bar of the histogram in its table, and every reading in a bar.
  const histogram = page.getByRole("figure", { name: "Histogram with the normal curve" });
  await histogram.getByText("The same as a table").click();
  const counts = await histogram.locator("tbody tr td:nth-child(3)").allTextContents();
  expect(counts.reduce((sum, text) => sum + Number(text), 0)).toBe(study.count);
});

test("pictures have a name and a description, and the way to each figure carries its numbers", async () => {
  const { id, result } = await studyOf("BB-62", "Side lug width", 90);
  const page = await browser.page();
  await signInAs(page, "viewer");
  await page.goto(`/capability/${id}`);
  const pictures = page.locator("figure svg");
  expect(await pictures.count()).toBe(3);
  for (const picture of await pictures.all()) {
    expect(((await picture.locator("title").textContent()) ?? "").length).toBeGreaterThan(5);
    expect(((await picture.locator("desc").textContent()) ?? "").length).toBeGreaterThan(40);
  }
  await page.getByText("How is this computed?").click();
  const cpk = fixed(result.study.Cpk!, 4);
  await page.getByText(`= ${cpk}`).first().waitFor();
  await browser.screenshot(page, "capability-how-computed");
  // The numbers shown give the index shown, but for their rounding.
  const worked = await page.getByText(/^\([^()]+ − [^()]+\) \/ \([36] × [^()]+\) = /).allTextContents();
  expect(worked.length).toBeGreaterThanOrEqual(2);
  for (const text of worked) {
    const [from, less, times, sigma, index] = [...text.matchAll(/\d+(\.\d+)?/g)].map(([found]) =>
      Number(found),
    );
    expect(Math.abs((from! - less!) / (times! * sigma!) - index!), text).toBeLessThan(1e-3);
  }
});

test("an unknown feature is said to be unknown", async () => {
  const page = await browser.page();
  await signInAs(page, "viewer");
  expect((await page.goto("/capability/999999"))?.status()).toBe(404);
  expect((await page.goto("/capability/bore"))?.status()).toBe(404);
});

test.each([
  ["capability-capable", "H-320 Mounting hole position"],
  ["capability-performance", "H-210 Input bore diameter"],
  ["capability-coarse", "H-320 Locating groove depth"],
  ["capability-outside", "BB-62 Side lug width"],
])("%s holds to WCAG 2.2 AA and stays in its window", async (name, what) => {
  const page = await browser.page();
  await signInAs(page, "quality");
  const [part = "", ...words] = what.split(" ");
  await page.goto(`/capability/${(await studyOf(part, words.join(" "), 90)).id}?window=90`);
  expect(await faultsInEveryLook(page, name, [1440, 320])).toEqual([]);
});
