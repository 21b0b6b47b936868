import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { openDatabase } from "../../db/connection";
import { featureHistory } from "../../db/queries/history";
import { baselineLimits } from "../../lib/evaluation/baseline";
import { evaluate } from "../../lib/evaluation/evaluate";
import { fixed, measured } from "../../lib/format/numbers";
import { limitsForSize } from "../../lib/limits/limits-for-size";
import { castingLots, PORES } from "../../seed/demo/castings";
import factors from "../reference/control-chart-factors.json";
import { faultsInEveryLook } from "./accessibility";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";
import { dataFolder } from "./plant";

const browser = browserForThisFile();

/** Means and ranges of 5, resolution 0.001 mm, charted as measured. */
const FEATURE = 2;
const OTHER_FEATURE = 4;

async function featurePage(
  who: Parameters<typeof signInAs>[1],
  address: string,
  options: Parameters<typeof browser.page>[0] = {},
): Promise<Page> {
  const page = await browser.page({ ...options });
  await signInAs(page, who);
  await page.goto(address);
  return page;
}

const task = (page: Page, name: string) => page.getByRole("region", { name });

describe("freezing limits", () => {
  test("from 5 subgroups they are refused in words and what was typed stays; from 25 they are frozen", async () => {
    const page = await featurePage("engineer", `/features/${FEATURE}`);
    const freeze = task(page, "Freeze control limits");
    await freeze.getByLabel("First of the baseline").fill("30");
    await freeze.getByLabel("Last of the baseline").fill("34");
    await freeze.getByRole("button", { name: "See what limits it gives" }).click();
    await freeze.getByText("Too few to freeze: limits need at least 20 subgroups that count.").waitFor();

    await freeze.getByLabel("Reason").fill("New insert grade since Monday.");
    await freeze.getByRole("button", { name: "Freeze these limits" }).click();
    await freeze
      .getByText("Nothing saved: the baseline holds 5 subgroups that count, and limits need at least 20.")
      .waitFor();
    expect(await freeze.getByLabel("Reason").inputValue()).toBe("New insert grade since Monday.");
    expect(await freeze.getByLabel("First of the baseline").inputValue()).toBe("30");

    await freeze.getByLabel("Last of the baseline").fill("54");
    await freeze.getByRole("button", { name: "Freeze these limits" }).click();
    await freeze.getByText("Saved. Limits 2 are frozen and judge from").waitFor();
    expect(await freeze.getByLabel("Reason").inputValue()).toBe("");
    await page.getByText(/^Limits 2, frozen .* by Demo engineer/).waitFor();
  });

  test("without a reason, or with numbers that are no subgroups, nothing is saved", async () => {
    const page = await featurePage("engineer", `/features/${OTHER_FEATURE}`);
    const freeze = task(page, "Freeze control limits");
    await freeze.getByRole("button", { name: "Freeze these limits" }).click();
    await freeze.getByText("Nothing saved: write why these limits are frozen").waitFor();
    await freeze.getByLabel("Last of the baseline").fill("99999");
    await freeze.getByLabel("Reason").fill("A trial.");
    await freeze.getByRole("button", { name: "Freeze these limits" }).click();
    await freeze.getByText("Nothing saved: name the first and the last subgroup by their numbers").waitFor();
  });

  test("the point that is chosen on the chart is taken with a button", async () => {
    const page = await featurePage("engineer", `/features/${OTHER_FEATURE}?w=100-160`);
    await page.getByRole("slider", { name: "Subgroups on the control chart" }).press("Home");
    const freeze = task(page, "Freeze control limits");
    await freeze.getByRole("button", { name: "Take the chosen point, 101 as first of the baseline" }).click();
    expect(await freeze.getByLabel("First of the baseline").inputValue()).toBe("101");
  });
});

