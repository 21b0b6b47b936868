import { describe, expect, test } from "vitest";
import { alarmBudget, measuringRate, type WatchedFeature } from "../../../lib/alarm-budget/alarm-budget";
import { OPERATOR_RATES, operatorLoad } from "../../../lib/alarm-budget/operator-rates";
import { SHIFTS_SHOWN, tradeOff } from "../../../lib/alarm-budget/trade-off";
import { RULE_SETS, RULES, ruleBySlug } from "../../../lib/rules/known-rules";

const simulation = { seed: 9, runs: 500 };
const LIMITS = RULE_SETS.LIMITS_ONLY.map(ruleBySlug);
const WESTERN = RULE_SETS.WESTERN.map(ruleBySlug);

const feature = (over: Partial<WatchedFeature> = {}): WatchedFeature => ({
  chart: "i-mr",
  subgroupSize: 1,
  rules: LIMITS,
  subgroupsPerShift: 10,
  ...over,
});

describe("the budget", () => {
  test("by hand: 60 features of single readings, 10 a shift, one false alarm in 105.33 readings", () => {
    const features = Array.from({ length: 60 }, () => feature());
    const budget = alarmBudget({ features, shiftHours: 8, simulation });
    expect(budget.total).toBeCloseTo(600 / 105.3309318196002, 9);
    expect(budget.features[0]!.shiftsBetween).toBeCloseTo(10.53309318196002, 9);
    expect(budget.load.level).toBe("acceptable");
    expect(budget.load.shareOfAcceptable).toBeCloseTo(600 / 105.3309318196002 / 48, 9);
  });

  test("by hand: a CUSUM beside it adds one in its published run length, and counts have no chart of spread", () => {
    // k = 0.5, h = 5, two-sided: 465.4 points (tests/reference/average-run-lengths.json).
    const cusum = { kind: "cusum", reference: 0.5, decisionInterval: 5, headStart: 0 } as const;
    const one = (over: Partial<WatchedFeature>) =>
      alarmBudget({ features: [feature(over)], shiftHours: 8, simulation });
    const plain = one({});
    const watched = one({ alsoWatch: cusum });
    expect(watched.memory).toBeCloseTo(10 / 465.444, 7);
    expect(watched.total).toBeCloseTo(plain.total + 10 / 465.444, 7);
    expect(one({ rules: [], alsoWatch: cusum }).total).toBeCloseTo(10 / 465.444, 7);

    const counts = one({ isCount: true });
    expect(plain.spread).toBeGreaterThan(0);
    expect(counts).toMatchObject({ spread: 0, location: plain.location, total: plain.location });
  });

  test("law: it is a sum over features, and grows with the measuring rate alone", () => {
    const a = feature({ chart: "xbar-r", subgroupSize: 5, rules: WESTERN });
    const b = feature({ chart: "xbar-s", subgroupSize: 10, subgroupsPerShift: 3 });
    const budgetOf = (...features: WatchedFeature[]) => alarmBudget({ features, shiftHours: 8, simulation });
    expect(budgetOf(a, b).total).toBeCloseTo(budgetOf(a).total + budgetOf(b).total, 12);
    const twice = { ...a, subgroupsPerShift: 20 };
    expect(budgetOf(twice).total).toBeCloseTo(2 * budgetOf(a).total, 12);
    const { location, spread, total } = budgetOf(a, b);
    expect(total).toBeCloseTo(location + spread, 12);
  });

  test("edge: no feature, no rules or no measuring means no alarms", () => {
    const { total, load } = alarmBudget({ features: [], shiftHours: 8, simulation });
    expect(total).toBe(0);
    expect(load.level).toBe("acceptable");
    const quiet = alarmBudget({
      features: [feature({ rules: [] }), feature({ subgroupsPerShift: 0 })],
      shiftHours: 8,
      simulation,
    });
    expect(quiet.total).toBe(0);
    expect(quiet.features.map(({ shiftsBetween }) => shiftsBetween)).toEqual([null, null]);
    expect(quiet.features[0]!.runs).toBeNull();
  });

  test.each([-1, Number.NaN, Number.POSITIVE_INFINITY])(
    "refused: %s subgroups per shift",
    (subgroupsPerShift) => {
      const features = [feature(), feature({ subgroupsPerShift })];
      const named = expect.objectContaining({ name: "InvalidInput", field: "features[1].subgroupsPerShift" });
      expect(() => alarmBudget({ features, shiftHours: 8, simulation })).toThrow(named);
    },
  );
});

