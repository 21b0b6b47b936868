import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Database, openDatabase } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { type FeatureHistory, featureHistory } from "../../db/queries/history";
import { evaluate } from "../../lib/evaluation/evaluate";
import { limitsForSize } from "../../lib/limits/limits-for-size";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";
import { dataFolder } from "./plant";

const browser = browserForThisFile();
let database: Database;
let history: FeatureHistory;

beforeAll(async () => {
  database = await openDatabase(join(dataFolder, "steadyrest.db"));
  const feature = (await listFeatures(database)).find(
    ({ part, name }) => part.number === "H-210" && name === "Output bore height above base",
  );
  history = (await featureHistory(database, feature!.id))!;
});
afterAll(() => database.close());

/** What is stored in mm, as a page has to write it: 1 in = 25.4 mm exactly, decimals after a comma. */
function inches(mm: number, places: number): string {
  return (mm / 25.4).toFixed(places).replace(".", ",");
}

test("a plant in inches with decimal commas shows one feature alike on board, chart, table and capability page", async () => {
  const admin = await browser.page();
  await signInAs(admin, "admin");
  await admin.goto("/people/plant");
  await admin.getByLabel("Show lengths in").selectOption("in");
  await admin.getByLabel("Decimals after").selectOption("comma");
  await admin.getByRole("button", { name: "Save" }).click();
  await admin.getByText("Saved. Pages show it").waitFor();

  const { feature } = history;
  expect(feature).toMatchObject({ unit: "mm", resolution: 0.001 });
  // A gauge's step of 0.001 mm is 0.00004 in: five decimals for limits of the drawing, one more for means and limits.
  const { lower, upper } = feature.plan.tolerance;
  const tolerance = `${inches(lower!, 5)} to ${inches(upper!, 5)}\u00a0in`;
  const evaluation = evaluate(history.series, history.setup);
  const newest = inches(evaluation.points.mean[evaluation.points.count - 1]!, 6);

  const page = await browser.page();
  await signInAs(page, "engineer");
  await page.goto("/");
  const act = page.getByRole("region", { name: "Act" });
  const strip = act.getByRole("listitem").filter({ hasText: feature.name }).getByRole("img");
  const said = (await strip.first().getAttribute("aria-label"))!;
  expect(said).toContain(`Newest mean ${newest}\u00a0in`);
  expect(said).toContain(`Tolerance ${tolerance}`);
  // What a board that stays open fetches says it alike.
  const fetched = await (await page.request.get("/api/board")).text();
  expect(fetched).toContain(JSON.stringify(said));

  await page.goto(`/features/${feature.id}`);
  const drawn = [lower!, upper!].map((limit) => limit.toFixed(3).replace(".", ",")).join(" to ");
  await page.getByText(tolerance, { exact: true }).waitFor();
  await page.getByText(`on the drawing ${drawn}\u00a0mm`).waitFor();
  const { location } = limitsForSize(evaluation.versions.at(-1)!, 5);
  const drawnTexts = await page.getByRole("slider").locator("svg text").allTextContents();
  for (const limit of [location.lower, location.centre, location.upper])
    expect(drawnTexts).toContain(inches(limit, 6));
  await page.getByText("The points as a table").click();
  const last = page
    .getByRole("table", { name: /Points of the chart, .*, in inches/ })
    .getByRole("row")
    .last();
  expect(await last.textContent()).toContain(newest);

  // Beside its kin, in its own sigma: the same figure whatever the unit.
  await page.goto(`/features/${feature.id}?chart=short-run`);
  const { centre: _, sigma } = evaluation.versions.at(-1)!;
  const newestMean = evaluation.points.mean[evaluation.points.count - 1]!;
  const z = ((newestMean - feature.nominal!) * Math.sqrt(5)) / sigma;
  await page.getByText("The points as a table").click();
  const itsNewest = page
    .getByRole("row")
    .filter({ hasText: `${feature.name}, subgroup ${evaluation.points.count}` });
  expect(await itsNewest.first().textContent()).toContain(
    `${z < 0 ? "−" : "+"}${Math.abs(z).toFixed(2).replace(".", ",")}`,
  );

  await page.goto(`/capability/${feature.id}`);
  await page.getByText(`Tolerance ${tolerance}`).waitFor();
  await page.getByText("reading in inches").first().waitFor();
  // What is typed keeps the drawing's unit, which stands beside the field.
  const field = page.locator("label", { hasText: "Expanded uncertainty" }).locator("..");
  expect(await field.textContent()).toContain("mm");
});
