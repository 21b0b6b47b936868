import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Database, openDatabase } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { type FeatureHistory, featureHistory, namesOf } from "../../db/queries/history";
import { featureStudy, WHOLE_HISTORY } from "../../lib/capability/feature-study";
import { evaluate } from "../../lib/evaluation/evaluate";
import { limitsForSize } from "../../lib/limits/limits-for-size";
import days from "../reference/days-by-hours.json";
import flow from "../reference/flow-rate.json";
import furnace from "../reference/furnace-film-thickness.json";
import gear from "../reference/gear-diameter.json";
import lithography from "../reference/lithography-line-width.json";
import { browserForThisFile } from "./browser";
import { type Desk, intakeDesk } from "./intake-desk";
import { signInAs } from "./people";
import { dataFolder } from "./plant";

/*
 * Published data sets go in as a user's own files do, under the headers they were published with: mapped by
 * hand, taken in, and what is stored then gives the published figures. Each source stands in its reference file.
 */

const browser = browserForThisFile();
let database: Database;
beforeAll(async () => {
  database = await openDatabase(join(dataFolder, "steadyrest.db"));
}, 120_000);
afterAll(async () => {
  await database?.close();
});

async function deskWith(name: string, columns: Record<string, readonly (number | string)[]>): Promise<Desk> {
  const page = await browser.page({ viewport: { width: 1440, height: 1000 } });
  page.setDefaultTimeout(10_000);
  await signInAs(page, "engineer");
  await page.goto("/intake");
  const desk = intakeDesk(page);
  const header = Object.keys(columns);
  const count = Object.values(columns)[0]?.length ?? 0;
  const rows = Array.from({ length: count }, (_, i) =>
    header.map((column) => columns[column]?.[i]).join(","),
  );
  await desk.drop({ name, text: `${[header.join(","), ...rows].join("\n")}\n` });
  await page.getByRole("form", { name: `Mapping of ${name}` }).waitFor();
  return desk;
}

async function stored(name: string): Promise<FeatureHistory> {
  const feature = (await listFeatures(database)).find((row) => row.name === name);
  const history = feature && (await featureHistory(database, feature.id));
  if (!history) throw new Error(`Nothing was stored of ${name}.`);
  return history;
}

function studyOf({ series, setup, feature }: FeatureHistory) {
  const { resolution } = feature;
  return featureStudy({
    series,
    setup,
    window: WHOLE_HISTORY,
    resolution,
    gaugeShare: null,
    confidence: 0.95,
  });
}

/** Limits of the chart of means, as a page draws them. */
function limitsOf({ series, setup }: FeatureHistory, size: number) {
  const [version] = evaluate(series, setup).versions;
  if (!version) throw new Error("The feature has no limits.");
  return limitsForSize(version, size).location;
}

function printed(set: { printed: readonly { name: string; printed: unknown }[] }, name: string): number {
  return Number(set.printed.find((entry) => entry.name === name)?.printed);
}

test(`${furnace.source}: runs as lots, zones as fixtures, tolerance in every row`, async () => {
  const desk = await deskWith("furnace.csv", furnace.data);
  await desk.choose("Layout", "one measurement a row");
  await desk.choose("Value", "thickness_angstrom");
  await desk.sayAlways("Feature", "Film thickness");
  await desk.sayAlways("Part", "Furnace");
  await desk.sayAlways("Nominal", "560");
  await desk.sayAlways("Lower tolerance limit", "460");
  await desk.sayAlways("Upper tolerance limit", "660");
  await desk.choose("Lot", "run");
  await desk.choose("Fixture", "zone");
  await desk.choose("Serial", "run");
  await desk.choose("Joined with, part 2", "zone");
  await desk.choose("Joined with, part 3", "wafer");
  expect(await desk.take("furnace.csv")).toContain("168 measurements stored");

  const history = await stored("Film thickness");
  expect(history.series.count).toBe(printed(furnace, "n"));
  expect(history.feature.plan.tolerance).toEqual({ lower: 460, upper: 660 });
  expect(new Set(history.series.piece).size).toBe(168);
  const zones = await namesOf(database, "fixture", new Set(history.series.fixture));
  expect([...zones.values()].sort()).toEqual(["1", "2", "3", "4"]);

  const { study } = studyOf(history);
  expect(Math.abs(study.mean! - printed(furnace, "mean"))).toBeLessThan(5e-5);
  expect(Math.abs(study.sdOverall! - printed(furnace, "standard deviation"))).toBeLessThan(5e-5);
  // The page takes the standard deviation of all readings, so its Cp and Cpk are our Pp and Ppk.
  expect(Math.abs(study.Pp! - printed(furnace, "Cp"))).toBeLessThan(5e-6);
  expect(Math.abs(study.Ppk! - printed(furnace, "Cpk"))).toBeLessThan(5e-6);
});

