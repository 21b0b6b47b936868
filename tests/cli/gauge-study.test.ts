import { expect, test } from "vitest";
import reference from "../reference/gauge-studies.json";
import { commandLine } from "./command";

const { run, file } = commandLine();

type Case = {
  id: string;
  input: { measurements: number[][][]; toleranceWidth: number };
  expected: {
    "poolingAt0.25": "pool" | "keep";
    componentsWithInteraction: Components;
    componentsWithoutInteraction: Components;
  };
};
type Components = {
  varianceComponents: Record<string, number>;
  percentStudyVariation: Record<string, number>;
  percentTolerance: Record<string, number>;
  distinctCategories: number;
};
const cases = (reference.cases as unknown as Case[]).filter(({ id }) => id.startsWith("crossed-"));

const textOf = (values: number[][][]) =>
  `part,operator,trial,value\n${values
    .flatMap((row, i) => row.flatMap((cell, j) => cell.map((x, k) => `P${i},O${j},${k},${x}`)))
    .join("\n")}\n`;

test.each(cases)("computed independently: $id", async ({ id, input, expected }) => {
  const name = file(`${id}.csv`, textOf(input.measurements));
  const options = ["--lower", "0", "--upper", String(input.toleranceWidth), "--json"];
  const { code, output, errors } = await run("gauge-study", name, ...options);
  expect({ code, errors }).toEqual({ code: 0, errors: "" });
  const theirs = expected[`componentsWith${expected["poolingAt0.25"] === "pool" ? "out" : ""}Interaction`];
  const study = JSON.parse(output) as {
    anova: { term: string; df: number }[];
    components: Record<string, number>;
    percentStudy: number;
    percentTolerance: number;
    ndc: number;
  };
  const { repeatability, operator, partByOperator, reproducibility, gauge, part, total } =
    theirs.varianceComponents;
  const named = {
    repeatability,
    operator,
    interaction: partByOperator,
    reproducibility,
    grr: gauge,
    part,
    total,
  };
  for (const [component, value] of Object.entries(named)) {
    expect(Math.abs(study.components[component]! - value!), component).toBeLessThan(1e-9 * value! + 1e-12);
  }
  expect(study.percentStudy / theirs.percentStudyVariation.gauge! - 1).toBeCloseTo(0, 9);
  expect(study.percentTolerance / theirs.percentTolerance.gauge! - 1).toBeCloseTo(0, 9);
  expect(study.ndc).toBe(theirs.distinctCategories);
  expect(study.anova.at(-1)).toMatchObject({ term: "total", df: input.measurements.flat(2).length - 1 });
});

test("without a tolerance there is no per cent of it, and a table for reading", async () => {
  const name = file(
    "plain.csv",
    textOf([
      [
        [1, 3],
        [3, 5],
      ],
      [
        [7, 9],
        [5, 7],
      ],
    ]),
  );
  const { output } = await run("gauge-study", name, "--json", "--upper", "9");
  expect(JSON.parse(output)).toMatchObject({ percentTolerance: null, ndc: 1, components: { grr: 5 } });
  expect((await run("gauge-study", name)).output).toContain("Classes told apart: 1.");
});

test.each([
  [
    "a missing reading",
    "part,operator,value\na,x,1\na,x,2\na,y,1\na,y,2\nb,x,1\nb,x,2\nb,y,1\n",
    /part b by operator y/,
  ],
  ["a trial given twice", "part,operator,trial,value\na,x,1,1\na,x,1,2\n", /line 3, field "trial": .*line 2/],
  ["a value that is no number", "part,operator,value\na,x,wide\n", /line 2, field "value"/],
  ["a part without a name", "part,operator,value\n,x,1\n", /line 2, field "part"/],
  ["one operator only", "part,operator,value\na,x,1\na,x,2\nb,x,1\nb,x,2\n", /number of operators/],
])("refused, %s: exit 1 and one line", async (_, text, expected) => {
  const { code, errors } = await run("gauge-study", file("bad.csv", text), "--json");
  expect(code).toBe(1);
  expect(errors).toMatch(expected);
  expect(errors.trimEnd().split("\n")).toHaveLength(1);
});

test.each([
  [["--lower", "wide"], /--lower takes a number/],
  [["--lower", "2", "--upper", "1"], /must be below/],
])("wrong usage %j: exit 2", async (options, expected) => {
  const { code, errors } = await run("gauge-study", file("any.csv", "part,operator,value\n"), ...options);
  expect(code).toBe(2);
  expect(errors).toMatch(expected);
});
