import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { DEMO_ACCOUNTS } from "../../seed/demo/people";
import { accessibilityFaults } from "./accessibility";
import { browserForThisFile } from "./browser";
import { choose, picturesOf, press, type } from "./keyboard";
import { signInAs } from "./people";

const browser = browserForThisFile();

const TABLET = { viewport: { width: 1024, height: 768 }, hasTouch: true };

async function openAlarm(page: Page, feature: string): Promise<void> {
  await page.goto("/alarms");
  await page.getByRole("link", { name: feature, exact: true }).first().click();
  await page.getByRole("heading", { level: 1, name: feature }).waitFor();
}

/** Buttons and what they are chosen by, smaller than a gloved finger needs. */
async function tooSmall(page: Page): Promise<unknown[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll("main button, main select, main input:not([type=hidden]), main summary")]
      .filter((element) => element.checkVisibility())
      .map((element) => {
        const pressed = element.closest("label") ?? element;
        return [element.outerHTML.slice(0, 80), pressed.getBoundingClientRect().height] as const;
      })
      .filter(([, height]) => height < 44),
  );
}

test("the shift lead at 02:40: sees, acknowledges, holds, ticks, finds, and hands over, by keyboard alone", async () => {
  const page = await browser.page(TABLET);
  await signInAs(page, "shift lead");
  await page.goto("/");
  await press(page.getByRole("navigation", { name: "Rooms" }).last().getByRole("link", { name: "Alarms" }));
  await page.getByRole("heading", { level: 1, name: "Alarms" }).waitFor();
  expect(
    await page.getByRole("heading", { level: 2, name: /^\d alarms on (fixture FX-2|tool T-114)$/ }).count(),
  ).toBeGreaterThan(0);
  expect(await page.getByRole("main").textContent()).not.toMatch(/sigma/);
  expect(await accessibilityFaults(page)).toEqual([]);
  await picturesOf(page, "night-1-queue", browser.screenshot);

  await openAlarm(page, "Bore height above foot");
  const main = page.getByRole("main");
  expect(await main.textContent()).not.toMatch(/sigma/);
  await page.getByRole("img", { name: /^Means of the last 25 subgroups/ }).waitFor();
  expect(await accessibilityFaults(page)).toEqual([]);
  expect(await tooSmall(page)).toEqual([]);
  await picturesOf(page, "night-2-raised", browser.screenshot);

  await type(page.getByLabel("What you see, if you like"), "Foot face looks dirty.");
  await press(page.getByRole("button", { name: "Acknowledge: I am on it" }));
  await page.getByText("acknowledged", { exact: true }).first().waitFor();
  await page.locator("#story").getByText("Foot face looks dirty.").waitFor();

  const step = page.getByRole("button", { name: /^1\. Clean the piece and the gauge/ });
  await press(step, "Space");
  await page.getByRole("button", { name: /^1\. .*Demo shift lead/, pressed: true }).waitFor();

  const hold = page.getByRole("button", { name: /^Hold all \d+ pieces$/ });
  const count = Number(/\d+/.exec((await hold.textContent()) ?? "")?.[0]);
  expect(count).toBeGreaterThan(0);
  await type(page.getByLabel("Where they are, or why"), "Crate 3.");
  await press(hold);
  await page.getByText(`${count} pieces on hold.`).first().waitFor();

  await choose(page.getByLabel("Assigned cause"), "another");
  await type(page.getByLabel("The new cause"), "Burr on the foot face");
  await type(page.getByLabel("What was done"), "Deburred, five pieces measured.");
  await press(page.getByRole("button", { name: "Save cause and action" }));
  await page.getByText("Burr on the foot face (Demo shift lead").waitFor();
  await page.getByText("Still wanted: the feature back to normal.").waitFor();
  expect(await page.getByRole("button", { name: "Close the alarm" }).count()).toBe(0);
  expect(await accessibilityFaults(page)).toEqual([]);
  await picturesOf(page, "night-3-answered", browser.screenshot);

  await page.goto("/handover");
  await page.getByRole("heading", { level: 1, name: "Handover, early shift" }).waitFor();
  await main.getByText(`put ${count} pieces on hold (Crate 3.)`).waitFor();
  expect(await main.getByText("Bore height above foot, BB-62 rev D").count()).toBeGreaterThan(0);
  await type(page.getByLabel("Remarks for the next shift"), "Ask for a new deburring tool.");
  expect(await accessibilityFaults(page)).toEqual([]);
  await press(page.getByRole("button", { name: "Sign as Demo shift lead" }));
  await page.getByText("Signed by Demo shift lead").waitFor();
  expect(await page.getByRole("button", { name: /^Sign as/ }).count()).toBe(0);
  await page.getByText("Ask for a new deburring tool.").waitFor();
  const paper = await page.pdf({
    format: "A4",
    margin: { top: "12mm", bottom: "12mm", left: "12mm", right: "12mm" },
  });
  // Every page of a PDF is an object of its own (ISO 32000-1, 7.7.3.3).
  expect(paper.toString("latin1").match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
});

describe("two people at one alarm", () => {
  test("the later one is told what the first did, keeps what was typed, and sees the newer state", async () => {
    const lead = await browser.page(TABLET);
    const engineer = await browser.page();
    await signInAs(lead, "shift lead");
    await signInAs(engineer, "engineer");
    // As when the network hangs: this page hears no news.
    await engineer.route("**/api/news**", (route) => route.abort());
    await openAlarm(engineer, "Flange flatness");
    await engineer.getByLabel("What you see, if you like").fill("I look at the clamps.");

    await openAlarm(lead, "Flange flatness");
    await lead.getByRole("button", { name: "Acknowledge: I am on it" }).click();
    await lead.getByText("A cause is still to be named.").waitFor();

    await engineer.getByRole("button", { name: "Acknowledge: I am on it" }).click();
    await engineer.getByText("Nothing saved: this alarm has changed meanwhile.").waitFor();
    await engineer
      .getByRole("listitem")
      .filter({ hasText: /Demo shift lead acknowledged$/ })
      .first()
      .waitFor();
    expect(await engineer.getByLabel("What you see, if you like").inputValue()).toBe("I look at the clamps.");
    await engineer.getByText("A cause is still to be named.").waitFor();

    await engineer.getByRole("button", { name: "Keep it as a remark" }).click();
    await engineer.getByText("Demo engineer left a remark").waitFor();
    // The lead's page hears of it by itself.
    await lead.getByText("I look at the clamps.").waitFor();
  });
});

test("on a shared tablet a person puts their name to an act with their PIN", async () => {
  const page = await browser.page(TABLET);
  await signInAs(page, "viewer");
  await openAlarm(page, "Input bore roundness");
  await page.getByRole("button", { name: "Acknowledge: I am on it" }).click();
  await page.getByText("Nothing saved: this takes the role shift lead or engineer.").waitFor();
  await page.getByLabel("Who acts").selectOption("Demo shift lead");
  await page.getByLabel("PIN").fill("112233");
  await page.getByLabel("What you see, if you like").fill("Chips on the clamp.");
  await page.getByRole("button", { name: "Acknowledge: I am on it" }).click();
  await page.getByText("Nothing saved: name and PIN do not belong together.").waitFor();
  await page.getByLabel("PIN").fill(DEMO_ACCOUNTS.find(({ login }) => login === "lead")?.pin ?? "");
  expect(await accessibilityFaults(page)).toEqual([]);
  await browser.screenshot(page, "alarm-pin");
  await page.getByRole("button", { name: "Acknowledge: I am on it" }).click();
  await page.getByText("A cause is still to be named.").waitFor();
  const line = page.getByRole("listitem").filter({ hasText: "Chips on the clamp." });
  expect(await line.textContent()).toMatch(/Demo shift lead acknowledged/);
});

test("shelved with a reason, it waits apart from the others and comes back early on demand", async () => {
  const page = await browser.page(TABLET);
  await signInAs(page, "shift lead");
  await openAlarm(page, "Output bearing bore diameter");
  await page.getByText("Set it aside for a while (shelve)").click();
  await page.getByRole("button", { name: "Shelve the alarm" }).click();
  await page.getByText("Nothing saved: write down why it can wait.").waitFor();
  await page.getByLabel("Why it can wait").fill("Insert ordered.");
  await page.getByRole("button", { name: "Shelve the alarm" }).click();
  await page.getByText(/^Shelved until/).waitFor();
  await page.goto("/alarms");
  const shelf = page.locator("#shelved");
  await shelf.getByText("Insert ordered.").waitFor();
  await shelf.getByRole("link", { name: "Output bearing bore diameter" }).click();
  await page.getByLabel("Why it comes back early").fill("It is here.");
  await page.getByRole("button", { name: "Take it off the shelf now" }).click();
  await page.getByText("Nobody has seen it yet.").waitFor();
});

test("a reaction plan is written in versions by an engineer, and read by the others", async () => {
  const page = await browser.page();
  await signInAs(page, "engineer");
  await page.goto("/plan/reactions");
  await page
    .getByRole("link", { name: "Bolt circle diameter" })
    .or(page.getByRole("main").getByRole("rowheader").getByRole("link"))
    .first()
    .click();
  await page.getByText("In force: the usual plan of its kind.").waitFor();
  await page.getByLabel("Steps, one a line").fill("Stop the spindle.\nCall the engineer.");
  await page.getByRole("button", { name: "Save as a plan of its own" }).click();
  await page.getByText("Saved. Version 1 holds").waitFor();
  await page.getByText("In force: the feature's own plan, version 1.").waitFor();
  expect(await accessibilityFaults(page)).toEqual([]);
  await page.getByRole("button", { name: "Take this plan back" }).click();
  await page.getByText("In force: the usual plan of its kind.").waitFor();

  const reader = await browser.page();
  await signInAs(reader, "viewer");
  await reader.goto(page.url());
  await reader.getByText("An engineer can change it.").waitFor();
  expect(await reader.getByRole("textbox").count()).toBe(0);
});
