import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ExcelJS from "exceljs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { SPOILED_ROWS } from "../../seed/demo/weekend-files";
import { accessibilityFaults, overflow } from "./accessibility";
import { browserForThisFile } from "./browser";
import { intakeDesk } from "./intake-desk";
import { signInAs } from "./people";
import { address } from "./plant";

/*
 * A Monday morning at Intake: files that were never seen before are mapped once, looked at, taken in, taken in
 * again, undone.
 */

const browser = browserForThisFile();
const FILES = join(import.meta.dirname, "../../seed/files");
const FRIDAY = join(FILES, "cell-a-friday.csv");
const SATURDAY = join(FILES, "cell-a-saturday.csv");

let folder = "";
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "steadyrest-intake-"));
}, 120_000);
afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
});

async function intakePage(
  who: "viewer" | "engineer" = "engineer",
  more: { colorScheme?: "light" | "dark" } = {},
) {
  const page = await browser.page({
    viewport: { width: 1440, height: 1000 },
    ...more,
  });
  page.setDefaultTimeout(10_000);
  await signInAs(page, who);
  await page.goto("/intake");
  return page;
}

test("a layout never seen before: mapped by hand, three bad rows shown with their reasons, taken in", async () => {
  const page = await intakePage();
  const desk = intakeDesk(page);
  await desk.drop(FRIDAY);
  await desk.card("cell-a-friday.csv").getByText("layout not seen before").waitFor();
  await browser.screenshot(page, "intake-new-layout");

  await desk.choose("Layout", "one measurement a row");
  expect(await page.getByLabel("Feature", { exact: true }).inputValue()).toBe("column:What was measured");
  expect(await page.getByLabel("Value", { exact: true }).inputValue()).toBe("column:Reading");
  const chosen: [label: string, column: string][] = [
    ["Part", "Item"],
    ["Unit", "Read in"],
    ["Lot", "Cast lot"],
    ["Time", "Clock"],
    ["Fixture", "Clamped in"],
    ["Tool", "Cutter"],
    ["Machine", "Station"],
    ["Gauge", "Read with"],
    ["Operator", "Read by"],
    ["Part temperature", "Warmth C"],
    ["Subgroup", "Group"],
    ["Setup", "Arm setup"],
  ];
  for (const [label, column] of chosen) await desk.choose(label, column);
  await desk.settled();

  // 803 rows of data, of which the walk-through's files spoil three.
  const preview = page.getByRole("region", { name: "Preview" });
  const refused = preview.getByRole("table", { name: /would be refused/ });
  const reasons = await refused.getByRole("row").allTextContents();
  expect(reasons).toHaveLength(1 + SPOILED_ROWS.length);
  expect(reasons[1]).toContain("47.O03");
  expect(reasons[2]).toContain("2026-11-31");
  expect(reasons[3]).toContain("“cm”");
  await page.getByText("800 measurements would be taken, 3 rows refused in the whole file.").waitFor();
  // A time without a zone is the plant's: 06:50 in Berlin's winter.
  await preview.getByText("13 Nov 2026, 06:50:00").waitFor();
  await browser.screenshot(page, "intake-mapped-1440");
  expect(await accessibilityFaults(page)).toEqual([]);
  for (const width of [1024, 320]) {
    await page.setViewportSize({ width, height: 900 });
    expect(await overflow(page), `at ${width}`).toBeLessThanOrEqual(0);
    await browser.screenshot(page, `intake-mapped-${width}`);
  }
  await page.setViewportSize({ width: 1440, height: 1000 });

  const words = await desk.take("cell-a-friday.csv");
  expect(words).toContain("800 measurements stored, 3 rows refused; ");
  expect(words).toMatch(/\d+ signals?, \d+ alarms?\./);
  await desk
    .card("cell-a-friday.csv")
    .getByText(/\d+ features need a look\./)
    .waitFor();
  await browser.screenshot(page, "intake-taken-in");
  expect(await accessibilityFaults(page)).toEqual([]);
  const row = page.getByRole("row").filter({ hasText: "cell-a-friday.csv" });
  await row.getByText("Demo engineer").waitFor();
  await row.getByRole("cell", { name: "800", exact: true }).waitFor();
});

test("the same file again is recognised by its header, adds nothing and says so", async () => {
  const page = await intakePage();
  const desk = intakeDesk(page);
  await desk.drop(FRIDAY);
  await desk.card("cell-a-friday.csv").getByText("ready: read as saved mapping “cell-a”").waitFor();
  await page.getByRole("button", { name: "Take in cell-a-friday.csv" }).click();
  const card = desk.card("cell-a-friday.csv");
  await card.getByText("0 measurements stored, 3 rows refused, 800 there already.").waitFor();
  await card.getByText("nothing was added").waitFor();
});