test("subgroups are left out with a cause, are told as such, and taken back in", async () => {
  const page = await featurePage("engineer", `/features/${OTHER_FEATURE}?w=0-99`);
  const leave = task(page, "Leave subgroups out");
  await leave.getByLabel("First left out").fill("12");
  await leave.getByLabel("Last left out").fill("13");
  await leave.getByRole("button", { name: "Leave out" }).click();
  await leave.getByText("Nothing saved: name the assigned cause").waitFor();
  expect(await leave.getByLabel("First left out").inputValue()).toBe("12");

  await leave.getByLabel("In words").fill("Chips on the stop");
  await leave.getByRole("button", { name: "Leave out" }).click();
  await leave
    .getByText("Saved. 2 subgroups left out (subgroups 12 to 13): Chips on the stop.", { exact: false })
    .waitFor();
  await page.getByText("The points as a table").click();
  const row = page.getByRole("row", { name: /^12 / });
  expect(await row.textContent()).toContain("Chips on the stop");

  await leave.getByRole("button", { name: "Leave out" }).click();
  await leave.getByText("Nothing saved: subgroups 12 to 13 are left out already.").waitFor();

  await leave.getByRole("button", { name: "Take back in: subgroups 12 to 13" }).click();
  await leave.getByText("Saved. The subgroups count again").waitFor();
  await leave.getByText("No subgroup is left out.").waitFor();
  expect(await row.textContent()).not.toContain("Chips on the stop");
});

test("who is no engineer reads and has nothing to change limits with", async () => {
  const page = await featurePage("shift lead", `/features/${OTHER_FEATURE}`);
  await page.getByText("How is this computed").waitFor();
  expect(await task(page, "Freeze control limits").count()).toBe(0);
  expect(await task(page, "Leave subgroups out").count()).toBe(0);
});

test("how it is computed: the figures of the baseline, with the constants of printed tables", async () => {
  const database = await openDatabase(join(dataFolder, "steadyrest.db"));
  const history = await featureHistory(database, OTHER_FEATURE);
  await database.close();
  if (!history) throw new Error("the demo has no such feature");
  const { setup, series, feature, limits } = history;
  const frozen = limits[0]!;
  const { limits: baseline } = baselineLimits(evaluate(series, setup), {
    setup,
    from: frozen.baselineFrom,
    to: frozen.baselineTo,
  });
  if (!baseline.ok) throw new Error("no limits");
  const { location, spread } = limitsForSize(baseline.value, 5);
  const figure = (value: number) => measured(value, { resolution: feature.resolution, extra: 1 });

  const page = await featurePage("viewer", `/features/${OTHER_FEATURE}`);
  await page.getByText("How is this computed").click();
  const panel = page.locator("details", { hasText: "How is this computed" });
  const text = ((await panel.textContent()) ?? "").replaceAll("\u00a0", " ");
  expect(text).toContain(`mean of all readings of the baseline = ${figure(baseline.value.centre)} mm`);
  expect(text).toContain(`= ${figure(location.lower)} to ${figure(location.upper)} mm`);
  expect(text).toContain(
    `= ${figure(spread!.lower)} to ${figure(spread!.upper)} mm about ${figure(spread!.centre)} mm`,
  );
  // A printed constant has three decimals; the page shows four.
  for (const [name, sign] of [
    ["A2", "A₂"],
    ["D3", "D₃"],
    ["D4", "D₄"],
  ] as const) {
    const printed = factors.printed.find((one) => one.name === `${name}(5)`)!.printed as number;
    const shown = new RegExp(`${sign} = (\\d\\.\\d{4})`).exec(text)?.[1];
    expect(Math.abs(Number(shown) - printed), name).toBeLessThanOrEqual(0.00056);
  }
  // The same by plain loops: mean range of the first subgroups of five over the printed d2 of 2.326.
  const d2 = 2.326;
  const shownRange = Number(/R̄ = (\d+\.\d+) mm/.exec(text)?.[1]);
  expect(text).toContain(`= ${fixed(baseline.value.sigma, 5)} mm`);
  expect(Math.abs(shownRange / d2 - baseline.value.sigma)).toBeLessThan(1e-5);
});

test("where the variation comes from is told in shares that make up the whole", async () => {
  const page = await featurePage("viewer", `/features/${OTHER_FEATURE}`);
  await page.getByText("Where the variation comes from").click();
  const panel = page.locator("details", { hasText: "Where the variation comes from" });
  const heading = await panel.getByRole("heading").first().textContent();
  const shares = [...(heading ?? "").matchAll(/(\d+) %/g)].map(([, share]) => Number(share));
  expect(shares.length).toBeGreaterThan(1);
  // Each is rounded to a whole percentage by itself.
  expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) - 100)).toBeLessThanOrEqual(
    shares.length / 2,
  );
  expect(await panel.textContent()).toMatch(/The \d+ lots .*: F = \d/);
});

