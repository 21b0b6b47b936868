import { join } from "node:path";
import { expect, test } from "vitest";
import { browserForThisFile } from "./browser";
import { choose, picturesOf, press, type } from "./keyboard";
import { signInAs } from "./people";

/*
 * A process engineer's Monday morning and the Thursday of who answers the customer, whole and by keyboard alone. The
 * shift lead's night stands in alarms.test.ts, what a statement says in statements.test.ts.
 */

const browser = browserForThisFile();

const FRIDAY = join(import.meta.dirname, "../../seed/files/line-b-friday.csv");
/** A scan of the whole demo takes some seconds on a busy machine. */
const SCANNED_WITHIN_MS = 60_000;

test("Monday, 07:10: files, what moved, what was done to it, limits, and what they cost", async () => {
  const page = await browser.page({ viewport: { width: 1440, height: 900 } });
  await signInAs(page, "engineer");
  await page.goto("/");
  const rooms = page.getByRole("navigation", { name: "Rooms" }).last();

  await press(rooms.getByRole("link", { name: "Intake" }));
  await page.locator('input[type="file"]:enabled').waitFor({ state: "attached" });
  const chooser = page.waitForEvent("filechooser");
  await press(page.getByRole("button", { name: "Choose files" }));
  await (await chooser).setFiles(FRIDAY);
  const card = page
    .getByRole("listitem")
    .filter({ has: page.getByRole("heading", { name: "line-b-friday.csv", exact: true }) })
    .last();
  await press(card.getByRole("button", { name: "Take in line-b-friday.csv" }));
  await card.getByText(/measurements stored/).waitFor();

  await press(rooms.getByRole("link", { name: "Shift board" }));
  await page.getByRole("heading", { level: 1, name: "Shift board" }).waitFor();
  await picturesOf(page, "monday-1-board", browser.screenshot);
  await press(
    page.getByRole("region", { name: /Act/ }).getByRole("link", { name: "FX-2", exact: true }).first(),
  );
  await page.getByRole("heading", { name: "Evidence: FX-2" }).waitFor();
  await picturesOf(page, "monday-2-evidence", browser.screenshot);
  await press(page.getByRole("button", { name: "Log an event" }));
  const event = page.getByRole("dialog");
  await type(event.getByLabel("Note"), "Locator pin replaced");
  await press(event.getByRole("button", { name: "Log this event" }));
  await page.getByText("Saved. FX-2 is compared afresh from this event on").waitFor();
  await page
    .getByText(/ended by an event; it is judged afresh from then on/)
    .waitFor({ timeout: SCANNED_WITHIN_MS });

  await press(rooms.getByRole("link", { name: "Features" }));
  await type(page.getByLabel("Find"), "Output bore height above base");
  await page.keyboard.press("Enter");
  await press(
    page.getByRole("rowheader").getByRole("link", { name: "Output bore height above base" }).first(),
  );
  const leave = page.getByRole("region", { name: "Leave subgroups out" });
  await type(leave.getByLabel("First left out"), "12");
  await type(leave.getByLabel("Last left out"), "13");
  await type(leave.getByLabel("In words"), "Chips on the stop");
  await press(leave.getByRole("button", { name: "Leave out" }));
  await leave.getByText("Saved. 2 subgroups left out").waitFor();
  const freeze = page.getByRole("region", { name: "Freeze control limits" });
  await type(freeze.getByLabel("First of the baseline"), "1");
  await type(freeze.getByLabel("Last of the baseline"), "60");
  await type(freeze.getByLabel("Reason"), "Without the chips on the stop.");
  await press(freeze.getByRole("button", { name: "Freeze these limits" }));
  await freeze.getByText("Saved. Limits 2 are frozen").waitFor();
  await picturesOf(page, "monday-3-limits", browser.screenshot);

  await press(page.getByRole("main").getByRole("link", { name: "Control plan" }).first());
  await press(page.getByRole("button", { name: "What would this cost?" }));
  await page.getByRole("rowheader", { name: /^Ticked/ }).waitFor();
}, 240_000);

test("Thursday: what can be said of the key features, signed, downloaded, shared", async () => {
  const page = await browser.page({ viewport: { width: 1440, height: 900 } });
  await signInAs(page, "quality");
  await page.goto("/");
  await press(
    page.getByRole("navigation", { name: "Rooms" }).last().getByRole("link", { name: "Capability" }),
  );
  await press(page.getByRole("link", { name: "New statement" }));
  await choose(page.getByLabel("Part and revision"), "H-210 rev C");
  await press(page.getByRole("button", { name: "Next" }));
  await press(page.getByRole("button", { name: "Show what can be said" }));
  await page.getByRole("heading", { name: "What can be said" }).waitFor();
  await page
    .getByText(/Not presentable as capability/i)
    .first()
    .waitFor();
  await picturesOf(page, "thursday-1-claims", browser.screenshot);

  await type(page.getByLabel("What the statement is for"), "H-210 rev C, order 4711");
  await press(page.getByLabel("I sign this statement"), "Space");
  await press(page.getByRole("button", { name: "Freeze and sign" }));
  await page.getByRole("heading", { level: 1, name: "H-210 rev C, order 4711" }).waitFor();
  await picturesOf(page, "thursday-2-statement", browser.screenshot);
  const files = page.getByRole("navigation", { name: "Forms to download" });
  for (const [form, ending] of [
    ["a4", ".pdf"],
    ["xlsx", ".xlsx"],
  ] as const) {
    const download = page.waitForEvent("download");
    await press(files.locator(`a[href$="form=${form}"]`));
    expect((await download).suggestedFilename().endsWith(ending)).toBe(true);
  }
  await type(page.getByLabel("Who gets the link"), "The customer");
  await press(page.getByRole("button", { name: "Make a link" }));
  await page.locator("output").filter({ hasText: "/statement/" }).waitFor();
  await press(page.getByRole("button", { name: "Recompute now" }));
  await page.getByText("Same to the last digit").waitFor();
}, 240_000);
