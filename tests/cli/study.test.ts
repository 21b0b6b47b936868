import ExcelJS from "exceljs";
import { describe, expect, test } from "vitest";
import constants from "../reference/constants.json";
import days from "../reference/days-by-hours.json";
import flow from "../reference/flow-rate.json";
import gears from "../reference/gear-diameter.json";
import lines from "../reference/lithography-line-width.json";
import { commandLine } from "./command";
import { CAPABILITY_KEYS, INDICES, type StudyJson } from "./study-json";
import { columnsOf, minute, type TidyRow, tableOf, tidyFile } from "./tidy-file";

const { run, json, file } = commandLine();

async function studied(name: string, ...options: string[]) {
  const { features } = await json<StudyJson>("study", name, ...options);
  return features;
}

async function onlyFeature(name: string, ...options: string[]) {
  const features = await studied(name, ...options);
  expect(features).toHaveLength(1);
  return features[0]!;
}

const singly = (values: readonly number[], feature = "bore"): TidyRow[] =>
  values.map((value) => ({ feature, value }));

/** A value of a reference file by its name there. */
function printed(set: { printed: { name: string; printed: unknown }[] }, name: string): number {
  return set.printed.find((one) => one.name === name)?.printed as number;
}

const DAYS: TidyRow[] = days.subgroups.flatMap((values, day) =>
  values.map((value) => ({ feature: "dimension", value, subgroup: day + 1 })),
);

describe("the document", () => {
  const rows: TidyRow[] = [
    ...[10.01, 9.99, 10.02, 10, 9.98, 10.9, 10.01, 10].map((value, i) => ({
      part: "P-1",
      feature: "bore",
      value,
      lower_tolerance: 9.9,
      upper_tolerance: 10.1,
      nominal: 10,
      taken_at: minute(i),
    })),
    { part: "P-1", feature: "slot", value: 3, taken_at: minute(9) },
  ];

  test("has exactly these keys, in the order of the file's features", async () => {
    const [bore, slot, ...none] = await studied(file("two.csv", tidyFile(rows)));
    expect(none).toEqual([]);
    expect([bore?.feature, slot?.feature]).toEqual(["bore", "slot"]);
    const keys = ["part", "feature", "count", "chart", "subgroups", "limits", "signals", "capability"];
    expect(Object.keys(bore!)).toEqual(keys);
    expect(Object.keys(bore!.limits!)).toEqual(["centre", "sigma", "estimator", "location", "spread"]);
    expect(Object.keys(bore!.limits!.location)).toEqual(["lower", "upper"]);
    expect(Object.keys(bore!.limits!.spread!).sort()).toEqual(["centre", "lower", "upper"]);
    expect(Object.keys(bore!.signals[0]!)).toEqual(["chart", "rule", "at", "members"]);
    expect(Object.keys(bore!.capability)).toEqual(CAPABILITY_KEYS);
    expect(Object.keys(bore!.capability.intervals)).toEqual([...INDICES]);
    expect(Object.keys(bore!.capability.lowerBounds)).toEqual([...INDICES]);
    expect(Object.keys(bore!.capability.normality!)).toEqual(["A2", "p"]);
    expect(Object.keys(bore!.capability.gates[0]!)).toEqual(["gate", "passed", "reason"]);
  });

  test("says null for what a single reading without tolerance cannot carry", async () => {
    const [, slot] = await studied(file("two.csv", tidyFile(rows)));
    expect(slot).toMatchObject({ part: "P-1", count: 1, chart: "i-mr", limits: null, signals: [] });
    const { capability } = slot!;
    expect(capability).toMatchObject({ count: 1, mean: 3, sdOverall: null, sigmaWithin: null });
    expect(capability).toMatchObject({ estimator: null, normality: null, model: "normal" });
    for (const name of INDICES) {
      expect(capability[name]).toBeNull();
      expect(capability.intervals[name]).toBeNull();
      expect(capability.lowerBounds[name]).toBeNull();
    }
    expect(capability.expectedOutside).toEqual({ below: null, above: null });
    expect(capability.observedOutside).toEqual({ below: null, above: null });
  });

  test("keeps every digit", async () => {
    // The mean of 0.1 and 0.2 in doubles has 17 digits.
    const { capability } = await onlyFeature(file("digits.csv", tidyFile(singly([0.1, 0.2]))));
    expect(capability.mean).toBe((0.1 + 0.2) / 2);
  });

  test("without --json there is one line a feature under a heading", async () => {
    const { code, output } = await run("study", file("two.csv", tidyFile(rows)));
    expect(code).toBe(0);
    const table = output.trimEnd().split("\n");
    expect(table).toHaveLength(3);
    expect(table[0]).toMatch(/part +feature +readings +chart/);
    expect(table[1]).toMatch(/P-1 +bore +8 +i-mr/);
  });
});

