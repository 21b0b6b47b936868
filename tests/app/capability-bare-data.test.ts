import { join } from "node:path";
import type { Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { openDatabase } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { bringIn } from "../db/plant";
import { faultsInEveryLook } from "./accessibility";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";
import { dataFolder } from "./plant";

const browser = browserForThisFile();

const ids = new Map<string, number>();

const HOUR = 3_600_000;
/** The demo's clock stands at 16 November 2026. */
const BEGUN = Date.UTC(2026, 9, 1);
const LONG_AGO = Date.UTC(2025, 0, 6);

type Plain = { tolerance?: [string, string]; unit?: string; begun?: number; lot?: string; values: number[] };

/** Evenly spread, so that nothing hangs on chance. */
const spread = (count: number, centre: number, reach: number, places: number) =>
  Array.from({ length: count }, (_, i) =>
    Number((centre + reach * (((i * 37) % 101) / 50 - 1)).toFixed(places)),
  );

const FEATURES: Record<string, Plain> = {
  "One reading": { values: [10.01] },
  "Two readings": { values: [10.01, 10.03] },
  "All alike": { values: new Array(30).fill(10.02) },
  "Without tolerance": { tolerance: ["", ""], values: spread(60, 10, 0.05, 3) },
  "Groove in inches": { tolerance: ["0.24", "0.26"], unit: "in", values: spread(60, 0.25, 0.005, 4) },
  "Negative offset": { tolerance: ["-0.6", "-0.4"], values: spread(60, -0.5, 0.15, 3) },
  "Tiny step height": { tolerance: ["", "0.000009"], values: spread(60, 0.000004, 0.000002, 7) },
  "Wide open": { tolerance: ["5", "15"], values: spread(60, 10, 0.01, 3) },
  "Flatness of the foot": { tolerance: ["", "0.05"], values: spread(60, 0.02, 0.015, 3), lot: "L-1" },
  "Measured long ago": { begun: LONG_AGO, values: spread(60, 10, 0.05, 3) },
};

beforeAll(async () => {
  const database = await openDatabase(join(dataFolder, "steadyrest.db"));
  const head = "piece,taken_at,part,feature,lower_tolerance,upper_tolerance,unit,value,lot";
  const rows = Object.entries(FEATURES).flatMap(
    ([name, { tolerance: [lower, upper] = ["9.9", "10.1"], unit = "mm", begun = BEGUN, lot = "", values }]) =>
      values.map((value, i) =>
        [
          `P${i}`,
          new Date(begun + i * HOUR).toISOString(),
          "BARE-1",
          name,
          lower,
          upper,
          unit,
          value,
          lot,
        ].join(),
      ),
  );
  const outcome = await bringIn(database, [head, ...rows, ""].join("\n"), { subgroupSize: 5 });
  expect(outcome).toMatchObject({ state: "done", refused: 0 });
  for (const { id, name, part } of await listFeatures(database))
    if (part.number === "BARE-1") ids.set(name, id);
  await database.close();
});

async function opened(name: string, query = "?window=90") {
  const page = await browser.page();
  await signInAs(page, "quality");
  await page.goto(`/capability/${ids.get(name)}${query}`);
  return page;
}

test.each([
  ["One reading", "No index", "No index yet: 1 of at least 2 readings.", 0],
  ["Two readings", "Performance only", "only 0 of 25 subgroups", 0],
  ["All alike", "No index", "No index: no variation at this resolution", 0],
  ["Without tolerance", "No index", "No index: the feature has no tolerance limit", 2],
])("%s: a reason stands where a figure would, and no empty picture", async (name, head, claim, pictures) => {
  const page = await opened(name);
  expect(await page.getByRole("heading", { level: 2 }).first().textContent()).toBe(head);
  await page.getByText(claim).first().waitFor();
  expect(await page.getByText(/NaN|Infinity|undefined/).count()).toBe(0);
  expect(await page.locator("figure svg").count()).toBe(pictures);
  if (pictures === 0) await page.getByText(/^No picture of the distribution/).waitFor();
});

test("a window without a reading says so and leads to a longer one", async () => {
  const page = await opened("Measured long ago", "?window=30");
  await page.getByText("Nothing to study in this window").waitFor();
  await page.getByRole("link", { name: "Show all measurements" }).click();
  await page.getByRole("heading", { name: "Histogram with the normal curve" }).waitFor();
});

test("one tolerance limit has no Cp, and a natural bound is drawn and named", async () => {
  const page = await opened("Flatness of the foot");
  await page.getByText("there is no Cp and no Pp").waitFor();
  await page
    .getByText(/^natural bound 0/)
    .first()
    .waitFor();
  expect(await page.getByRole("row", { name: /^Cp / }).count()).toBe(0);
});

test("readings outside are hatched and counted", async () => {
  const page = await opened("Negative offset");
  await page.getByText(/Hatched: \d+ readings? outside the tolerance/).waitFor();
  expect(await page.locator("figure rect[fill], figure rect").count()).toBeGreaterThan(3);
});

test("tiny, wide and inch readings are written with digits that count", async () => {
  expect(await (await opened("Tiny step height")).getByText("upper limit 0.000009").count()).toBeGreaterThan(
    0,
  );
  await (await opened("Wide open")).getByText("too wide to be drawn with the readings").waitFor();
  await (await opened("Groove in inches")).getByText("reading in inches").first().waitFor();
});

test("bare data hold to WCAG 2.2 AA too", async () => {
  const page = await browser.page();
  await signInAs(page, "quality");
  for (const [name, id] of ids) {
    await page.goto(`/capability/${id}?window=90`);
    const look = `capability-bare-${name.toLowerCase().replaceAll(" ", "-")}`;
    expect(await faultsInEveryLook(page, look, [1440])).toEqual([]);
  }
  await page.goto("/capability");
  await page.goto(`/capability?part=${await partOption(page)}`);
  expect(await faultsInEveryLook(page, "capability-bare-list", [1440])).toEqual([]);
});

async function partOption(page: Page): Promise<string> {
  const option = page.getByLabel("Part", { exact: true }).locator("option", { hasText: "BARE-1" });
  return (await option.getAttribute("value")) ?? "";
}
