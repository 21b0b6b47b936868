import { expect, test } from "vitest";
import { type GaugeFacts, gaugesDue } from "../../../lib/board/gauges-due";

const TODAY = "2026-11-16";
const gauge = (code: string, changes: Partial<GaugeFacts>): GaugeFacts => ({
  id: 1,
  code,
  retired: false,
  calibrationDue: TODAY,
  features: 3,
  ...changes,
});

test("overdue ones come first, the longest before the others, then those due soonest", () => {
  const gauges = [
    gauge("in a week", { calibrationDue: "2026-11-23" }),
    gauge("three days over", { calibrationDue: "2026-11-13" }),
    gauge("today, one feature", { features: 1 }),
    gauge("a year over", { calibrationDue: "2025-11-16" }),
    gauge("today, three features", {}),
  ];
  expect(gaugesDue(gauges, TODAY).map(({ code }) => code)).toEqual([
    "a year over",
    "three days over",
    "today, three features",
    "today, one feature",
    "in a week",
  ]);
});

test("a gauge in good time, without a date, retired or idle is not named", () => {
  const gauges = [
    gauge("good", { calibrationDue: "2027-11-16" }),
    gauge("undated", { calibrationDue: null }),
    gauge("retired", { retired: true, calibrationDue: "2025-01-01" }),
    gauge("idle", { features: 0, calibrationDue: "2025-01-01" }),
  ];
  expect(gaugesDue(gauges, TODAY)).toEqual([]);
});
