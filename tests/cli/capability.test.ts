import { describe, expect, test } from "vitest";
import reference from "../reference/capability.json";
import definition from "../reference/capability-definition.json";
import furnace from "../reference/furnace-film-thickness.json";
import { commandLine } from "./command";
import { CAPABILITY_KEYS, type CapabilityJson, INDICES } from "./study-json";
import { type TidyRow, tidyFile } from "./tidy-file";

const { run, json, file } = commandLine();

type Feature = { part: string; feature: string } & CapabilityJson;

async function capabilities(rows: readonly TidyRow[], ...options: string[]): Promise<Feature[]> {
  const name = file("rows.csv", tidyFile(rows));
  const { features } = await json<{ features: Feature[] }>("capability", name, ...options);
  return features;
}

function printed(set: { printed: { name: string; printed: unknown }[] }, name: string): number {
  return set.printed.find((one) => one.name === name)?.printed as number;
}

describe("the document", () => {
  test("has exactly these keys", async () => {
    const rows = [9.99, 10, 10.01, 10.02, 9.98, 10].map((value) => ({
      part: "P-1",
      feature: "bore",
      value,
      upper_tolerance: 10.1,
    }));
    const [bore, ...none] = await capabilities(rows);
    expect(none).toEqual([]);
    expect(Object.keys(bore!)).toEqual(["part", "feature", ...CAPABILITY_KEYS]);
    expect(Object.keys(bore!.intervals)).toEqual([...INDICES]);
    expect(Object.keys(bore!.lowerBounds)).toEqual([...INDICES]);
    expect(bore!.gates.map(({ gate }) => gate)).toEqual([
      "stable",
      "enough",
      "normal",
      "gauge",
      "independent",
      "resolution",
    ]);
    for (const { reason } of bore!.gates) expect(reason).toMatch(/\.$/);
  });

  test("one tolerance limit gives the index of its side and null elsewhere", async () => {
    const rows = [1, 2, 3, 2].map((value) => ({ feature: "bore", value, upper_tolerance: 8 }));
    const [bore] = await capabilities(rows);
    for (const name of ["Cp", "Cpl", "Pp", "Ppl", "Cpm"] as const) {
      expect(bore![name]).toBeNull();
      expect(bore!.intervals[name]).toBeNull();
    }
    expect(bore!.Ppk).toBe(bore!.Ppu);
    // By hand: mean 2 and s = √(2/3), so (8 − 2)/3s = √6.
    expect(bore!.Ppu).toBeCloseTo(Math.sqrt(6), 13);
    expect(bore!.expectedOutside.below).toBeNull();
    expect(bore!.observedOutside).toEqual({ below: null, above: 0 });
  });

  test("no index is taken against the natural bound of a form deviation", async () => {
    const rows = [0.01, 0.02, 0.03, 0.02].map((value) => ({
      feature: "flatness A",
      value,
      lower_tolerance: 0,
      upper_tolerance: 0.08,
    }));
    const [flatness] = await capabilities(rows);
    expect(flatness).toMatchObject({ Pp: null, Ppl: null });
    expect(flatness!.Ppk).toBeCloseTo(Math.sqrt(6), 12);
  });

  test("readings that are all alike give no index, and the gates say why", async () => {
    const rows = [5, 5, 5, 5, 5].map((value) => ({ feature: "bore", value, upper_tolerance: 6 }));
    const [bore] = await capabilities(rows);
    expect(bore).toMatchObject({ count: 5, mean: 5, sdOverall: 0, Ppk: null, normality: null });
    expect(bore!.gates.find(({ gate }) => gate === "normal")).toMatchObject({ passed: null });
  });

  test("without --json there is one sentence a feature", async () => {
    const name = file("words.csv", "part,feature,value,upper_tolerance\nP-1,bore,1,3\nP-1,bore,2,3\n");
    const { code, output } = await run("capability", name);
    expect(code).toBe(0);
    expect(output).toMatch(/^P-1 bore: [^\n]+\n$/);
  });
});

describe("published", () => {
  test(`${definition.source}: USL 20, LSL 8, mean 16, s 2`, async () => {
    const { USL, LSL } = definition.data;
    // 14, 16 and 18 have the mean 16 and, with n − 1, the standard deviation 2.
    const rows = [14, 16, 18].map((value) => ({
      feature: "x",
      value,
      lower_tolerance: LSL,
      upper_tolerance: USL,
    }));
    const [x] = await capabilities(rows);
    // The page takes the standard deviation of all readings, so its Cp is our Pp. Printed to four decimals.
    for (const [theirs, ours] of [
      ["Cp", "Pp"],
      ["Cpk", "Ppk"],
      ["Cpl", "Ppl"],
      ["Cpu", "Ppu"],
    ] as const) {
      expect(Math.abs(x![ours]! - printed(definition, theirs))).toBeLessThan(5e-5);
    }
  });

  test(`${furnace.source}: 168 film thicknesses`, async () => {
    const rows = furnace.data.thickness_angstrom.map((value) => ({
      feature: "film thickness",
      value,
      nominal: printed(furnace, "target"),
      lower_tolerance: printed(furnace, "LSL"),
      upper_tolerance: printed(furnace, "USL"),
    }));
    const [film] = await capabilities(rows);
    const half = { four: 5e-5, five: 5e-6 };
    expect(film!.count).toBe(printed(furnace, "n"));
    expect(Math.abs(film!.mean! - printed(furnace, "mean"))).toBeLessThan(half.four);
    expect(Math.abs(film!.sdOverall! - printed(furnace, "standard deviation"))).toBeLessThan(half.four);
    // The page calls its indices Cp, Cpk and so on but takes the standard deviation of all readings.
    for (const [theirs, ours] of [
      ["Cp", "Pp"],
      ["Cpk", "Ppk"],
      ["Cpl", "Ppl"],
      ["Cpu", "Ppu"],
      ["Cpm", "Cpm"],
    ] as const) {
      expect(Math.abs(film![ours]! - printed(furnace, theirs)), ours).toBeLessThan(half.five);
    }
    for (const [theirs, ours] of [
      ["Cp", "Pp"],
      ["Cpk", "Ppk"],
      ["Cpm", "Cpm"],
    ] as const) {
      const [lower, upper] = film!.intervals[ours]!;
      expect(Math.abs(lower - printed(furnace, `${theirs} 95% CI low`)), ours).toBeLessThan(half.five);
      expect(Math.abs(upper - printed(furnace, `${theirs} 95% CI high`)), ours).toBeLessThan(half.five);
    }
    // In percent; the page's sum and its lower tail differ from the exact tails by up to 1e-5.
    const { below, above } = film!.expectedOutside;
    expect(Math.abs(100 * below! - printed(furnace, "% below LSL (normal model)"))).toBeLessThan(1e-5);
    expect(Math.abs(100 * above! - printed(furnace, "% above USL (normal model)"))).toBeLessThan(half.five);
    expect(film!.observedOutside).toEqual({ below: 0, above: 0 });
    // The charted runs differ far more than their wafers: Cp takes the smaller spread between neighbours.
    expect(film!.Cp!).toBeGreaterThan(film!.Pp!);
  });
});

