import { expect, test } from "vitest";
import { chromium } from "../chromium.mjs";

test("the browser named in the environment comes first", () => {
  expect(chromium({ NODE_ENV: "test", CHROMIUM: "/opt/browser" }, () => true)).toBe("/opt/browser");
});

test("a browser that was named but is not there is refused, not replaced by another", () => {
  const exists = (path: unknown) => path !== "/opt/browser";
  expect(() => chromium({ NODE_ENV: "test", CHROMIUM: "/opt/browser" }, exists)).toThrow(/no such file/);
});

test("without any browser there is none", () => {
  expect(chromium({ NODE_ENV: "test" }, () => false)).toBeUndefined();
});
