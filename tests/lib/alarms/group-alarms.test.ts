import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  byFeature,
  type GroupableAlarm,
  groupAlarms,
  type NamedSource,
} from "../../../lib/alarms/group-alarms";

const HOUR = 3_600_000;

function alarm(id: number, hours: number, from: GroupableAlarm["from"]): GroupableAlarm {
  return { id, featureId: id, firstAt: hours * HOUR, latestAt: hours * HOUR, from };
}

/** Eight features on each source, unless said otherwise. */
const eight = () => 8;
const groupsOf = (alarms: readonly GroupableAlarm[], featuresOf: (source: NamedSource) => number = eight) =>
  groupAlarms(alarms, { featuresOf }).map(({ source, alarms: members }) => ({
    source: source && `${source.kind} ${source.code}`,
    ids: members.map(({ id }) => id),
  }));

describe("by hand: alarms of one source stand together", () => {
  test("three within a day on one fixture, and one elsewhere", () => {
    const alarms = [
      alarm(1, 0, { fixture: "2" }),
      alarm(2, 5, { fixture: "2" }),
      alarm(3, 20, { fixture: "2" }),
      alarm(4, 6, { fixture: "1" }),
    ];
    expect(groupsOf(alarms)).toEqual([
      { source: "fixture 2", ids: [1, 2, 3] },
      { source: null, ids: [4] },
    ]);
  });

  test("a day apart from the next is another occasion", () => {
    const alarms = [alarm(1, 0, { tool: "7" }), alarm(2, 25, { tool: "7" }), alarm(3, 26, { tool: "7" })];
    expect(groupsOf(alarms)).toContainEqual({ source: "tool 7", ids: [2, 3] });
  });

  test("the source that touches fewer features, and of equals the narrower kind", () => {
    const alarms = [alarm(1, 0, { fixture: "1", gauge: "1" }), alarm(2, 1, { fixture: "1", gauge: "1" })];
    const uses = ({ kind }: NamedSource) => (kind === "gauge" ? 4 : 8);
    expect(groupsOf(alarms, uses)[0]?.source).toBe("gauge 1");
    expect(groupsOf(alarms, eight)[0]?.source).toBe("fixture 1");
  });

  test("what nearly all features run on explains nothing", () => {
    const alarms = [alarm(1, 0, { gauge: "1" }), alarm(2, 1, { gauge: "1" })];
    expect(groupsOf(alarms, () => 9).map(({ source }) => source)).toEqual([null, null]);
    expect(groupsOf(alarms, () => 8).map(({ source }) => source)).toEqual(["gauge 1"]);
  });

  test("two alarms of one feature are no coincidence, and a source not stated is none", () => {
    const same = [alarm(1, 0, { fixture: "1" }), { ...alarm(2, 1, { fixture: "1" }), featureId: 1 }];
    expect(groupsOf(same).every(({ source }) => source === null)).toBe(true);
    expect(groupsOf([alarm(1, 0, {}), alarm(2, 0, {})]).every(({ source }) => source === null)).toBe(true);
  });

  test("what the scan found comes first, since it looked at all features", () => {
    const alarms = [
      alarm(1, 0, { fixture: "1" }),
      alarm(2, 1, { fixture: "1" }),
      alarm(3, 90, { fixture: "2" }),
    ];
    const flagged = [
      { kind: "gauge" as const, code: "5", featureIds: [1, 3], since: 0, until: null, sentence: "It moved." },
    ];
    const [first, second] = groupAlarms(alarms, { flagged, featuresOf: eight });
    expect(first).toMatchObject({ source: { kind: "gauge", code: "5" }, sentence: "It moved." });
    expect(first?.alarms.map(({ id }) => id)).toEqual([1, 3]);
    expect(second?.alarms.map(({ id }) => id)).toEqual([2]);
  });

  test("a source that was put right stays the suspect of the alarms from before, one alone as well", () => {
    const tool = { tool: "104" };
    const alarms = [alarm(1, 2, tool), { ...alarm(2, 3, tool), latestAt: 12 * HOUR }, alarm(3, 11, tool)];
    const flag = { kind: "fixture" as const, code: "2", sentence: "It was suspected." };
    const span = { since: HOUR, until: 10 * HOUR };
    const grouped = (featureIds: number[], until: number | null) =>
      groupAlarms(alarms, { flagged: [{ ...flag, ...span, featureIds, until }], featuresOf: eight }).map(
        ({ source, suspect, alarms: members }) => [source?.code, suspect, members.map(({ id }) => id)],
      );
    // The third began after the event, so that what was wrong before it cannot have been its cause.
    expect(grouped([1, 2, 3], span.until)).toEqual([
      ["2", "before", [1, 2]],
      [undefined, "never", [3]],
    ]);
    expect(grouped([1], span.until)).toContainEqual(["2", "before", [1]]);
    expect(grouped([1], span.until)).toContainEqual(["104", "never", [2, 3]]);
    expect(grouped([1, 2, 3], null)).toEqual([["2", "now", [1, 2, 3]]]);
  });

  test("what a source did before it was held to have moved, it does not explain", () => {
    const flagged = [
      { kind: "fixture" as const, code: "2", featureIds: [1], since: 5 * HOUR, until: null, sentence: "" },
    ];
    expect(groupAlarms([alarm(1, 4, {})], { flagged, featuresOf: eight })[0]?.source).toBeNull();
  });

  test("an alarm listed twice is refused", () => {
    expect(() => groupAlarms([alarm(1, 0, {}), alarm(1, 0, {})], { featuresOf: eight })).toThrow(
      /listed once/,
    );
  });
});

test("by hand: a feature with two alarms is named once", () => {
  const of = (id: number, featureId: number) => ({ id, featureId });
  expect([...byFeature([of(1, 12), of(2, 80), of(3, 12)])]).toEqual([
    [12, [1, 3]],
    [80, [2]],
  ]);
});

test("law: every alarm is in exactly one group, whatever they share", () => {
  const code = fc.constantFrom("1", "2", "3");
  const origin = fc.record({ fixture: code, tool: code, lot: code });
  const many = fc.array(fc.record({ hours: fc.nat(100), origin }), { maxLength: 20 });
  fc.assert(
    fc.property(many, (given) => {
      const alarms = given.map(({ hours, origin: from }, i) => alarm(i + 1, hours, from));
      const ids = groupAlarms(alarms, { featuresOf: eight }).flatMap(({ alarms: members }) =>
        members.map(({ id }) => id),
      );
      expect(ids.sort((a, b) => a - b)).toEqual(alarms.map(({ id }) => id));
    }),
  );
});
