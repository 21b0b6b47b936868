import { expect, test } from "vitest";
import reference from "../reference/capability.json";
import { commandLine } from "./command";

const { run, file } = commandLine();

type Case = {
  id: string;
  input: { values: number[]; upperLimit: number };
  expected: { fittedDistributions: Record<string, { percentileIndices: { Ppk: number } }> };
};
const { input, expected } = (reference.cases as unknown as Case[]).find(
  ({ id }) => id === "position-deviation-80",
)!;

const rows = input.values.map((value, i) => `p${i},position of bore,0,${input.upperLimit},${value}`);
const text = `piece,feature,lower_tolerance,upper_tolerance,value\n${rows.join("\n")}\n`;

type Feature = {
  model: string;
  Ppk: number | null;
  Cpk: number | null;
  lowerBounds: { Ppk: number };
  gates: { gate: string }[];
};
const featureOf = async (...options: string[]) => {
  const { code, output, errors } = await run("capability", file("position.csv", text), ...options, "--json");
  expect({ code, errors }).toEqual({ code: 0, errors: expect.stringContaining("in the order of the file") });
  return (JSON.parse(output) as { features: [Feature] }).features[0];
};

test.each([
  ["lognormal", "lognormal"],
  ["weibull", "weibull"],
  ["rayleigh", "rayleigh"],
  ["folded-normal", "foldedNormal"],
  // The name says it is a position: Rayleigh comes first, and fits.
  ["auto", "rayleigh"],
])("computed independently: Ppk by --model %s", async (model, theirs) => {
  const feature = await featureOf("--model", model);
  const { Ppk } = expected.fittedDistributions[theirs]!.percentileIndices;
  expect(feature.Ppk! / Ppk - 1).toBeCloseTo(0, 6);
  expect(feature.lowerBounds.Ppk).toBeLessThan(Ppk);
  expect(feature.Cpk).toBeNull();
  expect(feature.gates.map(({ gate }) => gate)).toContain("distribution");
});

test("normal is what it is without the option", async () => {
  expect(await featureOf("--model", "normal")).toEqual(await featureOf());
});

test("a model nobody knows is wrong usage", async () => {
  const { code, errors } = await run("capability", file("position.csv", text), "--model", "gamma");
  expect(code).toBe(2);
  expect(errors).toContain("lognormal");
});
