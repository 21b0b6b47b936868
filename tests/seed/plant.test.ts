import { describe, expect, test } from "vitest";
import { DEFAULT_REACTIONS } from "../../lib/alarms/default-reactions";
import { InvalidInput } from "../../lib/checks";
import { SOURCE_KINDS } from "../../lib/measurements/series";
import { CHART_KINDS, FEATURE_KINDS } from "../../lib/plan/feature-plan";
import { ruleBySlug } from "../../lib/rules/known-rules";
import { calendarUntil, DEFAULT_ENDS_AT, plantTime } from "../../seed/demo/calendar";
import { demoLots } from "../../seed/demo/lots";
import { DEMO_ACCOUNTS } from "../../seed/demo/people";
import { FEATURES, PARTS, SOURCES, sourceEvents } from "../../seed/demo/plant";
import { ASSIGNED_CAUSES } from "../../seed/demo/reactions";
import { TOOLS } from "../../seed/demo/tools";
import { LOCATOR, PLANTED_FAULTS } from "../../seed/truth";

const WEEK = 7 * 24 * 3600 * 1000;
const names = new Set(FEATURES.map(({ part, name }) => `${part} ${name}`));

describe("the shop", () => {
  test("four parts, 60 features with names of their own, a dozen tools, four fixtures, three gauges, five operators", () => {
    expect(PARTS).toHaveLength(4);
    expect(FEATURES).toHaveLength(60);
    expect(names.size).toBe(60);
    const count = (kind: string) => SOURCES.filter((source) => source.kind === kind).length;
    expect(["tool", "fixture", "gauge", "operator", "machine"].map(count)).toEqual([12, 4, 3, 5, 4]);
    expect(TOOLS.every((tool) => FEATURES.some((feature) => feature.tool === tool.code))).toBe(true);
  });

  test.each(FEATURES.map((feature) => [`${feature.part} ${feature.name}`, feature] as const))(
    "plan of %s",
    (_, feature) => {
      const { plan } = feature;
      expect(FEATURE_KINDS).toContain(feature.kind);
      expect(CHART_KINDS).toContain(plan.chart);
      expect(plan.subgroupSize === 1).toBe(plan.chart === "i-mr");
      for (const slug of plan.rules) expect(ruleBySlug(slug).slug).toBe(slug);
      const { lower, upper } = plan.tolerance;
      expect(upper).not.toBeNull();
      expect((lower ?? plan.naturalBound ?? Number.NEGATIVE_INFINITY) < upper!).toBe(true);
      expect(feature.process.mean).toBeLessThan(upper!);
      expect(feature.process.mean).toBeGreaterThan(lower ?? plan.naturalBound ?? 0);
    },
  );

  test("each kind of everyday exception is there", () => {
    const some = (claim: (feature: (typeof FEATURES)[number]) => boolean) => FEATURES.filter(claim).length;
    expect(some(({ unit }) => unit === "in")).toBe(1);
    expect(some(({ plan }) => plan.chart === "xbar-s" && plan.subgroupSize === 10)).toBe(1);
    expect(some(({ plan }) => plan.chart === "i-mr")).toBe(3);
    expect(some(({ plan }) => plan.reduction !== null)).toBe(6);
    expect(some(({ plan }) => plan.tolerance.lower === null && plan.naturalBound === null)).toBe(1);
    expect(some(({ name }) => name.length > 60)).toBe(1);
    expect(some(({ key }) => key)).toBeGreaterThan(8);
  });

  test("what the truth names exists, and nothing both moves and stays", () => {
    for (const fault of PLANTED_FAULTS) {
      const moved = fault.moved.map(({ part, feature }) => `${part} ${feature}`);
      const untouched = fault.untouched.map(({ part, feature }) => `${part} ${feature}`);
      for (const name of [...moved, ...untouched]) expect(names).toContain(name);
      expect(moved.filter((name) => untouched.includes(name))).toEqual([]);
      for (const code of [fault.since, fault.until]) {
        if (code !== null) expect(demoLots().some((lot) => lot.code === code)).toBe(true);
      }
      if (fault.source) expect(SOURCES).toContainEqual(expect.objectContaining(fault.source));
    }
  });

  test("by hand: the forecast of the worn locator", () => {
    // L-0241 is the 11th lot: 0.001 + 10 · 0.002 = 0.021. The mean is then 38 + 0.021 + 0.021 = 38.042,
    // the limit 38.060: 0.018 / 0.002 = 9 lots of 5 pieces in FX-2.
    const depth = FEATURES.find(({ name }) => name === LOCATOR.firstToMeetTolerance.feature)!;
    const final = LOCATOR.step + LOCATOR.perLot * (LOCATOR.lastLot - LOCATOR.firstLot);
    expect(final).toBeCloseTo(0.021, 12);
    const left = depth.plan.tolerance.upper! - depth.process.mean - final;
    expect((left / LOCATOR.perLot) * 5).toBeCloseTo(LOCATOR.firstToMeetTolerance.piecesLeft, 6);
  });
});