type Case = {
  id: string;
  input: {
    values: number[] | null;
    subgroups: number[][] | null;
    lowerLimit: number | null;
    target: number | null;
    upperLimit: number | null;
  };
  expected: {
    count: number;
    mean: number;
    overallStandardDeviation: number;
    withinSigma: { meanMovingRangeOverD2?: number; meanRangeOverD2?: number };
    indicesByWithinSigma: Record<string, Partial<Record<(typeof INDICES)[number], number>>>;
    overallIndices: Partial<Record<(typeof INDICES)[number], number>>;
    Cpm?: number;
    confidenceIntervals: Record<string, number | number[]>;
    expectedOutsideNormalOverall: { below: number; above: number };
    observedOutside: { below: number; above: number };
    andersonDarling: { statistic: number; pValue: number };
  };
};

describe(`computed independently: ${reference.source}`, () => {
  const cases = reference.cases as unknown as Case[];
  // Named by their places: a word such as runout in the name would tell the kind of feature.
  const rows = cases.flatMap(({ input }, place) => {
    const grouped = input.subgroups ?? input.values!.map((value) => [value]);
    return grouped.flatMap((values, number) =>
      values.map(
        (value): TidyRow => ({
          feature: `x${place}`,
          value,
          nominal: input.target,
          lower_tolerance: input.lowerLimit,
          upper_tolerance: input.upperLimit,
          subgroup: input.subgroups ? `s${number}` : "",
        }),
      ),
    );
  });
  let features: Promise<Feature[]> | undefined;
  const found = async (place: number) => {
    features ??= capabilities(rows);
    return (await features)[place]!;
  };
  const near = (ours: number | null | undefined, theirs: number, relative = 1e-10) => {
    expect(ours).not.toBeNull();
    expect(Math.abs(ours! - theirs)).toBeLessThanOrEqual(relative * Math.abs(theirs));
  };

  test.each(cases.map(({ id }, place) => [id, place] as const))("%s", async (_, place) => {
    const ours = await found(place);
    const { expected, input } = cases[place]!;
    expect(ours).toMatchObject({ feature: `x${place}`, count: expected.count });
    near(ours.mean, expected.mean);
    near(ours.sdOverall, expected.overallStandardDeviation);
    const estimator = input.subgroups ? "meanRangeOverD2" : "meanMovingRangeOverD2";
    near(ours.sigmaWithin, expected.withinSigma[estimator]!);
    const indices = { ...expected.indicesByWithinSigma[estimator], ...expected.overallIndices };
    for (const [name, value] of Object.entries(indices)) {
      near(ours[name as (typeof INDICES)[number]], value as number);
    }
    if (expected.Cpm !== undefined && expected.Cpm !== null) near(ours.Cpm, expected.Cpm);

    const intervals = expected.confidenceIntervals;
    for (const [key, name, relative] of [
      ["PpChiSquare", "Pp", 1e-10],
      ["PpkBissell", "Ppk", 1e-10],
      ["PplExactNoncentralTTwoSided", "Ppl", 1e-7],
      ["PpuExactNoncentralTTwoSided", "Ppu", 1e-7],
    ] as const) {
      const both = intervals[key] as [number, number] | undefined;
      if (!both) continue;
      near(ours.intervals[name]![0], both[0], relative);
      near(ours.intervals[name]![1], both[1], relative);
      const oneSided = intervals[`${key.replace("TwoSided", "")}LowerOneSided`] as number;
      near(ours.lowerBounds[name], oneSided, relative);
    }

    for (const [side, limit] of [
      ["below", input.lowerLimit],
      ["above", input.upperLimit],
    ] as const) {
      if (limit === null) {
        expect([ours.expectedOutside[side], ours.observedOutside[side]]).toEqual([null, null]);
        continue;
      }
      near(ours.expectedOutside[side], expected.expectedOutsideNormalOverall[side], 1e-9);
      expect(ours.observedOutside[side]).toBe(expected.observedOutside[side]);
    }
    near(ours.normality!.A2, expected.andersonDarling.statistic, 1e-8);
    near(ours.normality!.p, expected.andersonDarling.pValue, 1e-6);
  });
});
