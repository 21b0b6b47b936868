import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import reference from "../reference/gauge-studies.json";
import resistivity from "../reference/resistivity-gauge-study.json";
import { accessibilityFaults } from "./accessibility";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";

const browser = browserForThisFile();

type Case = { id: string; input: Record<string, unknown>; expected: Record<string, unknown> };

function caseOf(id: string): Case {
  return (reference.cases as unknown as Case[]).find((one) => one.id === id)!;
}

async function openForm(page: Page, gauge: string): Promise<void> {
  await page.goto("/gauges");
  await page.getByRole("link", { name: gauge, exact: true }).click();
  await page.getByRole("link", { name: "Enter a study" }).click();
  await page.getByRole("heading", { level: 1, name: `Enter a study of ${gauge}` }).waitFor();
}

async function send(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Enter this study" }).click();
}

test(`pasted: ${resistivity.title}`, async () => {
  const page = await browser.page();
  await signInAs(page, "engineer");
  await openForm(page, "GA-1");
  await page.getByLabel("Feature", { exact: true }).selectOption("");
  await page.getByLabel("Unit", { exact: true }).selectOption("none");
  // The first run: days are the trials, probes stand where a crossed study has operators.
  const { run, wafer, probe, average } = resistivity.data;
  const lines = average.flatMap((value, i) =>
    run[i] === 1 ? [`wafer ${wafer[i]}\tprobe ${probe[i]}\t${value}`] : [],
  );
  await page.getByLabel("Table", { exact: true }).fill(`part\toperator\tvalue\n${lines.join("\n")}`);
  await send(page);
  await page.getByRole("heading", { level: 1, name: /^Crossed study \d+ of GA-1$/ }).waitFor();
  // NIST/SEMATECH e-Handbook 2.6.1.3 prints −0.0272 for probe 2362 in the first run (from memory).
  await page.getByText(/probe 2362 \(plus\) reads −0\.0272\d/).waitFor();
  const anova = page.getByRole("region", { name: /^Two-way/ });
  // 5 wafers, 5 probes, 6 days: 150 readings.
  expect(
    await anova
      .getByRole("row", { name: /^total/ })
      .getByRole("cell")
      .first()
      .textContent(),
  ).toBe("149");
  await page.getByText("every figure is the one that was kept", { exact: false }).waitFor();
  await page.getByText("How is this computed?").click();
  await page.getByText("ndc = ⌊1.41 σₚ / σ gauge⌋").waitFor();
  expect(await accessibilityFaults(page)).toEqual([]);
});

