import { describe, expect, test } from "vitest";
import { type BoardAlarm, type BoardFacts, placeOnBoard, SILENT_AFTER_MS } from "../../../lib/board/bands";
import { ENGLISH } from "../../../lib/words/words";

const NOW = Date.UTC(2024, 10, 11, 6);
const HOUR = 3_600_000;

type Standing = NonNullable<BoardFacts["standing"]>;

function standing(changes: Partial<Standing> = {}): Standing {
  return {
    readings: 500,
    subgroups: 100,
    lastAt: NOW - HOUR,
    limitsVersion: 1,
    tooFewForFinal: false,
    ppk: 1.8,
    ppkAtLeast: 1.6,
    recentReadings: 125,
    ...changes,
  };
}

function alarm(changes: Partial<BoardAlarm> = {}): BoardAlarm {
  return {
    state: "unacknowledged",
    words: "Beyond 3 sigma above; 9 above centre",
    firstAt: NOW - 5 * HOUR,
    latestAt: NOW - 2 * HOUR,
    returnedAt: null,
    withdrawnAt: null,
    ...changes,
  };
}

function place(changes: Partial<BoardFacts> = {}) {
  return placeOnBoard(
    {
      standing: standing(),
      alarm: null,
      tolerance: { lower: 1, upper: 2 },
      asked: 1.33,
      now: NOW,
      ...changes,
    },
    ENGLISH,
  );
}

describe("act", () => {
  test("an excursion that is running, acknowledged or not", () => {
    for (const state of ["unacknowledged", "acknowledged"] as const) {
      expect(place({ alarm: alarm({ state }) })).toEqual({
        band: "act",
        reason: "Beyond 3 sigma above; 9 above centre.",
        also: [],
        since: NOW - 5 * HOUR,
      });
    }
  });

  test("a mean outside the tolerance, however steady and however few the readings", () => {
    const placing = place({ standing: standing({ ppk: -2.5, ppkAtLeast: -3.1, recentReadings: 10 }) });
    expect(placing).toEqual({
      band: "act",
      reason: "The mean of the latest 10 measurements lies outside the tolerance.",
      also: [],
      since: null,
    });
    expect(place({ standing: standing({ ppk: 0.1, ppkAtLeast: -0.2 }) }).band).toBe("watch");
  });

  test("goes before everything else that is true, which is said as well", () => {
    const placing = place({ alarm: alarm(), standing: standing({ ppkAtLeast: 1.08 }) });
    expect(placing.band).toBe("act");
    expect(placing.also).toEqual(["Ppk is at least 1.08 (95 %, 125 measurements); watched below 1.33."]);
  });
});

describe("watch", () => {
  test("an alarm that returned to normal before anybody acknowledged it", () => {
    const placing = place({ alarm: alarm({ returnedAt: NOW - HOUR }) });
    expect(placing.band).toBe("watch");
    expect(placing.reason).toBe("Returned to normal, and nobody has acknowledged it. Latest signal 2 h ago.");
  });

  test("an alarm whose measurements were undone, a shelved one, one to be closed", () => {
    expect(place({ alarm: alarm({ withdrawnAt: NOW }) }).band).toBe("watch");
    expect(place({ alarm: alarm({ state: "shelved" }) }).reason).toMatch(/^Alarm shelved\. Beyond 3 sigma/);
    expect(place({ alarm: alarm({ state: "returned", returnedAt: NOW }) }).band).toBe("watch");
  });

  test("Ppk below 1.33 for a key characteristic, below 1.00 for others", () => {
    const low = standing({ ppkAtLeast: 1.329 });
    expect(place({ standing: low }).reason).toMatch(/at least 1\.32 .* below 1\.33/);
    expect(place({ standing: low, asked: 1 }).band).toBe("quiet");
    expect(place({ standing: standing({ ppkAtLeast: 0.99 }), asked: 1 }).band).toBe("watch");
    expect(place({ standing: standing({ ppkAtLeast: 1.33 }) }).band).toBe("quiet");
  });

  test("not while there are too few measurements to say anything of Ppk", () => {
    expect(place({ standing: standing({ ppkAtLeast: 0.5, recentReadings: 20 }) }).band).toBe("quiet");
  });

  test("trial limits with enough subgroups to freeze them, and not with fewer", () => {
    const trial = { limitsVersion: 0, subgroups: 25 };
    expect(place({ standing: standing(trial) }).reason).toBe(
      "Still judged by trial limits after 25 subgroups: enough to freeze them.",
    );
    expect(place({ standing: standing({ ...trial, tooFewForFinal: true }) })).toMatchObject({
      band: "quiet",
      reason: "No signal by trial limits; 25 subgroups so far.",
    });
  });

  test("a feature that nothing judges although there are subgroups enough: its first ones gave no limits", () => {
    expect(place({ standing: standing({ limitsVersion: null, subgroups: 25 }) })).toMatchObject({
      band: "watch",
      reason:
        "Nothing judges it after 25 subgroups: the first ones give no trial limits. Freeze limits from a baseline.",
    });
    expect(place({ standing: standing({ limitsVersion: null, subgroups: 24 }) }).band).toBe("quiet");
  });

  test("silence for more than a week", () => {
    expect(place({ standing: standing({ lastAt: NOW - SILENT_AFTER_MS }) }).band).toBe("quiet");
    const silent = place({ standing: standing({ lastAt: NOW - SILENT_AFTER_MS - HOUR }) });
    expect(silent.reason).toBe("No measurement for 7 days: nobody knows how it stands.");
  });
});

describe("quiet", () => {
  test.each<[string, Partial<BoardFacts>]>([
    ["No signal.", {}],
    ["No measurements yet.", { standing: null }],
    ["No control limits yet.", { standing: standing({ limitsVersion: null, subgroups: 24 }) }],
    ["No signal; no tolerance is stated.", { tolerance: { lower: null, upper: null } }],
    ["No signal.", { alarm: alarm({ state: "closed" }) }],
  ])("%s", (reason, changes) => {
    expect(place(changes)).toEqual({ band: "quiet", reason, also: [], since: null });
  });
});
