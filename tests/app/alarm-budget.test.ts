import { join } from "node:path";
import type { Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Database, openDatabase } from "../../db/connection";
import { type FeatureRow, listFeatures } from "../../db/queries/features";
import { measuredBetween } from "../../db/queries/measuring-rate";
import { plantSettings } from "../../db/queries/settings";
import {
  alarmBudget,
  measuringRate,
  type WatchedFeature,
  watchOf,
} from "../../lib/alarm-budget/alarm-budget";
import { planGroups } from "../../lib/alarm-budget/plan-groups";
import { ruleCost } from "../../lib/alarm-budget/rule-cost";
import { SHIFTS_SHOWN, tradeOff } from "../../lib/alarm-budget/trade-off";
import { workedShifts } from "../../lib/alarm-budget/worked-shifts";
import { chartWords } from "../../lib/format/names";
import { fixed, percent } from "../../lib/format/numbers";
import { RULE_SETS, RULES, ruleBySlug } from "../../lib/rules/known-rules";
import { faultsInEveryLook } from "./accessibility";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";
import { dataFolder } from "./plant";

const browser = browserForThisFile();

const DAY = 86_400_000;
const simulation = { seed: 1, runs: 2_000 };

let database: Database;
beforeAll(async () => {
  database = await openDatabase(join(dataFolder, "steadyrest.db"));
});
afterAll(() => database.close());

type Watched = { feature: FeatureRow; watched: WatchedFeature };

/** The plan and the pace of every feature, made here from the database under the server. */
async function watchedPlant(): Promise<{ plant: Watched[]; shiftHours: number; shifts: number }> {
  const { clock, shifts, zone } = await plantSettings(database);
  if (clock === null) throw new Error("The demo's clock runs.");
  const { readings, quarterHours } = await measuredBetween(database, { from: clock - 14 * DAY, to: clock });
  const { count, hours, shiftHours } = workedShifts({ moments: quarterHours, shifts, zone });
  const plant = (await listFeatures(database)).map((feature) => {
    const { chart, subgroupSize, rules } = feature.plan;
    const subgroups = (readings.get(feature.id) ?? 0) / subgroupSize;
    const subgroupsPerShift = measuringRate({ subgroups, hours, shiftHours });
    const watched = { chart, subgroupSize, rules: rules.map(ruleBySlug), subgroupsPerShift };
    return { feature, watched: { ...watched, ...watchOf(feature.plan) } };
  });
  return { plant, shiftHours, shifts: count };
}

async function openBudget(page: Page, query = ""): Promise<void> {
  await page.goto(`/plan/budget${query}`);
  await page.getByRole("region", { name: /^Rules off and on for/ }).waitFor();
}

/** Cells of a table row as a person reads them, without what is only read out. */
async function cellsOf(row: Locator): Promise<string[]> {
  return row.locator("th, td").evaluateAll((cells) =>
    cells.map((cell) => {
      const copy = cell.cloneNode(true) as Element;
      for (const hidden of copy.querySelectorAll(".only-read-out")) hidden.remove();
      return copy.textContent ?? "";
    }),
  );
}

const shown = (value: number | null, places: number, standardError: number | null) =>
  value === null ? "–" : `${standardError === null ? "" : "≈ "}${fixed(value, places)}`;

// The demo works three shifts a day from Monday and two on Saturday; its clock stands on a Monday morning at which
// the files of Friday and Saturday are not taken in yet. A whole week and four days of the next: 17 + 4 · 3.
const WORKED = 29;

test("by hand: closed days and days not taken in yet are no shifts of work", async () => {
  const { shifts, shiftHours } = await watchedPlant();
  expect(shifts).toBe(WORKED);
  expect(shiftHours).toBe(8);
});

test("the plant's budget is lib's, beside one operator's rate, and the biggest come first", async () => {
  const { plant, shiftHours } = await watchedPlant();
  const features = plant.map(({ watched }) => watched);
  const { total, load, features: each } = alarmBudget({ features, shiftHours, simulation });
  expect(total).toBeGreaterThan(0);

  const page = await browser.page();
  await signInAs(page, "viewer");
  await page.goto("/plan");
  await page.getByRole("link", { name: "Alarm budget" }).click();
  const whole = page.getByRole("region", { name: "The whole plant" });
  const text = (await whole.textContent()) ?? "";
  expect(text).toContain(`${fixed(total, 2)} false alarms per shift`);
  expect(text).toContain(load.sentence);
  expect(text).toContain(percent(load.shareOfAcceptable));
  expect(text).toContain(`${WORKED} shifts in which something was measured`);

  const rows = page
    .getByRole("region", { name: "Features with the most false alarms" })
    .locator("tbody")
    .getByRole("row");
  expect(await rows.count()).toBe(10);
  const biggest = each.map(({ total: one }) => one).sort((a, b) => b - a);
  for (const i of [0, 9]) expect((await cellsOf(rows.nth(i)))[6]).toBe(fixed(biggest[i] ?? Number.NaN, 3));

  const first = rows.first().getByRole("link");
  const name = (await first.textContent()) ?? "";
  await first.click();
  await page.getByRole("heading", { level: 1, name, exact: true }).waitFor();
});