describe("published", () => {
  test(`${flow.source}`, async () => {
    const { limits, signals, capability } = await onlyFeature(
      file("flow.csv", tidyFile(singly(flow.data.values))),
      "--chart",
      "i-mr",
    );
    // d2 is printed as 1.128 and is 2/√π: 3σ̂ = 4.99 differs by 0.034 %, so the limits by up to 0.0018.
    expect(capability.mean).toBeCloseTo(printed(flow, "mean"), 10);
    expect(Math.abs(limits!.spread!.centre - printed(flow, "mean moving range"))).toBeLessThan(5e-5);
    expect(Math.abs(limits!.location.upper - printed(flow, "UCL"))).toBeLessThan(0.0018);
    expect(Math.abs(limits!.location.lower - printed(flow, "LCL"))).toBeLessThan(0.0018);
    // With the exact constant, recomputed by another program to its ten decimals.
    const exact = (name: string) => flow.computed.find((one) => one.name === name)!.value;
    expect(limits!.location.upper).toBeCloseTo(exact("UCL with d2 = 2/sqrt(pi)"), 9);
    expect(limits!.location.lower).toBeCloseTo(exact("LCL with d2 = 2/sqrt(pi)"), 9);
    // "In control, no point outside either chart."
    expect(signals.filter(({ rule }) => rule === "beyond-3s")).toEqual([]);
  });

  const computed = (name: string) => days.computed.find((one) => one.name === name)!.value;

  test(`${days.source}: means and ranges`, async () => {
    const { chart, subgroups, limits, signals } = await onlyFeature(
      file("days.csv", tidyFile(DAYS)),
      "--rules",
      "beyond-3s",
    );
    expect({ chart, subgroups }).toEqual({ chart: "xbar-r", subgroups: 25 });
    expect(limits!.estimator).toBe("mean-range");
    expect(limits!.centre).toBeCloseTo(computed("grand mean") as number, 10);
    expect(limits!.spread!.centre).toBeCloseTo(computed("mean range") as number, 10);
    const [upper, lower] = computed("X-bar limits by range, exact constants") as [number, number];
    // Recomputed to five decimals.
    expect(Math.abs(limits!.location.upper - upper)).toBeLessThan(5e-6);
    expect(Math.abs(limits!.location.lower - lower)).toBeLessThan(5e-6);
    const { D4 } = constants.cases.find(({ input }) => input.subgroupSize === 5)!.expected as { D4: number };
    expect(limits!.spread!.upper).toBeCloseTo(1.352 * D4, 9);
    expect(limits!.spread!.lower).toBe(0);
    // No day lies outside either chart.
    expect(signals).toEqual([]);
  });

  test(`${days.source}: the same from a table written column by column, without times`, async () => {
    const byHour = [0, 1, 2, 3, 4].flatMap((hour) => DAYS.filter((_, at) => at % 5 === hour));
    const asWritten = await onlyFeature(file("days.csv", tidyFile(DAYS)));
    const gathered = await onlyFeature(file("hours.csv", tidyFile(byHour)));
    expect(gathered.subgroups).toBe(25);
    expect(gathered.limits).toEqual(asWritten.limits);
    expect(gathered.signals).toEqual(asWritten.signals);
    expect(gathered.capability).toEqual(asWritten.capability);
  });

  test(`${days.source}: means and standard deviations`, async () => {
    const { limits, signals } = await onlyFeature(
      file("days.csv", tidyFile(DAYS)),
      "--chart",
      "xbar-s",
      "--rules",
      "beyond-3s",
    );
    expect(limits!.estimator).toBe("mean-sd");
    expect(limits!.spread!.centre).toBeCloseTo(computed("mean sd") as number, 10);
    const [upper, lower] = computed("X-bar limits by s, exact A3") as [number, number];
    expect(Math.abs(limits!.location.upper - upper)).toBeLessThan(5e-7);
    expect(Math.abs(limits!.location.lower - lower)).toBeLessThan(5e-7);
    expect(limits!.spread!.upper).toBeCloseTo(computed("s UCL, exact B4") as number, 9);
    expect(signals).toEqual([]);
  });

  test(`${gears.source}: ten batches of ten`, async () => {
    const { batch, diameter } = gears.data;
    const rows = diameter.map((value, i) => ({ feature: "diameter", value, subgroup: batch[i]! }));
    const { chart, subgroups, limits, capability } = await onlyFeature(file("gears.csv", tidyFile(rows)));
    expect({ chart, subgroups, count: capability.count }).toEqual({
      chart: "xbar-s",
      subgroups: 10,
      count: 100,
    });
    // The printed batch means have five decimals, and so has their mean.
    const means = gears.printed.find(({ name }) => name === "batch means")!.printed as number[];
    const centre = means.reduce((sum, value) => sum + value, 0) / 10;
    expect(Math.abs(limits!.centre - centre)).toBeLessThan(5e-6);
    expect(Math.abs(capability.sdOverall! - printed(gears, "standard deviation"))).toBeLessThan(5e-5);
  });

  test(`${lines.source}: 450 readings that resemble their neighbours`, async () => {
    const rows = singly(lines.data.line_width, "line width");
    const { capability } = await onlyFeature(file("lines.csv", tidyFile(rows)), "--chart", "i-mr");
    expect(capability.count).toBe(450);
    expect(Math.abs(capability.mean! - printed(lines, "mean"))).toBeLessThan(0.005);
    expect(Math.abs(capability.sdOverall! - printed(lines, "standard deviation"))).toBeLessThan(0.005);
    const r = lines.recomputed.find(({ name }) => name.startsWith("lag-1"))!.value as number;
    const independent = capability.gates.find(({ gate }) => gate === "independent");
    expect(independent).toMatchObject({ passed: false });
    expect(independent!.reason).toContain(`autocorrelation ${r.toFixed(2)} over 450 points`);
  });
});

