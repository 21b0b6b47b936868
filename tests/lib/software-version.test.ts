import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { SOFTWARE_VERSION } from "../../lib/software-version";

test("a statement names the version that the package has", () => {
  const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
  expect(SOFTWARE_VERSION).toBe(version);
});
