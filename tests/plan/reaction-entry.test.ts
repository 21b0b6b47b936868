import { expect, test } from "vitest";
import { readReactionForm as readIn } from "../../app/plan/reactions/reaction-entry";
import { ENGLISH } from "../../lib/words/words";

const readReactionForm = (form: FormData) => readIn(form, ENGLISH.reactionPlans.faults);

function form(fields: Record<string, string>): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries({
    feature: "3",
    before: "1",
    steps: "Look.",
    verify: "5",
    reason: "",
    ...fields,
  }))
    data.set(name, value);
  return data;
}

test("one step a line; empty lines and spaces fall away", () => {
  expect(readReactionForm(form({ steps: " Stop. \r\n\r\nCall. " }))).toMatchObject({
    ok: true,
    entry: { owner: { featureId: 3 }, before: 1, steps: ["Stop.", "Call."], verifySubgroups: 5 },
  });
});

test("taking a plan back sends no steps, whatever stands in the field", () => {
  expect(readReactionForm(form({ do: "take back", steps: "" }))).toMatchObject({
    ok: true,
    entry: { steps: [] },
  });
});

test.each([
  ["steps", { steps: " \n " }, /at least one step/],
  ["steps", { steps: Array(21).fill("Look.").join("\n") }, /At most 20 steps/],
  ["steps", { steps: "x".repeat(301) }, /300 characters/],
  ["verify", { verify: "five" }, /whole number/],
  ["verify", { verify: "0" }, /At least 1/],
  ["reason", { reason: "x".repeat(501) }, /500 characters/],
] as const)("refused beside its field: %s", (field, fields, words) => {
  const read = readReactionForm(form(fields));
  expect(read.ok).toBe(false);
  if (!read.ok) expect(read.faults[field]).toMatch(words);
});