describe("measuring rate", () => {
  test("by hand: 90 subgroups in 120 hours of running are 6 in a shift of 8", () => {
    expect(measuringRate({ subgroups: 90, hours: 120, shiftHours: 8 })).toBe(6);
  });

  test.each([
    ["subgroups", { subgroups: -1, hours: 1, shiftHours: 8 }],
    ["hours", { subgroups: 1, hours: 0, shiftHours: 8 }],
    ["shiftHours", { subgroups: 1, hours: 1, shiftHours: Number.NaN }],
  ])("refused: %s", (field, rate) => {
    expect(() => measuringRate(rate)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });
});

describe("what one operator can take up", () => {
  test("ANSI/ISA-18.2 (from memory): one alarm in ten minutes acceptable, two the most", () => {
    expect(OPERATOR_RATES.acceptable.perHour).toBe(6);
    expect(OPERATOR_RATES.mostManageable.perHour).toBe(12);
    const level = (perShift: number) => operatorLoad({ perShift, shiftHours: 8 }).level;
    expect([48, 48.1, 96, 96.1].map(level)).toEqual(["acceptable", "heavy", "heavy", "too many"]);
  });

  test("the sentence has the numbers, and advice where it is needed", () => {
    const { sentence } = operatorLoad({ perShift: 0.4231, shiftHours: 8 });
    expect(sentence).toMatch(/0\.42 .*8 h.* 48 /);
    expect(operatorLoad({ perShift: 130, shiftHours: 8 }).sentence).toMatch(/130 .*48 .*rules off/);
  });

  test.each([
    ["perShift", { perShift: -1, shiftHours: 8 }],
    ["shiftHours", { perShift: 1, shiftHours: 0 }],
  ])("refused: %s", (field, given) => {
    expect(() => operatorLoad(given)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });
});

describe("rules on and off", () => {
  const features = [
    { chart: "xbar-r" as const, subgroupSize: 5, subgroupsPerShift: 4 },
    { chart: "xbar-r" as const, subgroupSize: 5, subgroupsPerShift: 8 },
    { chart: "xbar-r" as const, subgroupSize: 5, subgroupsPerShift: 30 },
  ];
  const question = { features, shifts: SHIFTS_SHOWN, shiftHours: 8, simulation };
  const rows = tradeOff({ ...question, inForce: WESTERN, candidates: RULES.slice(0, 5) });

  test("first what is in force, then each rule off, then each other one on", () => {
    const changes = rows.map(({ change }) =>
      change.kind === "in force" ? "in force" : `${change.kind} ${change.rule}`,
    );
    expect(changes).toEqual([
      "in force",
      "off beyond-3s",
      "off two-of-three-2s",
      "off four-of-five-1s",
      "off eight-one-side",
      "on nine-one-side",
    ]);
  });

  test("Champ and Woodall (1987), from memory: detection at 1 and 2 sigma of the four rules", () => {
    const [inForce] = rows;
    const at = (shift: number) => inForce!.detection.find((one) => one.shift === shift)!;
    expect(at(1).subgroups).toBeCloseTo(9.22, 2);
    expect(at(2).subgroups).toBeCloseTo(3.13, 2);
    // The median feature has 8 subgroups a shift.
    expect(at(1).shiftsOfWork).toBeCloseTo(at(1).subgroups! / 8, 12);
    expect(at(1).standardError).toBeNull();
  });

  test("law: a rule less means fewer false alarms and later notice, a rule more the contrary", () => {
    const [inForce, ...others] = rows;
    for (const row of others) {
      const isOff = row.change.kind === "off";
      expect(Math.sign(row.difference)).toBe(isOff ? -1 : Math.sign(row.difference) || 0);
      expect(row.difference).toBeCloseTo(row.perShift.total - inForce!.perShift.total, 12);
      row.detection.forEach((one, i) => {
        const before = inForce!.detection[i]!.subgroups!;
        if (isOff) expect(one.subgroups!).toBeGreaterThanOrEqual(before * (1 - 1e-9));
        else expect(one.subgroups!).toBeLessThanOrEqual(before * (1 + 1e-9));
      });
    }
  });

  test("edge: the only rule cannot be switched off; features that are never measured have no delay in shifts", () => {
    const idle = features.map((one) => ({ ...one, subgroupsPerShift: 0 }));
    const only = tradeOff({ ...question, features: idle, inForce: LIMITS, candidates: LIMITS });
    expect(only).toHaveLength(1);
    expect(only[0]!.detection[0]!.shiftsOfWork).toBeNull();
  });

  test("law: a table of many features says of what is in force what the budget of all of them says", () => {
    const cusum = { kind: "cusum", reference: 0.5, decisionInterval: 5, headStart: 0 } as const;
    const plant = Array.from({ length: 40 }, (_, i) => ({
      ...features[0]!,
      subgroupSize: 2 + (i % 3),
      subgroupsPerShift: 0.1 * i,
      alsoWatch: i % 4 === 0 ? cusum : null,
      isCount: i % 5 === 0,
    }));
    const [inForce] = tradeOff({ ...question, features: plant, inForce: WESTERN, candidates: [] });
    const { location, spread, memory, total } = alarmBudget({
      features: plant.map((one) => ({ ...one, rules: WESTERN })),
      shiftHours: question.shiftHours,
      simulation,
    });
    for (const [part, figure] of Object.entries({ location, spread, memory, total }))
      expect(inForce!.perShift[part as "total"], part).toBeCloseTo(figure, 10);
  });

  test.each([
    ["inForce.length", { ...question, inForce: [], candidates: [] }],
    ["features.length", { ...question, features: [], inForce: LIMITS, candidates: [] }],
  ])("refused: %s", (field, given) => {
    expect(() => tradeOff(given)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });

  test("a table of Western Electric rules for 10,000 features takes well under half a second", () => {
    const plant = Array.from({ length: 10_000 }, (_, i) => ({ ...features[0]!, subgroupSize: 2 + (i % 8) }));
    const begun = process.cpuUsage();
    tradeOff({ ...question, features: plant, inForce: WESTERN, candidates: RULES.slice(0, 5) });
    expect(process.cpuUsage(begun).user).toBeLessThan(500_000);
  });
});
