import { expect, test } from "vitest";
import { browserForThisFile } from "./browser";
import { address } from "./plant";

const browser = browserForThisFile();

test("the first address shows a page with one heading, and its scripts may run", async () => {
  const page = await browser.page();

  const answer = await page.goto("/");

  expect(answer?.status()).toBe(200);
  expect(await page.getByRole("heading", { level: 1 }).count()).toBe(1);
  // React has taken over the page: its scripts passed the content policy.
  await page.waitForFunction(() => Object.keys(document).some((key) => key.startsWith("__react")));
  await browser.screenshot(page, "first-answer");
});

test("every answer carries the headers that keep other sites out", async () => {
  const answer = await fetch(address, { redirect: "follow" });

  expect(answer.headers.get("x-content-type-options")).toBe("nosniff");
  expect(answer.headers.get("referrer-policy")).toBe("same-origin");
  expect(answer.headers.get("x-powered-by")).toBeNull();
  const policy = answer.headers.get("content-security-policy") ?? "";
  expect(policy).toContain("frame-ancestors 'none'");
  expect(policy).toMatch(/script-src 'self' 'nonce-[A-Za-z0-9+/=]{24}'(;|$)/);
});

test("an address that does not exist answers 404 with a way back", async () => {
  const page = await browser.page();

  const answer = await page.goto("/no-such-page");

  expect(answer?.status()).toBe(404);
  expect(await page.locator('a[href="/"]').count()).toBeGreaterThan(0);
});