test("refused rows can be read and downloaded; an undo says what it does, does it and can be redone", async () => {
  const page = await intakePage();
  const desk = intakeDesk(page);
  await page.getByRole("row").filter({ hasText: "cell-a-friday.csv" }).last().getByRole("link").click();
  await page.getByRole("table", { name: "3 refused rows" }).waitFor();
  const download = await page
    .context()
    .request.get((await page.getByRole("link", { name: "Download all as CSV" }).getAttribute("href")) ?? "");
  expect(download.headers()["content-disposition"]).toContain("attachment");
  expect((await download.text()).trim().split("\r\n")).toHaveLength(4);

  await page.getByRole("button", { name: "Undo this intake" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByText("Its 800 measurements of 33 features go").waitFor();
  await browser.screenshot(page, "intake-undo");
  await dialog.getByRole("button", { name: "Undo it" }).click();
  await page.getByText("Undone. Its 800 measurements were taken back").waitFor();
  expect(await page.getByRole("button", { name: "Undo this intake" }).count()).toBe(0);

  await page.goto("/intake");
  await desk.drop(FRIDAY);
  await page.getByRole("button", { name: "Take in cell-a-friday.csv" }).click();
  await desk
    .card("cell-a-friday.csv")
    .getByText(/^800 measurements stored, 3 rows refused; /)
    .waitFor();
});

test("one piece a row, with decimal commas", async () => {
  const page = await intakePage();
  const desk = intakeDesk(page);
  await desk.drop(SATURDAY);
  await desk.card("cell-a-saturday.csv").getByText("layout not seen before").waitFor();
  expect(await page.getByLabel("Decimal mark").inputValue()).toBe(",");
  expect(await page.getByLabel("Layout").inputValue()).toBe("wide");
  const chosen: [label: string, column: string][] = [
    ["Part", "Item"],
    ["Time", "Clock"],
    ["Lot", "Cast lot"],
    ["Fixture", "Clamped in"],
    ["Machine", "Station"],
    ["Gauge", "Read with"],
    ["Operator", "Read by"],
    ["Part temperature", "Warmth C"],
  ];
  for (const [label, column] of chosen) await desk.choose(label, column);
  await desk.settled();
  await browser.screenshot(page, "intake-wide");
  expect(await overflow(page)).toBeLessThanOrEqual(0);
  expect(await accessibilityFaults(page)).toEqual([]);

  // 20 pieces with 16 measured features each, as the file's columns count; a temperature is none.
  expect(await page.getByLabel("Save this mapping as").inputValue()).toBe("cell-a-saturday");
  expect(await desk.take("cell-a-saturday.csv")).toContain("320 measurements stored; ");
});

test("a layout the program knows is ready at once", async () => {
  const page = await intakePage();
  const desk = intakeDesk(page);
  await desk.drop(join(FILES, "line-b-friday.csv"));
  await desk.card("line-b-friday.csv").getByText("ready: recognised by its header").waitFor();
  await page.getByRole("button", { name: "Discard line-b-friday.csv" }).click();
  await desk.card("line-b-friday.csv").waitFor({ state: "detached" });
  await page.reload();
  expect(await desk.card("line-b-friday.csv").count()).toBe(0);
});

test("what waits to be mapped survives a reload of the page", async () => {
  const page = await intakePage();
  const desk = intakeDesk(page);
  await desk.drop({ name: "mine.csv", text: "what,how much\nbore,1.5\n" });
  await desk.card("mine.csv").getByText("layout not seen before").waitFor();
  await page.reload();
  await desk.card("mine.csv").getByText("layout not seen before").waitFor();
  await page.getByRole("button", { name: "Discard mine.csv" }).click();
});

test("a long file shows its progress and can be cancelled; nothing of it is stored", async () => {
  const path = join(folder, "long.csv");
  const lines = ["part,feature,taken_at,value,unit,piece"];
  for (let i = 0; i < 300_000; i++) {
    const at = new Date(Date.UTC(2026, 9, 1) + i * 1000).toISOString();
    lines.push(`P-900,Feature ${i % 20},${at},${(10 + (i % 13) / 1000).toFixed(3)},mm,${Math.floor(i / 20)}`);
  }
  writeFileSync(path, `${lines.join("\n")}\n`);

  const page = await intakePage();
  const desk = intakeDesk(page);
  await desk.drop(path);
  await desk.card("long.csv").getByText("ready: recognised by its header").waitFor();
  await page.getByRole("button", { name: "Take in long.csv" }).click();
  const card = desk.card("long.csv");
  await card.getByText(/^(Reading|Storing)/).waitFor();
  await page.getByRole("button", { name: "Cancel taking in long.csv" }).click();
  await card.getByText("Nothing of this file was stored").waitFor();
  await page
    .getByRole("row")
    .filter({ hasText: "long.csv" })
    .getByText("cancelled", { exact: true })
    .waitFor();

  // The file is still there: another try needs no second upload.
  await page.getByRole("button", { name: "Look again at long.csv" }).click();
  await desk.card("long.csv").getByText("ready: recognised by its header").waitFor();
  await page.getByRole("button", { name: "Discard long.csv" }).click();
});

test("files that cannot be read are turned away with the reason, and nothing is stored", async () => {
  const page = await intakePage();
  const desk = intakeDesk(page);
  await desk.drop({ name: "drawing.csv", text: "%PDF-1.7 …" }, { name: "empty.csv", text: "" });
  await desk.card("drawing.csv").getByText("Nothing stored: This is a PDF").waitFor();
  await desk.card("empty.csv").getByText("Nothing sent: the file is empty").waitFor();
  await browser.screenshot(page, "intake-turned-away");
});

test("a workbook is looked at in a thread of its own and taken in like any other file", async () => {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Measurements");
  sheet.addRow(["part", "feature", "taken_at", "value", "unit"]);
  for (let i = 0; i < 12; i++)
    sheet.addRow(["P-901", "Shaft diameter", new Date(Date.UTC(2026, 10, 2, 6, i)), 20 + i / 1000, "mm"]);
  const path = join(folder, "shafts.xlsx");
  await workbook.xlsx.writeFile(path);

  const page = await intakePage();
  const desk = intakeDesk(page);
  await desk.drop(path);
  await desk.card("shafts.xlsx").getByText("ready: recognised by its header").waitFor();
  await page.getByRole("button", { name: "Take in shafts.xlsx" }).click();
  await desk.card("shafts.xlsx").getByText("12 measurements stored; ").waitFor();
});

test("two files at once are taken in one after the other", async () => {
  const tidy = (feature: string) =>
    `part,feature,taken_at,value\n${Array.from({ length: 9 }, (_, i) => `P-902,${feature},2026-11-0${i + 1}T06:00:00Z,${i}`).join("\n")}\n`;
  const page = await intakePage();
  const desk = intakeDesk(page);
  await desk.drop({ name: "one.csv", text: tidy("one") }, { name: "two.csv", text: tidy("two") });
  await page.getByRole("button", { name: "Take in all 2 that are ready" }).click();
  for (const name of ["one.csv", "two.csv"])
    await desk.card(name).getByText("9 measurements stored; ").waitFor();
});

test("a viewer sees the history and the help, and cannot bring anything in", async () => {
  const page = await intakePage("viewer");
  await page.getByText("Bringing files in takes the role engineer.").waitFor();
  expect(await page.getByRole("button", { name: "Choose files" }).count()).toBe(0);
  await page.getByText("Bring your own file").click();
  await browser.screenshot(page, "intake-viewer");
  expect(await accessibilityFaults(page)).toEqual([]);
  await page.getByRole("row").filter({ hasText: "cell-a-friday.csv" }).last().getByRole("link").click();
  await page.getByRole("heading", { level: 1, name: "cell-a-friday.csv" }).waitFor();
  expect(await page.getByRole("button", { name: "Undo this intake" }).count()).toBe(0);
});

test("in the dark the mapping holds to WCAG 2.2 AA as well", async () => {
  const page = await intakePage("engineer", { colorScheme: "dark" });
  const desk = intakeDesk(page);
  await desk.drop({ name: "dark.csv", text: "what,a,b\nx,1.5,2\n" });
  await desk.card("dark.csv").getByText("layout not seen before").waitFor();
  await browser.screenshot(page, "intake-dark");
  expect(await accessibilityFaults(page)).toEqual([]);
  await page.getByRole("button", { name: "Discard dark.csv" }).click();
});

describe("who may call", () => {
  const upload = "/api/intake/upload?name=a.csv";

  test("nobody who is not signed in", async () => {
    const answer = await fetch(address + upload, {
      method: "POST",
      body: "a,b\n",
      headers: { origin: address },
    });
    expect(answer.status).toBe(401);
  });

  test("no viewer, and nobody from another site", async () => {
    const viewer = (await intakePage("viewer")).context().request;
    const engineer = (await intakePage("engineer")).context().request;
    const body = { data: "a,b\n1,2\n", headers: { origin: address } };
    expect((await viewer.post(upload, body)).status()).toBe(403);
    expect((await viewer.post("/api/intake/1/undo", body)).status()).toBe(403);
    expect((await viewer.get("/api/intake/jobs")).status()).toBe(200);
    const elsewhere = { ...body, headers: { origin: "https://elsewhere.example" } };
    expect((await engineer.post(upload, elsewhere)).status()).toBe(403);
    expect((await engineer.post(upload, { data: body.data })).status()).toBe(403);
    const sent = await engineer.post(upload, body);
    expect(sent.status()).toBe(201);
    const { file } = (await sent.json()) as { file: { id: string } };
    const other = await engineer.post(`/api/intake/upload/${file.id}/look`, {
      data: { mapping: { layout: "tall" } },
      headers: { origin: address },
    });
    expect(other.status()).toBe(400);
    const gone = await engineer.delete(`/api/intake/upload/${file.id}`, {
      headers: { origin: address },
    });
    expect(gone.status()).toBe(204);
  });
});
