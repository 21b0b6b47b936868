import { describe, expect, test } from "vitest";
import {
  agoWords,
  clockIn,
  dayIn,
  durationWords,
  exactMomentIn,
  momentIn,
  shortMomentIn,
} from "../../../lib/format/times";

/** 2024-11-11 06:10:03 UTC was a Monday. */
const AT = Date.UTC(2024, 10, 11, 6, 10, 3);

describe("a moment in the plant's zone", () => {
  test("in winter, an hour after UTC in Berlin", () => {
    expect(momentIn(AT, "Europe/Berlin")).toBe("Mon 11 Nov 2024, 07:10");
    expect(shortMomentIn(AT, "Europe/Berlin")).toBe("11 Nov, 07:10");
    expect(dayIn(AT, "Europe/Berlin")).toBe("11 Nov 2024");
    expect(clockIn(AT, "Europe/Berlin")).toBe("07:10:03");
    expect(exactMomentIn(AT, "Europe/Berlin")).toBe("Mon 11 Nov 2024, 07:10:03 Europe/Berlin");
  });

  test("in summer, two hours after", () => {
    expect(momentIn(Date.UTC(2024, 6, 1, 22, 30), "Europe/Berlin")).toBe("Tue 2 Jul 2024, 00:30");
  });

  test("the night on which the clock goes back has both hours", () => {
    // 27 October 2024, 01:00 UTC: clocks in Berlin went from 03:00 back to 02:00.
    expect(clockIn(Date.UTC(2024, 9, 27, 0, 30), "Europe/Berlin")).toBe("02:30:00");
    expect(clockIn(Date.UTC(2024, 9, 27, 1, 30), "Europe/Berlin")).toBe("02:30:00");
  });

  test("midnight is 00:00", () => {
    expect(momentIn(Date.UTC(2024, 0, 1), "UTC")).toBe("Mon 1 Jan 2024, 00:00");
  });
});

describe("lengths of time", () => {
  const HOUR = 3_600_000;
  test.each([
    [0, "0 s"],
    [59_999, "59 s"],
    [60_000, "1 min"],
    [59 * 60_000, "59 min"],
    [HOUR, "1 h"],
    [47.9 * HOUR, "47 h"],
    [48 * HOUR, "2 days"],
    [27.9 * 24 * HOUR, "27 days"],
    [28 * 24 * HOUR, "4 weeks"],
    [365 * 24 * HOUR, "1 year"],
    [800 * 24 * HOUR, "2 years"],
    [-5, "0 s"],
  ])("%d ms", (ms, words) => {
    expect(durationWords(ms)).toBe(words);
  });

  test("seen from now", () => {
    expect(agoWords(AT, AT + 3 * HOUR)).toBe("3 h ago");
    expect(agoWords(AT, AT + 59_000)).toBe("just now");
    expect(agoWords(AT, AT - 5 * 60_000)).toBe("in 5 min");
  });
});
