import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";

const browser = browserForThisFile();

async function enterPart(page: Page, number: string): Promise<void> {
  await page.goto("/plan/parts/new");
  await page.getByLabel("Number").fill(number);
  await page.getByLabel("Revision").fill("A");
  await page.getByRole("button", { name: "Enter this part" }).click();
  await page.getByRole("heading", { level: 1, name: "Enter a feature" }).waitFor();
}

test("an engineer enters a part and a feature by hand, then changes the feature with a reason", async () => {
  const page = await browser.page();
  await signInAs(page, "engineer");
  await enterPart(page, "TRY-1");

  await page.getByLabel("Name").fill("Bore A");
  await page.getByLabel("Lower tolerance limit").fill("11,98");
  await page.getByLabel("Upper tolerance limit").fill("twelve");
  await page.getByRole("button", { name: "Enter this feature" }).click();
  await page.getByText('"twelve" is not a number. Write it like 12.345.').waitFor();
  expect(await page.getByLabel("Lower tolerance limit").inputValue()).toBe("11,98");

  await page.getByLabel("Upper tolerance limit").fill("12.02");
  await page.getByRole("button", { name: "Enter this feature" }).click();
  await page.getByRole("heading", { level: 1, name: "Bore A" }).waitFor();

  await page.getByLabel("Upper tolerance limit").fill("12.03");
  await page.getByRole("button", { name: "Save the change" }).click();
  await page.getByText("Nothing saved: Changing tolerance").waitFor();
  await page.getByLabel("Reason for the change").fill("Drawing revision B.");
  await page.getByRole("button", { name: "Save the change" }).click();
  await page.getByText("Saved. Its measurements were judged anew.").waitFor();

  await page.goto("/plan");
  const row = page.getByRole("row", { name: /Bore A TRY-1/ });
  expect(await row.textContent()).toContain("12.03");
});

test("what contradicts itself is refused in words and everything typed stays", async () => {
  const page = await browser.page();
  await signInAs(page, "engineer");
  await enterPart(page, "TRY-2");
  await page.getByLabel("Name").fill("Bore B");
  await page.getByLabel("Chart", { exact: true }).selectOption("i-mr");
  await page.getByLabel("Subgroup size").fill("5");
  await page.getByRole("button", { name: "Enter this feature" }).click();
  await page.getByText("Nothing saved: a chart of single readings has subgroups of 1.").waitFor();
  expect(await page.getByLabel("Name").inputValue()).toBe("Bore B");
  expect(await page.getByLabel("Chart", { exact: true }).inputValue()).toBe("i-mr");
});

test("others read the plan and have nothing to change it with", async () => {
  const page = await browser.page();
  await signInAs(page, "shift lead");
  await page.goto("/plan");
  expect(await page.getByRole("link", { name: "Enter a part" }).count()).toBe(0);
  await page.getByRole("table", { name: "Features of the control plan" }).getByRole("link").first().click();
  await page.getByText("Run rules in force").waitFor();
  const charts = page.getByRole("navigation", { name: "Charts of these points" });
  expect(await charts.getByRole("link").count()).toBe(5);
  expect(await page.getByRole("textbox").count()).toBe(0);
});
