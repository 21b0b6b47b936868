import { describe, expect, test } from "vitest";
import { commandLine } from "./command";

const { run, file } = commandLine();

const HEAD = "feature,value";

describe("wrong usage", () => {
  test.each([
    ["no file", ["study"]],
    ["two files", ["study", "a.csv", "b.csv"]],
    ["an unknown option", ["study", "a.csv", "--limits"]],
    ["an unknown chart", ["study", "a.csv", "--chart", "pareto"]],
    ["an unknown rule", ["study", "a.csv", "--rules", "beyond-4s"]],
    ["an empty rule", ["study", "a.csv", "--rules", "beyond-3s,"]],
    ["subgroups of none", ["study", "a.csv", "--subgroup", "0"]],
    ["subgroups of a half", ["study", "a.csv", "--subgroup", "2.5"]],
    ["subgroups larger than can be charted", ["study", "a.csv", "--subgroup", "1001"]],
    ["a baseline of one subgroup", ["study", "a.csv", "--baseline", "first:1"]],
    ["an unknown baseline", ["study", "a.csv", "--baseline", "last:20"]],
    ["certainty", ["study", "a.csv", "--confidence", "1"]],
    ["a confidence in percent", ["capability", "a.csv", "--confidence", "95"]],
    ["an unknown model", ["capability", "a.csv", "--model", "cauchy"]],
    ["no file for capability", ["capability"]],
    ["no file for intake", ["intake"]],
    ["subgroups in words for intake", ["intake", "a.csv", "--subgroup", "five"]],
    ["a word after rebuild that means nothing", ["rebuild", "--all"]],
  ])("%s: exit 2, one line on stderr, nothing on stdout", async (_, words) => {
    const { code, output, errors } = await run(...words, "--json");
    expect({ code, output }).toEqual({ code: 2, output: "" });
    expect(errors).toMatch(/^Wrong usage: [^\n]+\n$/);
  });

  test("a chart of means for single readings", async () => {
    const name = file("single.csv", `${HEAD}\nbore,1\nbore,2\nbore,3\n`);
    const { code, output, errors } = await run("study", name, "--chart", "xbar-r", "--json");
    expect({ code, output }).toEqual({ code: 2, output: "" });
    expect(errors).toMatch(/^Wrong usage: --chart xbar-r needs subgroups [^\n]+--subgroup N[^\n]+\n$/);
  });
});

describe.each(["study", "capability"])("%s refuses: exit 1, one line that says where and why", (verb) => {
  test.each([
    ["a file that is not there", "absent.csv", null, /^absent\.csv: there is no such file\.\n$/],
    ["a folder", ".", null, /^\.: this is a folder[^\n]+\n$/],
    ["an empty file", "empty.csv", "", /^empty\.csv: [^\n]*empty[^\n]*\n$/],
    ["a header and no more", "header.csv", `${HEAD}\n`, /^header\.csv: [^\n]*no measurement\.\n$/],
    [
      "rows without a header",
      "rows.csv",
      "bore,10.01\nbore,10.02\n",
      /^rows\.csv, field "header": [^\n]*“bore 10\.01”[^\n]*\n$/,
    ],
    [
      "a header without a feature",
      "nameless.csv",
      "name of it,value\na,1\n",
      /^nameless\.csv, field "feature": [^\n]+\n$/,
    ],
    [
      "a header without a value",
      "valueless.csv",
      "feature,lot\nbore,a\n",
      /^valueless\.csv, field "value": [^\n]+\n$/,
    ],
    [
      "a word for a value",
      "word.csv",
      `${HEAD}\nbore,1\nbore,high\n`,
      /^word\.csv, line 3, field "value": [^\n]*high[^\n]*\n$/,
    ],
    ["a value of nothing", "blank.csv", `${HEAD}\nbore,\n`, /^blank\.csv, line 2, field "value": [^\n]+\n$/],
    [
      "a value beyond every double",
      "huge.csv",
      `${HEAD}\nbore,1e400\n`,
      /^huge\.csv, line 2, field "value": [^\n]+\n$/,
    ],
    ["a feature without a name", "who.csv", `${HEAD}\n,1\n`, /^who\.csv, line 2, field "feature": [^\n]+\n$/],
    [
      "a time that is none",
      "time.csv",
      `${HEAD},taken_at\nbore,1,2026-02-30T10:00:00Z\n`,
      /^time\.csv, line 2, field "taken_at": [^\n]*2026-02-30[^\n]*\n$/,
    ],
    [
      "an unknown unit",
      "unit.csv",
      `${HEAD},unit\nbore,1,furlong\n`,
      /^unit\.csv, line 2, field "unit": [^\n]*furlong[^\n]*\n$/,
    ],
    [
      "exchanged tolerance limits",
      "swapped.csv",
      `${HEAD},lower_tolerance,upper_tolerance\nbore,1,3,2\n`,
      /^swapped\.csv, line 2, field "lower_tolerance": [^\n]*3[^\n]*2[^\n]*\n$/,
    ],
    [
      "a tolerance of no width",
      "narrow.csv",
      `${HEAD},lower_tolerance,upper_tolerance\nbore,1,2,2\n`,
      /^narrow\.csv, line 2, field "lower_tolerance": [^\n]*2[^\n]*\n$/,
    ],
    [
      "a tolerance limit in words",
      "limit.csv",
      `${HEAD},upper_tolerance\nbore,1,wide\n`,
      /^limit\.csv, line 2, field "upper_tolerance": [^\n]*wide[^\n]*\n$/,
    ],
    ["a row too long", "long.csv", `${HEAD}\nbore,1,2\n`, /^long\.csv, line 2, field "row": [^\n]+\n$/],
    ["a quote never closed", "quote.csv", `${HEAD}\nbore,"1\n`, /^quote\.csv: Line 2: [^\n]+\n$/],
    ["bytes that are no text", "bytes.csv", "feature,value\nbore,\0\n", /^bytes\.csv: [^\n]+\n$/],
  ])("%s", async (_, name, text, expected) => {
    if (text !== null) file(name, text);
    const { code, output, errors } = await run(verb, name, "--json");
    expect({ code, output }).toEqual({ code: 1, output: "" });
    expect(errors).toMatch(expected);
  });
});