describe("the same measurements in another form give the same document", () => {
  const rows: TidyRow[] = days.subgroups.flatMap((values, day) =>
    values.map((value, hour) => ({
      piece: `${day}-${hour}`,
      taken_at: minute(60 * day + hour),
      part: "P-1",
      feature: "dimension",
      nominal: 13,
      lower_tolerance: 10.5,
      upper_tolerance: 15.5,
      unit: "mm",
      value,
      lot: `L${Math.floor(day / 5)}`,
    })),
  );
  const options = ["--subgroup", "5", "--baseline", "first:20"];
  let asCsv: ReturnType<typeof studied> | undefined;
  const plain = () => {
    asCsv ??= studied(file("plain.csv", tidyFile(rows)), ...options);
    return asCsv;
  };

  test("rows out of the order of time are put in order", async () => {
    // 7 has no divisor in common with 125, so that these are all rows, thoroughly shuffled.
    const shuffled = rows.map((_, i) => rows[(7 * i) % rows.length]!);
    expect(await studied(file("shuffled.csv", tidyFile(shuffled)), ...options)).toEqual(await plain());
  });

  test("semicolons with decimal commas", async () => {
    const text = tidyFile(rows, { separator: ";", decimal: "," });
    expect(text).toContain("12,6");
    expect(await studied(file("commas.csv", text), ...options)).toEqual(await plain());
  });

  test("a byte order mark, Windows line ends, quotes and other columns beside", async () => {
    const [header, ...body] = tidyFile(rows).trimEnd().split("\n");
    const quoted = [`${header},remark`, ...body.map((line) => `${line},"a, b"`)];
    const text = `\uFEFF${quoted.join("\r\n")}\r\n`;
    expect(await studied(file("quoted.csv", text), ...options)).toEqual(await plain());
  });

  test("a spreadsheet", async () => {
    const workbook = new ExcelJS.Workbook();
    const sheet = workbook.addWorksheet("Measurements");
    sheet.addRow(columnsOf(rows));
    for (const cells of tableOf(rows)) sheet.addRow(cells);
    const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
    expect(await studied(file("sheet.xlsx", bytes), ...options)).toEqual(await plain());
  });

  test("without times the rows stand in the order of the file", async () => {
    const untimed = rows.map(({ taken_at: _, ...row }) => row);
    expect(await studied(file("untimed.csv", tidyFile(untimed)), ...options)).toEqual(await plain());
    const [turned] = await studied(file("turned.csv", tidyFile(untimed.toReversed())), ...options);
    const [ordered] = await plain();
    expect(turned!.limits!.centre).not.toBeCloseTo(ordered!.limits!.centre, 6);
  });

  test("by hand: inches beside millimetres count in the unit that came first", async () => {
    const text = "feature,value,unit,lower_tolerance\nbore,12.7,mm,12.7\nbore,0.5,in,0.5\nbore,0.51,in,0.5\n";
    const { capability } = await onlyFeature(file("inches.csv", text));
    // 0.5 in = 12.7 mm and 0.51 in = 12.954 mm.
    expect(capability.mean).toBeCloseTo((12.7 + 12.7 + 12.954) / 3, 13);
    expect(capability.observedOutside).toEqual({ below: 0, above: null });
  });
});
