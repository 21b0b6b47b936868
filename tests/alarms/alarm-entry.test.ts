import { describe, expect, test } from "vitest";
import { readAlarmForm } from "../../app/alarms/alarm-entry";
import { ANOTHER_CAUSE } from "../../app/alarms/answer";
import { savedWords } from "../../app/alarms/saved-words";
import { ENGLISH } from "../../lib/words/words";

function form(fields: Record<string, string | string[]>): FormData {
  const data = new FormData();
  for (const [name, values] of Object.entries({ alarm: "7", seen: "41", ...fields }))
    for (const value of [values].flat()) data.append(name, value);
  return data;
}

const actsOf = (fields: Record<string, string | string[]>) => {
  const read = readAlarmForm(form(fields));
  if (!read.ok) throw new Error(read.message);
  expect(read).toMatchObject({ alarm: 7, seen: 41 });
  return read.acts;
};

describe("what the buttons of the alarm page mean", () => {
  test("acknowledging, with spaces taken off the note", () => {
    expect(actsOf({ do: "acknowledge", note: "  On it. " })).toEqual([
      { kind: "acknowledge", note: "On it." },
    ]);
  });

  test("a step is ticked and taken back by its number", () => {
    expect(actsOf({ do: "tick 3" })).toEqual([{ kind: "step", step: 3, done: true }]);
    expect(actsOf({ do: "untick 0" })).toEqual([{ kind: "step", step: 0, done: false }]);
  });

  test("all pieces that are free, or those chosen", () => {
    const fields = { all: ["11", "12", "13"], pieces: ["12"], note: "Crate 7." };
    expect(actsOf({ do: "hold all", ...fields })).toEqual([
      { kind: "contain", decision: "hold", pieceIds: [11, 12, 13], note: "Crate 7." },
    ]);
    expect(actsOf({ do: "scrap", ...fields })).toEqual([
      { kind: "contain", decision: "scrap", pieceIds: [12], note: "Crate 7." },
    ]);
  });

  test("cause and action are two acts; either may come alone", () => {
    expect(actsOf({ do: "find", cause: "Tool edge worn", newCause: "", note: "Changed." })).toEqual([
      { kind: "cause", cause: "Tool edge worn", note: "" },
      { kind: "action", note: "Changed." },
    ]);
    expect(actsOf({ do: "find", cause: ANOTHER_CAUSE, newCause: "Burr", note: "" })).toEqual([
      { kind: "cause", cause: "Burr", note: "" },
    ]);
    expect(readAlarmForm(form({ do: "find", cause: "", newCause: "Burr", note: "" }))).toEqual({
      ok: false,
      message: "Nothing saved: choose a cause, or write down what was done.",
    });
  });

  test("what no button sends, and texts too long, are refused in words", () => {
    for (const wrong of [
      { do: "delete" },
      { do: "tick x" },
      { do: "hold", pieces: ["-1"] },
      { do: "close", alarm: "x" },
    ])
      expect(readAlarmForm(form(wrong as Record<string, string>))).toMatchObject({
        ok: false,
        message: expect.stringContaining("Reload the page"),
      });
    expect(readAlarmForm(form({ do: "remark", note: "x".repeat(2001) }))).toEqual({
      ok: false,
      message: "Nothing saved: a text has at most 2000 characters. Shorten it.",
    });
  });
});

test("the answer says what was saved and what is next", () => {
  const hold = { kind: "contain" as const, decision: "hold" as const, pieceIds: [1, 2, 2], note: "" };
  expect(savedWords([hold], "acknowledged", ENGLISH.alarms)).toBe("Saved. 2 pieces on hold.");
  expect(savedWords([{ kind: "acknowledge", note: "" }], "returned", ENGLISH.alarms)).toMatch(
    /^Saved\. The feature is back to normal/,
  );
  expect(savedWords([{ kind: "note", note: "x" }], "closed", ENGLISH.alarms)).toBe("Saved.");
});
