import type { Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { accessibilityFaults } from "./accessibility";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";
import { address } from "./plant";

const browser = browserForThisFile();

/** Demo's Monday morning, half an hour before its clock stands still. */
const MONDAY = Date.parse("2026-11-16T05:40:00Z");

let secret = "";
beforeAll(async () => {
  const page = await browser.page();
  await signInAs(page, "admin");
  secret = await makeKey(page, "cell A", "post measurements");
});

async function makeKey(page: Page, name: string, may: string): Promise<string> {
  await page.goto("/people/keys");
  await page.getByLabel("Name").fill(name);
  for (const scope of ["post measurements", "show the wall board"])
    await page.getByLabel(scope).setChecked(scope === may);
  await page.getByRole("button", { name: "Make the key" }).click();
  return (await page.locator("code", { hasText: /^srk_.{40}/ }).textContent()) ?? "";
}

async function post(body: unknown, headers: Record<string, string> = {}): Promise<Response> {
  return fetch(`${address}/api/v1/measurements`, {
    method: "POST",
    headers: { authorization: `Bearer ${secret}`, "content-type": "application/json", ...headers },
    body: typeof body === "string" ? body : JSON.stringify(body),
  });
}

/** Five pieces, a whole subgroup, each far above its tolerance of 59.900 to 60.100. */
function farOff(feature: string, from: number) {
  return {
    pieces: Array.from({ length: 5 }, (_, i) => ({
      piece: `live-${feature}-${i}`,
      taken_at: new Date(from + i * 60_000).toISOString(),
      part: "BB-40",
      lot: "L-9001",
      measurements: [{ feature, value: 60.2 + i / 1000, unit: "mm" }],
    })),
  };
}

test("a piece is posted, and its alarm is seen in two open browsers that nobody touches", async () => {
  const [lead, engineer] = [await browser.page(), await browser.page()];
  await signInAs(lead, "shift lead");
  await signInAs(engineer, "engineer");
  await Promise.all([lead.goto("/"), engineer.goto("/alarms")]);
  const open = Number(
    /(\d+) open/.exec((await engineer.getByText(/\d+ open alarms?$/).textContent()) ?? "")?.[1],
  );
  await lead.evaluate(() => Object.assign(window, { untouched: true }));

  const answer = await post(farOff("Foot width", MONDAY), { "idempotency-key": "live-1" });
  expect(answer.status).toBe(200);
  const told = (await answer.json()) as { accepted: number; alarms: { id: number; feature: string }[] };
  expect(told).toMatchObject({ accepted: 5, alarms: [{ feature: "Foot width" }] });

  const act = lead.getByRole("region", { name: "Act" });
  await act.getByRole("listitem").filter({ hasText: "Foot width" }).waitFor();
  await engineer.getByText(`${open + 1} open alarms`).waitFor();
  // The page went on living; it was not loaded anew.
  expect(await lead.evaluate(() => "untouched" in window)).toBe(true);

  // What one of them does, the other sees too.
  await engineer.goto(`/alarms/${told.alarms[0]?.id}`);
  await engineer.getByRole("heading", { level: 1, name: /Foot width/ }).waitFor();
  const again = await post(farOff("Foot width", MONDAY), { "idempotency-key": "live-1" });
  expect(again.headers.get("x-steadyrest-repeated")).toBe("true");
  expect(await again.json()).toEqual(told);
});

test("what cannot be taken is answered with what, where, and what to do", async () => {
  const ask = async (body: unknown, headers: Record<string, string> = {}) => {
    const answer = await post(body, headers);
    return [answer.status, ((await answer.json()) as { message: string }).message] as const;
  };
  const said = [
    await ask("{", {}),
    await ask([], {}),
    await ask({ measurements: [{ feature: "Foot width", value: "60,1" }] }),
    await ask("{}", { "content-type": "text/plain" }),
    await ask("{}", { authorization: "Bearer srk_wrong" }),
    await ask(farOff("Foot width", MONDAY + 1), { "idempotency-key": "live-1" }),
    await ask(`{"measurements":["${"x".repeat(2 * 1024 * 1024)}"]}`),
  ];
  expect(said.map(([status]) => status)).toEqual([400, 422, 422, 415, 401, 409, 413]);
  for (const [, message] of said) expect(message).toMatch(/^Nothing (was read or )?saved: /);
  expect(said[2]?.[1]).toContain("measurements[0].value");
  expect(said[6]?.[1]).toContain("at most 2 MB (STEADYREST_MAX_POST_MB)");
});

test("a screen with a key shows the wall without a sign-in, and goes dark when the key is ended", async () => {
  const admin = await browser.page();
  await signInAs(admin, "admin");
  const wallSecret = await makeKey(admin, "wall hall 2", "show the wall board");
  expect(await accessibilityFaults(admin)).toEqual([]);

  const wall = await browser.page({ viewport: { width: 1920, height: 1080 } });
  await wall.goto("/wall");
  await wall.getByLabel("Key of this screen").fill(wallSecret);
  await wall.getByRole("button", { name: "Show the board here" }).click();
  await wall.waitForURL(/\?wall/);
  await wall.getByText(/Latest measurement/).waitFor();
  await wall.waitForFunction(() => document.title !== "");
  expect(await accessibilityFaults(wall)).toEqual([]);
  // Nothing to press, nothing to scroll to.
  expect(await wall.locator("a:visible, button:visible, input:visible").count()).toBe(0);
  expect(
    await wall.evaluate(() => document.documentElement.scrollHeight - window.innerHeight),
  ).toBeLessThanOrEqual(0);
  await browser.screenshot(wall, "wall");

  // The key opens nothing else.
  for (const place of ["/", "/features", "/api/news"]) {
    const answer = await wall.request.get(place, { maxRedirects: 0 });
    expect([307, 401], place).toContain(answer.status());
  }
  await admin
    .getByRole("row", { name: /wall hall 2/ })
    .getByRole("button", { name: "End" })
    .click();
  await admin.getByRole("button", { name: "End it" }).click();
  await admin
    .getByRole("row", { name: /wall hall 2/ })
    .getByText(/ended/)
    .waitFor();
  await wall.reload();
  await wall.waitForURL(/\/sign-in/);
});

test("at the bench: keys lead on, words come at once, the draft survives, and the sheet is stored and judged", async () => {
  const page = await browser.page({ viewport: { width: 1024, height: 900 } });
  await signInAs(page, "shift lead");
  await page.goto("/intake/bench");
  await page.getByLabel("Part").selectOption({ label: "BB-40 rev A Bearing bracket 52" });
  await page.getByRole("button", { name: "Choose" }).click();
  await page.getByLabel("Lot", { exact: true }).fill("L-9002");
  await page.getByLabel("Measured at").fill("2026-11-16T06:50:00");

  const focused = () => page.evaluate(() => document.activeElement?.getAttribute("data-cell"));
  await page.getByLabel("Piece of row 1").fill("hand-1");
  await page.keyboard.press("Enter");
  expect(await focused()).toBe("0-1");
  await page.keyboard.type("51,99x");
  await page.getByText("hand-1, Bearing bore diameter: “51,99x” is not a number.").waitFor();
  expect(await page.getByRole("button", { name: /^Store/ }).isDisabled()).toBe(true);
  await page.keyboard.press("Backspace");
  await page.keyboard.press("Enter");
  await page.keyboard.type("18.2");
  await page.getByText(/hand-1, Bearing bore depth: 0\.15.* above the tolerance/).waitFor();
  await page.keyboard.press("ArrowDown");
  expect(await focused()).toBe("1-2");
  await browser.screenshot(page, "bench");
  expect(await accessibilityFaults(page)).toEqual([]);

  await page.reload();
  expect(await page.getByLabel("Bearing bore diameter, hand-1").inputValue()).toBe("51,99");
  await page.getByRole("button", { name: "Store 2 values" }).click();
  await page.getByText(/^Saved\. 2 measurements stored/).waitFor();
  expect(await page.getByLabel("Piece of row 1").inputValue()).toBe("");
  await page.goto("/intake");
  await page.getByRole("link", { name: /^bench, BB-40/ }).waitFor();
});

test("an admin adds a receiver, and the page says why its trial did not arrive", async () => {
  const page = await browser.page();
  await signInAs(page, "admin");
  await page.goto("/people/messages");
  await page.getByLabel("Name").fill("other system");
  await page.getByLabel("Address").fill("http://127.0.0.1:9/hook");
  await page.getByRole("button", { name: "Add the receiver" }).click();
  await page.getByText(/leads to this machine itself/).waitFor();
  await page.getByLabel("Address").fill("http://no-such-host.invalid/hook");
  await page.getByRole("button", { name: "Add the receiver" }).click();
  await page.getByText(/A trial message is on its way/).waitFor();
  await expect
    .poll(
      async () => {
        await page.reload();
        return page.getByRole("row", { name: /trial/ }).textContent();
      },
      { timeout: 15_000, interval: 500 },
    )
    .toMatch(/waiting.*(ENOTFOUND|EAI_AGAIN|not)/);
  expect(await accessibilityFaults(page)).toEqual([]);
});
