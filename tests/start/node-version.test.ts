import { expect, test } from "vitest";
import { requireNode, satisfies } from "../../app/start/node-version.mjs";

const RANGE = "^20.19.0 || ^22.12.0 || >=24.0.0";

test.each([
  ["20.19.0", true],
  ["20.18.3", false],
  ["20.20.2", true],
  ["21.7.0", false],
  ["22.11.9", false],
  ["22.12.0", true],
  ["23.1.0", false],
  ["24.0.0", true],
  ["26.3.1", true],
  ["18.20.0", false],
])("Node %s satisfies the range: %s", (version, expected) => {
  expect(satisfies(version, RANGE)).toBe(expected);
});

test("an unfit Node is refused with both versions and what to do", () => {
  expect(() => requireNode(RANGE, "18.20.0")).toThrow(
    /needs Node .*; this is Node 18\.20\.0[\s\S]*Install Node/,
  );
  expect(() => requireNode(RANGE, "20.20.2")).not.toThrow();
});
