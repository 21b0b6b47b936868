import { expect, test } from "vitest";
import reference from "../reference/arl.json";
import { commandLine } from "./command";

const { run } = commandLine();

type Line = { shift: number; arl: number | null; standardError: number | null; method: string };

async function linesOf(...words: string[]): Promise<Line[]> {
  const { code, output, errors } = await run("arl", ...words, "--json");
  expect({ code, errors }).toEqual({ code: 0, errors: "" });
  return (JSON.parse(output) as { arl: Line[] }).arl;
}

type Expected = { averageRunLength?: (number | null)[]; twoSidedAverageRunLength?: (number | null)[] };

function expectedOf(id: string): { shifts: number[]; means: number[] } {
  const one = reference.cases.find((found) => found.id === id)!;
  const { averageRunLength, twoSidedAverageRunLength } = one.expected as Expected;
  return { shifts: one.input.shifts, means: (averageRunLength ?? twoSidedAverageRunLength)! as number[] };
}

test.each([
  [
    "run-rules-beyond-3s+two-of-three-2s+four-of-five-1s+eight-one-side",
    ["--rules", "beyond-3s,two-of-three-2s,four-of-five-1s,eight-one-side"],
    "markov-chain",
  ],
  ["run-rules-beyond-3s+six-trend", ["--rules", "beyond-3s,six-trend"], "integral-equation"],
  ["ewma-0.2-2.962", ["--ewma", "0.2,2.962"], "integral-equation"],
  ["cusum-0.5-4.0", ["--cusum", "0.5,4"], "integral-equation"],
])("computed independently: %s", async (id, words, method) => {
  const { shifts, means } = expectedOf(id);
  const lines = await linesOf(...words, "--shifts", shifts.join());
  expect(lines.map(({ shift }) => shift)).toEqual(shifts);
  for (const [i, line] of lines.entries()) {
    expect(Object.keys(line)).toEqual(["shift", "arl", "standardError", "method"]);
    expect(Math.abs(line.arl! / means[i]! - 1)).toBeLessThan(1e-7);
    expect(line).toMatchObject({ standardError: null, method });
  }
});

test("rules without an exact form are simulated, and say with what error; the seed decides", async () => {
  const words = ["--rules", "two-of-three-2s,six-trend", "--shifts", "0,1", "--runs", "500"];
  const [first] = await linesOf(...words);
  expect(first).toMatchObject({ shift: 0, method: "simulation" });
  expect(first!.standardError).toBeGreaterThan(0);
  expect((await linesOf(...words))[0]).toEqual(first);
  expect((await linesOf(...words, "--seed", "2"))[0]).not.toEqual(first);
});

test("exact limits and a head start shorten the run", async () => {
  const [steady] = await linesOf("--ewma", "0.1,2.7", "--shifts", "2");
  const [exact] = await linesOf("--ewma", "0.1,2.7", "--shifts", "2", "--limits", "exact");
  expect(exact!.arl).toBeLessThan(steady!.arl!);
  const [zero] = await linesOf("--cusum", "0.5,5", "--shifts", "1");
  const [quick] = await linesOf("--cusum", "0.5,5", "--shifts", "1", "--head-start", "2.5");
  expect(quick!.arl).toBeLessThan(zero!.arl!);
});

test("without --json there is a table, at seven shifts unless others are named", async () => {
  const { output } = await run("arl", "--rules", "beyond-3s");
  const lines = output.trimEnd().split("\n");
  expect(lines).toHaveLength(8);
  expect(lines[1]!.trim().split(/\s+/)).toEqual(["0", "370.4", "exact", "markov-chain"]);
});

test.each([
  ["nothing to reckon with", []],
  ["two charts at once", ["--ewma", "0.2,3", "--cusum", "0.5,4"]],
  ["a file", ["z.csv", "--rules", "beyond-3s"]],
  ["an unknown rule", ["--rules", "beyond-4s"]],
  ["half a design", ["--ewma", "0.2"]],
  ["a word for a number", ["--cusum", "half,4"]],
  ["a weight above 1", ["--ewma", "1.2,3"]],
  ["a shift beyond all use", ["--rules", "beyond-3s", "--shifts", "50"]],
  ["limits of another kind", ["--ewma", "0.2,3", "--limits", "wide"]],
  ["limits that belong to another chart", ["--rules", "beyond-3s", "--limits", "exact"]],
  ["a head start that belongs to another chart", ["--ewma", "0.2,3", "--head-start", "2"]],
  ["one run", ["--rules", "two-of-three-2s,six-trend", "--runs", "1"]],
])("wrong usage, %s: exit 2, one line on stderr", async (_, words) => {
  const { code, output, errors } = await run("arl", ...words, "--json");
  expect(code).toBe(2);
  expect(output).toBe("");
  expect(errors).toMatch(/^Wrong usage: [^\n]+\n$/);
});
