import { expect, onTestFinished, test } from "vitest";
import { browserForThisFile } from "./browser";
import { signInAs } from "./people";
import { address } from "./plant";
import { refusedServer, startEmptyServer } from "./server";

const browser = browserForThisFile();

test("whoever is not signed in is led to sign in and back to the page asked for", async () => {
  const page = await browser.page();
  await page.goto("/plan?part=1");
  expect(new URL(page.url()).pathname).toBe("/sign-in");
  await page.getByRole("button", { name: "Continue as Demo viewer" }).click();
  await page.getByRole("heading", { level: 1, name: "Control plan" }).waitFor();
  expect(page.url()).toBe(`${address}/plan?part=1`);
});

test("login and password work, a wrong password says what to do and keeps the login", async () => {
  const page = await browser.page();
  await page.goto("/sign-in");
  await page.getByLabel("Login").fill("engineer");
  await page.getByLabel("Password").fill("not it at all");
  await page.getByRole("button", { name: "Sign in", exact: true }).click();
  await page.getByText("Not signed in: login and password do not belong together.").waitFor();
  expect(await page.getByLabel("Login").inputValue()).toBe("engineer");

  await page.getByLabel("Password").fill("steady-bore");
  await page.getByRole("button", { name: "Sign in", exact: true }).click();
  await page.getByRole("heading", { level: 1, name: "Shift board" }).waitFor();
});

test("the session's cookie is out of reach of scripts and of other sites, and signing out ends it", async () => {
  const page = await browser.page();
  await page.goto("/sign-in");
  await page.getByRole("button", { name: "Continue as Demo viewer" }).click();
  await page.getByRole("heading", { level: 1, name: "Shift board" }).waitFor();
  const [cookie] = (await page.context().cookies()).filter(({ name }) => name === "steadyrest-session");
  expect(cookie).toMatchObject({ httpOnly: true, sameSite: "Lax" });

  await page.getByRole("button", { name: "Sign out" }).click();
  await page.getByRole("heading", { level: 1, name: "Sign in" }).waitFor();
  const answer = await fetch(`${address}/`, {
    headers: { cookie: `steadyrest-session=${cookie?.value}` },
    redirect: "manual",
  });
  expect(answer.status).toBe(307);
});

test("a page for another role answers 403 and says which account it refused", async () => {
  const page = await browser.page();
  await signInAs(page, "viewer");
  const answer = await page.goto("/plan/parts/new");
  expect(answer?.status()).toBe(403);
  await page.getByRole("heading", { level: 1, name: "This page is not for your role" }).waitFor();
  await page.getByText("You are signed in as Demo viewer (viewer).").waitFor();
});

test("a set-up link does not work once there are accounts", async () => {
  const page = await browser.page();
  await page.goto("/set-up#invented");
  await page.getByText("This link has ended").waitFor();
  expect(await page.getByLabel("Login").count()).toBe(0);
});

test("the link that an empty start prints makes the first account, once and with its own secret only", async () => {
  const { address: empty, dataFolder, printed, stop } = await startEmptyServer();
  onTestFinished(stop);
  const link = /http:\/\/localhost:\d+(\/set-up#\S+)/.exec(printed)?.[1];
  expect(link).toBeDefined();

  const page = await browser.page();
  const create = async () => {
    await page.getByLabel("Your name").fill("Jo Rossi");
    await page.getByLabel("Login").fill("jr");
    await page.getByLabel("Password", { exact: true }).fill("a steady lathe");
    await page.getByLabel("Password once more").fill("a steady lathe");
    await page.getByRole("button", { name: "Create the account" }).click();
  };
  await page.goto(`${empty}/set-up#invented`);
  await create();
  await page.getByText(/^Nothing saved/).waitFor();
  expect(await page.getByLabel("Login").inputValue()).toBe("jr");

  await page.goto("about:blank");
  // As a proxy that ends TLS says it: the cookie then never goes over an open line.
  await page.setExtraHTTPHeaders({ "x-forwarded-proto": "https" });
  await page.goto(`${empty}${link}`);
  await create();
  await page.getByRole("heading", { level: 1, name: "Shift board" }).waitFor();
  const [cookie] = (await page.context().cookies()).filter(({ name }) => name === "steadyrest-session");
  expect(cookie).toMatchObject({ secure: true, httpOnly: true, sameSite: "Lax" });
  await page.getByText("Jo Rossi").waitFor();

  const stranger = await browser.page();
  await stranger.goto(`${empty}${link}`);
  await stranger.getByText("This link has ended").waitFor();

  // A second server on the same plant ends, and says why.
  const { code, said } = await refusedServer(dataFolder);
  expect(said).toContain("Not started: another Steadyrest serves ");
  expect(code).toBe(1);
});

test("light or dark is kept for this browser", async () => {
  const page = await browser.page({ colorScheme: "light" });
  await page.goto("/sign-in");
  await page.getByRole("button", { name: "Dark" }).click();
  await page.locator('html[data-theme="dark"]').waitFor();
  await page.reload();
  expect(await page.locator("html").getAttribute("data-theme")).toBe("dark");
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).colorScheme)).toBe("dark");
});