test(`${lithography.source}: wafers as subgroups, in the order of the file`, async () => {
  const { cassette, wafer, site, line_width } = lithography.data;
  const desk = await deskWith("lithography.csv", { cassette, wafer, site, line_width });
  await desk.choose("Layout", "one measurement a row");
  await desk.choose("Value", "line_width");
  await desk.sayAlways("Feature", "Line width");
  await desk.choose("Lot", "cassette");
  await desk.choose("Subgroup", "wafer");
  await desk.choose("Fixture", "site");
  expect(await desk.take("lithography.csv")).toContain("450 measurements stored");

  const history = await stored("Line width");
  expect([...history.series.value]).toEqual(line_width);
  const { points } = evaluate(history.series, history.setup);
  expect(points.count).toBe(90);
  expect(new Set(points.size)).toEqual(new Set([5]));
  const { study } = studyOf(history);
  // Printed to two decimals.
  expect(Math.abs(study.mean! - printed(lithography, "mean"))).toBeLessThan(5e-3);
  expect(Math.abs(study.sdOverall! - printed(lithography, "standard deviation"))).toBeLessThan(5e-3);
});

test(`${gear.source}: ten batches of ten`, async () => {
  const desk = await deskWith("gear.csv", gear.data);
  await desk.choose("Layout", "one measurement a row");
  await desk.choose("Value", "diameter");
  await desk.sayAlways("Feature", "Gear diameter");
  await desk.choose("Lot", "batch");
  expect(await desk.take("gear.csv")).toContain("100 measurements stored");

  const history = await stored("Gear diameter");
  expect(history.feature.plan).toMatchObject({ chart: "xbar-s", subgroupSize: 10 });
  const { points } = evaluate(history.series, history.setup);
  // Batch means by a loop of their own; a mean of ten three-decimal readings is exact to 1e-12.
  const sums = new Map<number, number>();
  gear.data.batch.forEach((batch, i) => {
    sums.set(batch, (sums.get(batch) ?? 0) + gear.data.diameter[i]!);
  });
  expect(points.count).toBe(sums.size);
  for (const [i, sum] of [...sums.values()].entries()) expect(points.mean[i]).toBeCloseTo(sum / 10, 12);
});

test(`${days.source}: days as subgroups of five`, async () => {
  const readings = days.subgroups.flatMap((hours, day) =>
    hours.map((value, hour) => ({ day: day + 1, hour: hour + 1, value })),
  );
  const desk = await deskWith("days.csv", {
    day: readings.map(({ day }) => day),
    hour: readings.map(({ hour }) => hour),
    value: readings.map(({ value }) => value),
  });
  await desk.choose("Layout", "one measurement a row");
  await desk.choose("Value", "value");
  await desk.sayAlways("Feature", "Day by day");
  await desk.choose("Subgroup", "day");
  expect(await desk.take("days.csv")).toContain("125 measurements stored");

  const history = await stored("Day by day");
  expect(history.feature.plan).toMatchObject({ chart: "xbar-r", subgroupSize: 5 });
  const { centre, lower, upper } = limitsOf(history, 5);
  expect(centre).toBeCloseTo(computed("grand mean"), 9);
  const [printedUpper, printedLower] = days.computed.find(
    ({ name }) => name === "X-bar limits by range, exact constants",
  )!.value as [number, number];
  // Recomputed to five decimals with exact constants.
  expect(Math.abs(upper - printedUpper)).toBeLessThan(5e-6);
  expect(Math.abs(lower - printedLower)).toBeLessThan(5e-6);
  expect(evaluate(history.series, history.setup).signals.filter(({ rule }) => rule === "beyond-3s")).toEqual(
    [],
  );
});

test(`${flow.source}: one column and nothing else`, async () => {
  const desk = await deskWith("flow.csv", { "Flow rate": flow.data.values });
  expect(await desk.take("flow.csv")).toContain("10 measurements stored");

  const history = await stored("Flow rate");
  expect(history.feature.plan).toMatchObject({ chart: "i-mr", subgroupSize: 1 });
  const { centre, lower, upper } = limitsOf(history, 1);
  expect(centre).toBeCloseTo(printed(flow, "mean"), 10);
  // The page rounds d2 to 1.128; with the exact 2/sqrt(pi) the limits are those recomputed, to eight decimals.
  expect(upper).toBeCloseTo(recomputed("UCL with d2 = 2/sqrt(pi)"), 8);
  expect(lower).toBeCloseTo(recomputed("LCL with d2 = 2/sqrt(pi)"), 8);
});

function computed(name: string): number {
  return Number(days.computed.find((entry) => entry.name === name)?.value);
}

function recomputed(name: string): number {
  return Number(flow.computed.find((entry) => entry.name === name)?.value);
}
