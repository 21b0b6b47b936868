import { describe, expect, test } from "vitest";
import { type AlarmEvent, eventWords, tickedSteps } from "../../../lib/alarms/alarm-event";
import { type AlarmFacts, nextStepWords, shownState, stateFrom } from "../../../lib/alarms/alarm-state";

const NOON = Date.UTC(2026, 10, 16, 12);
const FRESH: AlarmFacts = {
  acknowledgedAt: null,
  returnedAt: null,
  withdrawnAt: null,
  shelvedUntil: null,
  closedAt: null,
};

describe("the states of IEC 62682 (from memory)", () => {
  test.each<[string, Partial<AlarmFacts>, string]>([
    ["nobody has seen it", {}, "unacknowledged"],
    ["seen, still out", { acknowledgedAt: NOON }, "acknowledged"],
    ["seen, then back to normal", { acknowledgedAt: NOON, returnedAt: NOON }, "returned"],
    ["back to normal, unseen: somebody still has to look", { returnedAt: NOON }, "unacknowledged"],
    ["its measurements were undone, seen", { acknowledgedAt: NOON, withdrawnAt: NOON }, "returned"],
    ["shelved for another minute", { shelvedUntil: NOON + 60_000 }, "shelved"],
    ["a shelving ends by itself", { shelvedUntil: NOON }, "unacknowledged"],
    ["closed, whatever came before", { closedAt: NOON, shelvedUntil: NOON + 1 }, "closed"],
  ])("%s", (_, facts, state) => {
    expect(stateFrom({ ...FRESH, ...facts }, NOON)).toBe(state);
  });

  test("one that returned unseen is shown as returned to normal", () => {
    expect(shownState({ state: "unacknowledged", returnedAt: NOON })).toBe("returned");
    expect(shownState({ state: "unacknowledged", returnedAt: null })).toBe("unacknowledged");
  });

  test("what is wanted next follows the order of the work", () => {
    const seen = { ...FRESH, acknowledgedAt: NOON, state: "acknowledged" as const };
    expect(nextStepWords({ ...FRESH, state: "unacknowledged", hasCause: false, hasAction: false })).toMatch(
      /seen/,
    );
    expect(nextStepWords({ ...seen, hasCause: false, hasAction: false })).toMatch(/cause/);
    expect(nextStepWords({ ...seen, hasCause: true, hasAction: false })).toMatch(/done/);
    expect(nextStepWords({ ...seen, hasCause: true, hasAction: true })).toMatch(/good subgroups/);
    const over = { ...seen, returnedAt: NOON, state: "returned" as const };
    expect(nextStepWords({ ...over, hasCause: true, hasAction: true })).toBe("Can be closed.");
    expect(nextStepWords({ ...seen, closedAt: NOON, state: "closed", hasCause: true, hasAction: true })).toBe(
      "",
    );
  });
});

describe("events in words", () => {
  const event = (changes: Partial<AlarmEvent>): AlarmEvent => ({
    id: 1,
    at: Date.UTC(2026, 10, 16, 1, 44),
    kind: "hold",
    note: "",
    detail: {},
    by: "Jo Reed",
    ...changes,
  });

  test("who, when on the plant's clock, what, and the note", () => {
    expect(eventWords(event({ detail: { pieces: 14 }, note: "Crate 7." }), "Europe/Berlin")).toBe(
      "16 Nov, 02:44, Jo Reed put 14 pieces on hold: “Crate 7.”",
    );
    expect(eventWords(event({ kind: "returned", by: null }), "UTC")).toBe(
      "16 Nov, 01:44, the feature returned to normal",
    );
    expect(
      eventWords(event({ kind: "shelved", detail: { until: Date.UTC(2026, 10, 17) } }), "UTC"),
    ).toContain("shelved it until 17 Nov, 00:00");
  });

  test("the latest word on a step counts", () => {
    const step = (id: number, at: number, done: boolean) =>
      event({ id, kind: "step", detail: { step: at, done, words: "Look." } });
    const ticked = tickedSteps([step(1, 0, true), step(2, 1, true), step(3, 0, false), step(4, 2, true)]);
    expect([...ticked.keys()]).toEqual([1, 2]);
  });
});