test("a table with faults is refused by line and column and can be mended in place; a file is read as well", async () => {
  const { input, expected } = caseOf("crossed-poor-gauge");
  const rows = (input.measurements as number[][][]).flatMap((row, part) =>
    row.flatMap((cell, operator) => cell.map((value) => [part + 1, "ABC"[operator], value])),
  );
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-gauges-"));
  const page = await browser.page();
  try {
    await signInAs(page, "engineer");
    await openForm(page, "GA-3");
    await page.getByLabel("Feature", { exact: true }).selectOption("");
    await page.getByLabel("Width of the tolerance").fill(String(input.toleranceWidth));
    await page.getByLabel("Take a file").check();
    const path = join(folder, "study.csv");
    const broken = rows.map((row, i) => (i === 4 ? [row[0], row[1], "12.0x"] : row).join(";"));
    writeFileSync(path, `Part;Appraiser;Reading\n${broken.join("\n")}\n`);
    await page.getByLabel("File", { exact: true }).setInputFiles(path);
    await send(page);
    await page.getByText("Line 6, column Reading: “12.0x”", { exact: false }).waitFor();
    const text = await page.getByLabel("Table", { exact: true }).inputValue();
    expect(text.split("\n")).toHaveLength(rows.length + 1);
    expect(await page.getByLabel("Width of the tolerance").inputValue()).toBe(String(input.toleranceWidth));
    expect(await accessibilityFaults(page)).toEqual([]);

    await page.getByLabel("Table", { exact: true }).fill(text.replace("12.0x", String(rows[4]![2])));
    await send(page);
    await page.getByRole("heading", { level: 1, name: /^Crossed study/ }).waitFor();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  // What Python and R found: 69.1 % of the tolerance, no class told apart.
  const { percentTolerance, percentStudyVariation, distinctCategories } =
    expected.componentsWithInteraction as {
      percentTolerance: { gauge: number };
      percentStudyVariation: { gauge: number };
      distinctCategories: number;
    };
  const share = percentTolerance.gauge.toPrecision(3);
  await page
    .getByText(
      `The gauge takes ${share}\u00a0% of the tolerance (too much); it tells ${distinctCategories} classes of these parts apart.`,
    )
    .waitFor();
  const row = page.getByRole("row", { name: /^gauge: repeatability/ });
  expect(await row.getByRole("cell").allTextContents()).toContain(
    `${percentStudyVariation.gauge.toFixed(0)}\u00a0%`,
  );
});

test("type-1, bias and linearity, and a sheet typed by hand", async () => {
  const page = await browser.page();
  await signInAs(page, "engineer");
  const known = caseOf("type-1-1");
  await openForm(page, "GA-2");
  await page.getByLabel("Kind of study").selectOption("type-1");
  await page.getByLabel("Feature", { exact: true }).selectOption("");
  await page.getByLabel("Width of the tolerance").fill(String(known.input.toleranceWidth));
  await page.getByLabel("Size of the known piece").fill(String(known.input.reference));
  await page.getByLabel("Table", { exact: true }).fill((known.input.readings as number[]).join("\n"));
  await send(page);
  const { Cg20PercentOver6s: Cg, Cgk20PercentOver6s: Cgk } = known.expected as Record<string, number>;
  await page
    .getByText(`Cg ${Cg!.toFixed(2)} and Cgk ${Cgk!.toFixed(2)}: not enough`, { exact: false })
    .waitFor();

  const line = caseOf("linearity-0");
  const sizes = line.input.references as number[];
  const rows = (line.input.biasReadings as number[][]).flatMap((row, i) =>
    row.map((bias) => `${sizes[i]}\t${(sizes[i]! + bias).toFixed(6)}`),
  );
  await openForm(page, "GA-2");
  await page.getByLabel("Kind of study").selectOption("bias-linearity");
  await page.getByLabel("Feature", { exact: true }).selectOption("");
  await page.getByLabel("Table", { exact: true }).fill(`reference\tvalue\n${rows.join("\n")}`);
  await send(page);
  await page.getByText("There is a bias, and the bias changes with size.").waitFor();
  const slope = page.getByRole("row", { name: /^slope/ }).getByRole("cell");
  // Four digits shown of the slope that R gives.
  expect((await slope.first().textContent())?.replace("−", "-")).toBe(
    (line.expected.slope as number).toPrecision(4),
  );

  await openForm(page, "GA-2");
  await page.getByLabel("Type into a sheet").check();
  await page.getByLabel("Parts", { exact: true }).fill("2");
  await page.getByLabel("Operators").fill("A, B");
  await page.getByLabel("Trials").fill("2");
  await page.getByLabel("Part 1, operator A, trial 1").fill("52.001");
  await page.keyboard.press("Enter");
  await page.keyboard.type("52.004");
  await send(page);
  await page.getByText("Line 3, column 1: The cell is empty", { exact: false }).waitFor();
  expect(await page.getByLabel("Table", { exact: true }).inputValue()).toContain("A\t1\t52.001\t52.004");
});

test("the feature's capability says which study its gauge gate rests on, until it is withdrawn", async () => {
  const page = await browser.page();
  await signInAs(page, "engineer");
  await page.goto("/gauges");
  await page.getByRole("link", { name: "GA-2", exact: true }).click();
  const row = page.getByRole("row", { name: /Bearing bore diameter BB-40/ });
  await row.getByText("conditional").waitFor();
  const study = (await row.getByRole("link", { name: /^study \d+$/ }).textContent())!;
  const address = (await row.getByRole("link").first().getAttribute("href"))!;
  const capability = address.replace("/features/", "/capability/");
  await page.goto(capability);
  await page.getByText(`From crossed ${study} of GA-2`, { exact: false }).first().waitFor();

  await page.goto(`/gauges/studies/${study.replace("study ", "")}`);
  await page.getByRole("button", { name: "Withdraw this study" }).click();
  await page.getByRole("button", { name: "Withdraw it" }).click();
  await page.getByText("Nothing saved: write why", { exact: false }).waitFor();
  await page.getByLabel("Why it does not hold").fill("The ring was swapped.");
  await page.getByRole("button", { name: "Withdraw it" }).click();
  await page.getByText("It counts for no feature any more: The ring was swapped.").waitFor();
  await page.goto(capability);
  await page.getByText("By the maximum permissible error of GA-2", { exact: false }).first().waitFor();
});

test("a reader reads; the board names what is due; an engineer keeps the record", async () => {
  const page = await browser.page();
  await signInAs(page, "viewer");
  await page.goto("/");
  const watch = page.getByRole("region", { name: "Watch" });
  await watch.getByText("Calibration overdue for 4 days; it measures 5 features.").waitFor();
  await watch.getByRole("link", { name: "Gauge GA-3" }).click();
  await page.getByRole("heading", { level: 1, name: "Gauge GA-3" }).waitFor();
  expect(await page.getByText("Change the record").count()).toBe(0);
  expect((await page.goto(`${page.url()}/studies/new`))?.status()).toBe(403);

  await signInAs(page, "engineer");
  await page.goto("/gauges");
  await page.getByRole("link", { name: "GA-3", exact: true }).click();
  await page.getByText("Change the record").click();
  await page.getByLabel("Permissible error, A").fill("about 12");
  await page.getByLabel("Due", { exact: true }).fill("2027-11-16");
  await page.getByRole("button", { name: "Save the record" }).click();
  await page.getByText('"about 12" is not a number', { exact: false }).waitFor();
  await page.getByLabel("Permissible error, A").fill("11,5");
  await page.getByRole("button", { name: "Save the record" }).click();
  await page.getByText("Saved.", { exact: true }).waitFor();
  await page.getByText("11.5 µm + L/40, L in mm").waitFor();
  await page.goto("/");
  expect(await page.getByRole("link", { name: "Gauge GA-3" }).count()).toBe(0);
});
