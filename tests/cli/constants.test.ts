import { expect, test } from "vitest";
import factors from "../reference/control-chart-factors.json";
import { commandLine } from "./command";

const { run } = commandLine();

const HALF_UNIT = 0.0005;

const KEYS = ["n", "d2", "d3", "c4", "A2", "A3", "D3", "D4", "B3", "B4", "E2"];

test("--json prints one document with every factor, in the order asked for", async () => {
  const { code, output, errors } = await run("constants", "5", "2", "10", "--json");
  expect(code).toBe(0);
  expect(errors).toBe("");
  const { constants } = JSON.parse(output) as { constants: Record<string, number>[] };
  expect(constants.map((row) => row.n)).toEqual([5, 2, 10]);
  for (const row of constants) expect(Object.keys(row)).toEqual(KEYS);
});

test(`published: ${factors.source}`, async () => {
  const printed = factors.printed.map(({ name, printed }) => {
    const [, factor = "", n = ""] = /^(\w+)\((\d+)\)$/.exec(name) ?? [];
    return { factor, n: Number(n), printed };
  });
  const sizes = [...new Set(printed.map(({ n }) => n))];
  const { output } = await run("constants", ...sizes.map(String), "--json");
  const { constants } = JSON.parse(output) as { constants: Record<string, number>[] };
  expect(constants).toHaveLength(sizes.length);
  for (const { factor, n, printed: value } of printed) {
    const row = constants.find((candidate) => candidate.n === n);
    const { d2 = Number.NaN, d3 = Number.NaN } = row ?? {};
    // Half a unit of the third decimal; D3 and D4 were printed from d2 and d3 that were rounded so before.
    const rounding = factor === "D3" || factor === "D4" ? 3 * HALF_UNIT * (1 / d2 + d3 / d2 ** 2) : 0;
    const difference = Math.abs((row?.[factor] ?? Number.NaN) - value);
    expect(difference, `${factor} of ${n}`).toBeLessThanOrEqual(HALF_UNIT + rounding);
  }
});

test("without --json there is a table with one line a size", async () => {
  const { output } = await run("constants", "2", "5");
  const lines = output.trimEnd().split("\n");
  expect(lines).toHaveLength(3);
  expect(lines[0]?.trim().split(/\s+/)).toEqual(KEYS);
});