describe("the strip of the whole history", () => {
  test("links and sliders move the window without moving the page", async () => {
    const page = await featurePage("viewer", `/features/${OTHER_FEATURE}`);
    const first = page.getByRole("slider", { name: "First subgroup shown" });
    const before = Number(await first.inputValue());
    const earlier = page.getByRole("link", { name: "Earlier" });
    await earlier.scrollIntoViewIfNeeded();
    const scrolled = await page.evaluate(() => window.scrollY);
    expect(scrolled).toBeGreaterThan(0);
    await earlier.click();
    await page.waitForURL(/w=\d+-\d+/);
    await expect.poll(async () => Number(await first.inputValue())).toBe(before - 120);
    expect(await page.evaluate(() => window.scrollY)).toBe(scrolled);

    await first.focus();
    await first.press("ArrowRight");
    await page.waitForURL(new RegExp(`w=${before - 120}-`));
    expect(await first.evaluate((slider) => slider === document.activeElement)).toBe(true);
    await page.getByRole("link", { name: "Latest" }).click();
    await expect.poll(async () => Number(await first.inputValue())).toBe(before);
  });

  test("a press on the strip brings the window there", async () => {
    const page = await featurePage("viewer", `/features/${OTHER_FEATURE}`);
    const strip = page.getByRole("img", { name: /^The whole history/ });
    const box = (await strip.boundingBox())!;
    await strip.click({ position: { x: box.width * 0.02, y: 20 } });
    await page.waitForURL(/w=0-119/);
    expect(await page.getByRole("slider", { name: "First subgroup shown" }).inputValue()).toBe("1");
  });
});

test("counts stand between the limits of their own sample, as lines in steps and as a table, by plain loops", async () => {
  const lots = castingLots();
  const baseline = lots.slice(0, 25);
  const sum = (of: (lot: (typeof lots)[number]) => number) => baseline.reduce((all, lot) => all + of(lot), 0);
  const rate = sum(({ withPores }) => withPores) / sum(({ inspected }) => inspected);
  const page = await featurePage("viewer", "/features");
  await page.getByRole("link", { name: PORES.name }).first().click();
  await page.getByRole("heading", { level: 1, name: PORES.name }).waitFor();
  await page.getByText("The samples as a table").click();
  const rows = page.getByRole("table", { name: /samples of varying size/ }).locator("tbody tr");
  await expect.poll(() => rows.count()).toBe(lots.length);
  const cells = await rows.evaluateAll((all) =>
    all.map((row) => [...row.querySelectorAll("th, td")].map(({ textContent }) => textContent ?? "")),
  );
  for (const [i, { inspected, withPores }] of lots.entries()) {
    const reach = 3 * Math.sqrt((rate * (1 - rate)) / inspected);
    const [, , count, size, share, lower, upper] = cells[i]!;
    expect([count, size]).toEqual([String(withPores), String(inspected)]);
    expect(share).toBe((withPores / inspected).toFixed(5));
    expect(upper).toBe((rate + reach).toFixed(5));
    expect(lower).toBe(rate > reach ? (rate - reach).toFixed(5) : "–");
  }
  const latest = `n = 9\\d to 2\\d\\d pieces, each count with its own; the latest ${lots.at(-1)!.inspected}`;
  await page.getByText("How the limits of counts are computed").click();
  await page.getByText(new RegExp(latest)).waitFor();
  await page
    .getByText(`(25 samples) = ${sum(({ withPores }) => withPores)} / ${sum((lot) => lot.inspected)} =`)
    .waitFor();
  expect(await faultsInEveryLook(page, "chart-counts")).toEqual([]);
});

test("the page holds to WCAG 2.2 AA with everything unfolded", async () => {
  const page = await featurePage("engineer", `/features/${OTHER_FEATURE}?baseline=10-34&w=0-60`);
  for (const summary of await page.locator("main summary").all()) await summary.click();
  expect(await faultsInEveryLook(page, "chart-panels")).toEqual([]);
});