test("every plan of the plant has a table that says what lib says of each rule", async () => {
  const { plant, shiftHours } = await watchedPlant();
  const groups = planGroups(plant.map(({ feature, watched }) => ({ plan: feature.plan, watched })));
  expect(groups.length).toBeGreaterThan(2);
  const page = await browser.page();
  await signInAs(page, "engineer");
  for (const group of groups) {
    const rows = tradeOff({
      features: group.features.map(({ watched }) => watched),
      inForce: group.rules.map(ruleBySlug),
      candidates: RULES,
      shifts: SHIFTS_SHOWN,
      shiftHours,
      simulation,
    });
    await openBudget(page);
    await page.getByLabel("Plan", { exact: true }).selectOption(group.key);
    await page.getByRole("button", { name: "Show" }).click();
    await page.waitForURL((url) => url.searchParams.get("plan") === group.key);
    const table = page.getByRole("region", { name: `Rules off and on for ${chartWords(group)}` });
    const lines = table.locator("tbody").getByRole("row");
    await expect.poll(() => lines.count()).toBe(rows.length);
    for (const [i, row] of rows.entries()) {
      const cells = await cellsOf(lines.nth(i));
      expect(cells.slice(1)).toEqual([
        fixed(row.perShift.total, 3),
        i === 0 ? "–" : fixed(row.difference, 3, { signed: true }),
        ...row.detection.map(
          ({ subgroups, standardError, shiftsOfWork }) =>
            shown(subgroups, 1, standardError) + shown(shiftsOfWork, 1, null),
        ),
      ]);
    }
  }
});

describe("on a feature's plan page", () => {
  const cost = (feature: FeatureRow, rules: readonly string[]) => {
    const { chart, subgroupSize } = feature.plan;
    const found = ruleCost({ chart, subgroupSize, rules: rules.map(ruleBySlug), simulation });
    return [
      shown(found.perThousand.value, 1, found.perThousand.standardError),
      ...found.detection.map(({ subgroups }) =>
        shown(subgroups?.value ?? null, 1, subgroups?.standardError ?? null),
      ),
    ];
  };

  test("the stored rules have their cost beside them, and ticked ones on a press that saves nothing", async () => {
    const feature = (await listFeatures(database)).find(({ plan }) => plan.chart === "xbar-r");
    if (!feature) throw new Error("The demo has no chart of means and ranges.");
    const page = await browser.page();
    await signInAs(page, "engineer");
    await page.goto(`/plan/features/${feature.id}`);
    const rows = page
      .getByRole("region", { name: /^What the rules cost/ })
      .locator("tbody")
      .getByRole("row");
    expect((await cellsOf(rows.first())).slice(1)).toEqual(cost(feature, feature.plan.rules));

    const boxes = page.getByRole("group", { name: "Run rules in force" }).getByRole("checkbox");
    for (const [i, { slug }] of RULES.entries()) {
      await boxes.nth(i).setChecked(RULE_SETS.WESTERN.some((one) => one === slug));
    }
    await page.getByLabel("Name").fill("Typed and not lost");
    await page.getByRole("button", { name: "What would this cost?" }).click();
    await page.getByRole("rowheader", { name: /^Ticked: 4 rules, means and ranges of/ }).waitFor();
    expect((await cellsOf(rows.nth(1))).slice(1)).toEqual(cost(feature, RULE_SETS.WESTERN));
    expect(await page.getByLabel("Name").inputValue()).toBe("Typed and not lost");

    // Another tick, and the answer is no longer about what is ticked.
    await boxes.last().check();
    expect(await rows.count()).toBe(1);
    expect((await listFeatures(database)).find(({ id }) => id === feature.id)).toEqual(feature);
  });

  test("no rule, or a size that does not fit the chart, is answered in words", async () => {
    const page = await browser.page();
    await signInAs(page, "engineer");
    await page.goto("/plan/features/1");
    const ask = page.getByRole("button", { name: "What would this cost?" });
    await page.getByLabel("Chart", { exact: true }).selectOption("i-mr");
    await page.getByLabel("Subgroup size").fill("5");
    await ask.click();
    await page.getByText("a chart of single readings has subgroups of 1, and this says 5.").waitFor();
    for (const box of await page
      .getByRole("group", { name: "Run rules in force" })
      .getByRole("checkbox")
      .all()) {
      await box.uncheck();
    }
    await ask.click();
    await page.getByText("Not worked out: tick at least one rule").waitFor();
  });

  test("who may only read sees the cost as well", async () => {
    const page = await browser.page();
    await signInAs(page, "viewer");
    await page.goto("/plan/features/1");
    await page.getByRole("region", { name: /^What the rules cost/ }).waitFor();
    expect(await page.getByRole("button", { name: "What would this cost?" }).count()).toBe(0);
  });
});

test("holds to WCAG 2.2 AA and stays in its window", async () => {
  const page = await browser.page();
  await signInAs(page, "engineer");
  await openBudget(page);
  for (const fold of await page.locator("main summary").all()) await fold.click();
  expect(await faultsInEveryLook(page, "alarm-budget", [1440, 320])).toEqual([]);

  await page.goto("/plan/features/1");
  await page.getByRole("button", { name: "What would this cost?" }).click();
  await page.getByRole("rowheader", { name: /^Ticked/ }).waitFor();
  expect(await faultsInEveryLook(page, "plan-feature-cost", [1440, 320])).toEqual([]);
});
