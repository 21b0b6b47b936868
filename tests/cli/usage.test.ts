import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { commandLine } from "./command";

const { run, start, database } = commandLine();

test("--help lists the verbs and ends well", async () => {
  const { code, output, errors } = await run("--help");
  expect(code).toBe(0);
  expect(output).toMatch(/^ {2}constants +\S/m);
  expect(output).toMatch(/^ {2}signals +\S/m);
  expect(errors).toBe("");
});

test("--help after every verb says how it is called, and ends well", async () => {
  const { output } = await run("--help");
  const verbs = [...output.matchAll(/^ {2}([a-z-]+) {2,}\S/gm)].map((match) => match[1] ?? "");
  expect(verbs.length).toBeGreaterThan(1);
  for (const verb of verbs) {
    const { code, output: help, errors } = await start(verb, "--help");
    expect({ verb, code, errors }).toEqual({ verb, code: 0, errors: "" });
    expect(help.startsWith(verb)).toBe(true);
  }
});

test.each([
  ["no verb", []],
  ["an unknown verb", ["weigh"]],
  ["a word every object has", ["constructor"]],
  ["an unknown option", ["constants", "5", "--colour"]],
  ["no subgroup size", ["constants"]],
  ["a subgroup size that is no number", ["constants", "five"]],
  ["a subgroup size of one", ["constants", "1"]],
  ["an option without its value", ["signals", "z.csv", "--column"]],
  ["no file", ["signals", "--column", "z", "--rules", "beyond-3s"]],
  ["an unknown rule", ["signals", "z.csv", "--column", "z", "--rules", "beyond-4s"]],
])("wrong usage, %s: exit 2, one line on stderr, nothing on stdout", async (_, words) => {
  const { code, output, errors } = await run(...words);
  expect(code).toBe(2);
  expect(output).toBe("");
  expect(errors).toMatch(/^Wrong usage: [^\n]+\n$/);
});

test("a program of its own says the same, and ends with the same code", async () => {
  for (const words of [["weigh"], ["study", "absent.csv"], ["constants", "5"]]) {
    expect(await start(...words)).toEqual(await run(...words));
  }
});

test("a database that is none is refused in one line, and is no fault of the program", async () => {
  mkdirSync(dirname(database()), { recursive: true });
  onTestFinished(() => rmSync(database()));
  writeFileSync(database(), "no database at all, but long enough to be looked at as one. ".repeat(20));
  const { code, output, errors } = await start("verify");
  expect({ code, output }).toEqual({ code: 1, output: "" });
  expect(errors).toMatch(/^\S+steadyrest\.db cannot be opened: it is no database of this program[^\n]+\n$/);
});