describe("the calendar", () => {
  const calendar = calendarUntil(DEFAULT_ENDS_AT);

  test("by hand: week 0 begins on Monday 17 August 2026, 06:00 in summer time, which is 04:00 UTC", () => {
    expect(new Date(calendar.at({ week: 0, shift: 0 })).toISOString()).toBe("2026-08-17T04:00:00.000Z");
    expect(plantTime(calendar.at({ week: 0, shift: 0 }))).toBe("2026-08-17 06:00:00");
  });

  test("by hand: L-0231 runs on Wednesday 11 November, early, at 06:00 winter time, which is 05:00 UTC", () => {
    const lot = demoLots().find(({ code }) => code === "L-0231")!;
    expect(new Date(calendar.at(lot.slot)).toISOString()).toBe("2026-11-11T05:00:00.000Z");
    expect(lot.fixtures).toContain("FX-2");
  });

  test("by hand: ISO week 34 of 2026 begins on 17 August; 1 January 2026 was a Thursday, so week 1 began on 29 December", () => {
    // From Monday 29 December to Monday 17 August are 231 days, 33 weeks.
    expect(calendar.isoWeek(0)).toEqual({ year: 2026, week: 34 });
    expect(calendar.isoWeek(12)).toEqual({ year: 2026, week: 46 });
  });

  test("law: nothing is logged out of order, and another Monday tells the same story", () => {
    const events = sourceEvents(calendar);
    expect(events.map(({ at }) => at)).toEqual(events.map(({ at }) => at).sort((a, b) => a - b));
    const later = sourceEvents(calendarUntil(DEFAULT_ENDS_AT + 4 * WEEK));
    expect(later.map(({ source, note }) => [source, note])).toEqual(
      events.map(({ source, note }) => [source, note]),
    );
    for (const { source } of events) {
      expect(SOURCE_KINDS).toContain(source.kind);
      expect(SOURCES).toContainEqual(expect.objectContaining(source));
    }
  });

  test("edge: a story ends on a Monday", () => {
    expect(() => calendarUntil(DEFAULT_ENDS_AT + 24 * 3600 * 1000)).toThrow(InvalidInput);
    expect(() => calendarUntil(Number.NaN)).toThrow(InvalidInput);
  });
});

describe("people and texts", () => {
  test("one account for each role", () => {
    expect(DEMO_ACCOUNTS.flatMap(({ roles }) => roles).sort()).toEqual([
      "admin",
      "engineer",
      "quality",
      "shift-lead",
      "viewer",
    ]);
    expect(new Set(DEMO_ACCOUNTS.map(({ login }) => login)).size).toBe(5);
  });

  test("every kind of feature has steps, and no cause stands twice", () => {
    for (const kind of FEATURE_KINDS) expect(DEFAULT_REACTIONS[kind].length).toBeGreaterThan(3);
    expect(new Set(ASSIGNED_CAUSES).size).toBe(ASSIGNED_CAUSES.length);
  });
});
