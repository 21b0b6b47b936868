import { describe, expect, test } from "vitest";
import { type AnsweredAlarm, alarmPerformance } from "../../../lib/alarms/performance";

const MINUTE = 60_000;

function alarm(featureId: number, waited: number | null, cause: string | null = null): AnsweredAlarm {
  return {
    featureId,
    raisedAt: 0,
    acknowledgedAt: waited === null ? null : waited * MINUTE,
    closedAt: waited === null ? null : 2 * waited * MINUTE,
    cause,
  };
}

const running = { hours: 80, shifts: 10, operators: 1, most: 10 };

describe("by hand", () => {
  test("rates per shift and per operator hour", () => {
    const twenty = Array.from({ length: 20 }, (_, i) => alarm(i, null));
    expect(alarmPerformance(twenty, running)).toMatchObject({
      raised: 20,
      perShift: 2,
      perOperatorHour: 0.25,
      level: "acceptable",
    });
    expect(alarmPerformance(twenty, { ...running, operators: 2 }).perOperatorHour).toBe(0.125);
  });

  test("ISA-18.2's averages for one operator (from memory): up to 6 an hour, up to 12, beyond", () => {
    const levels = [6, 7, 12, 13].map(
      (count) =>
        alarmPerformance(
          Array.from({ length: count }, () => alarm(1, null)),
          { ...running, hours: 1, shifts: 1 },
        ).level,
    );
    expect(levels).toEqual(["acceptable", "heavy", "heavy", "too many"]);
  });

  test("waiting times: median and nine tenths of those that were answered", () => {
    // Nine times 1 to 9 min. (n + 1)p: the 5th for the median, the 9th for 90 %.
    const { toAcknowledge, toClose } = alarmPerformance(
      [...[9, 1, 8, 2, 7, 3, 6, 4, 5].map((waited) => alarm(1, waited)), alarm(1, null)],
      running,
    );
    expect(toAcknowledge).toEqual({ count: 9, medianMs: 5 * MINUTE, ninetyMs: 9 * MINUTE });
    expect(toClose).toEqual({ count: 9, medianMs: 10 * MINUTE, ninetyMs: 18 * MINUTE });
    expect(alarmPerformance([alarm(1, null)], running).toClose).toEqual({
      count: 0,
      medianMs: null,
      ninetyMs: null,
    });
  });

  test("the most frequent first, with those in which nothing was found", () => {
    const alarms = [
      alarm(7, 1, "No cause found"),
      alarm(3, 1, "Tool edge worn"),
      alarm(7, 1, null),
      alarm(9, 1),
      alarm(9, 2),
      alarm(7, 1),
    ];
    expect(alarmPerformance(alarms, { ...running, most: 2 }).frequent).toEqual([
      { featureId: 7, raised: 3, noCause: 1, share: 0.5 },
      { featureId: 9, raised: 2, noCause: 0, share: 2 / 6 },
    ]);
  });
});

test("edge: no running time, and an alarm answered before it was raised, are refused", () => {
  expect(() => alarmPerformance([], { ...running, hours: 0 })).toThrow(/hours/);
  expect(() => alarmPerformance([alarm(1, -1)], running)).toThrow(/acknowledgedAt/);
  expect(alarmPerformance([], running)).toMatchObject({ raised: 0, perShift: 0, frequent: [] });
});
