import { describe, expect, test } from "vitest";
import type { AlarmState } from "../../../lib/alarms/alarm-state";
import { flagWords, joinDeeds, openCounts, serialsWords, watchLines } from "../../../lib/handover/handover";
import { ENGLISH, WORDS } from "../../../lib/words/words";

const HOUR = 3_600_000;
const NOW = Date.UTC(2026, 10, 16, 5);

const line = {
  alarmId: 1,
  feature: "Bore",
  part: "H-210 rev C",
  state: "acknowledged" as AlarmState,
  words: "Beyond 3 sigma above",
  since: NOW - HOUR,
  next: "",
  returnedAt: null as number | null,
  acknowledgedAt: (NOW - HOUR) as number | null,
  shelvedUntil: null as number | null,
  hasAction: true,
  good: 0,
  wanted: 5,
};
const watched = (changes: Partial<typeof line>) =>
  watchLines([{ ...line, ...changes }], { now: NOW, nextEnds: NOW + 8 * HOUR, zone: "UTC" }, ENGLISH).map(
    ({ words }) => words,
  );

describe("what the next shift should watch", () => {
  test("out, and somebody is on it", () => {
    expect(watched({})).toEqual(["Bore: still out; look whether the action works."]);
    expect(watched({ hasAction: false })).toEqual(["Bore: still out; no action is written down yet."]);
  });
  test("back to normal, until as many good subgroups have followed as the plan asks for", () => {
    expect(watched({ returnedAt: NOW, good: 2 })).toEqual([
      "Bore: back to normal, 2 of 5 good subgroups so far.",
    ]);
    expect(watched({ returnedAt: NOW, good: 5 })).toEqual([]);
  });
  test("nobody has acknowledged it for more than a day", () => {
    expect(watched({ acknowledgedAt: null })).toEqual([]);
    expect(watched({ acknowledgedAt: null, since: NOW - 26 * HOUR })).toEqual([
      "Bore: nobody has acknowledged it for 26 h.",
    ]);
  });
  test("many that nobody took up are one line", () => {
    const four = [1, 2, 3, 4].map((alarmId) => ({
      ...line,
      alarmId,
      acknowledgedAt: null,
      since: NOW - 26 * HOUR,
    }));
    expect(watchLines(four, { now: NOW, nextEnds: NOW, zone: "UTC" }, ENGLISH)).toEqual([
      { alarmId: null, words: "4 alarms that nobody has acknowledged for more than a day." },
    ]);
    expect(watchLines(four.slice(1), { now: NOW, nextEnds: NOW, zone: "UTC" }, ENGLISH)).toHaveLength(3);
  });
  test("on the shelf, and back within the next shift", () => {
    expect(watched({ state: "shelved", shelvedUntil: NOW + HOUR })).toEqual([
      "Bore: comes back from the shelf 16 Nov, 06:00.",
    ]);
    expect(watched({ state: "shelved", shelvedUntil: NOW + 9 * HOUR })).toEqual([]);
  });
});

test("a few serials are written out, the others counted", () => {
  const serials = Array.from({ length: 14 }, (_, i) => `S-${i + 1}`);
  expect(serialsWords(serials, ENGLISH.handover)).toBe("S-1, S-2, S-3, S-4, S-5, S-6 and 8 more");
  expect(serialsWords(serials.slice(0, 6), ENGLISH.handover)).toBe("S-1, S-2, S-3, S-4, S-5, S-6");
});

test("what one person did to one alarm is one line, in order", () => {
  const deed = (at: number, by: string, words: string) => ({ at, alarmId: 1, subject: "Bore", by, words });
  expect(
    joinDeeds([deed(1, "Jo", "acknowledged"), deed(2, "Ann", "closed it"), deed(3, "Jo", "left a remark")]),
  ).toEqual([
    { at: 1, alarmId: 1, subject: "Bore", by: "Jo", deeds: ["acknowledged", "left a remark"] },
    { at: 2, alarmId: 1, subject: "Bore", by: "Ann", deeds: ["closed it"] },
  ]);
});

test("what the scan of all features names, in a line", () => {
  expect(flagWords({ kind: "fixture", id: "FX-2" }, { lot: "L-0229", features: 5 }, ENGLISH)).toBe(
    "Fixture FX-2 has moved since lot L-0229, on 5 features: see Drift.",
  );
  expect(flagWords({ kind: "lot", id: "L-4043" }, { lot: "L-4043", features: 1 }, ENGLISH)).toBe(
    "Lot L-4043 is different, on 1 feature: see Drift.",
  );
});

test("by hand: of three that are handed over one is shelved, and says so wherever they are counted", () => {
  const counts = openCounts([{ state: "unacknowledged" }, { state: "shelved" }, { state: "returned" }]);
  expect(counts).toEqual({ open: 2, shelved: 1 });
  const { en, de } = WORDS;
  expect(en.handover.kinds({ ...counts, holds: 1 })).toBe("2 open alarms, 1 shelved, 1 hold");
  const sum = { measurements: 5, raised: 1, closed: 0 };
  expect(en.handover.sum({ ...sum, ...counts })).toMatch(/; now 2 open alarms, 1 shelved\.$/);
  expect(de.handover.sum({ ...sum, ...counts })).toMatch(/; jetzt 2 offene Alarme, 1 zurückgestellt\.$/);
  expect(en.alarms.openOnFeature.title(0, 1)).toBe("No open alarm, 1 shelved");
});
