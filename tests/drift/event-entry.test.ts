import { expect, test } from "vitest";
import { readEventForm, wallTime } from "../../app/drift/event-entry";

const plant = { zone: "Europe/Berlin", now: Date.UTC(2026, 10, 16, 6, 10) };

function form(fields: Record<string, string>): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries({ source: "4", event: "repaired", note: "", ...fields }))
    data.set(name, value);
  return data;
}

test("a wall time is meant on the plant's clock, in winter and in summer", () => {
  const winter = readEventForm(form({ when: "2026-11-16T07:10", note: " Pin " }), plant);
  expect(winter).toMatchObject({
    ok: true,
    entry: { sourceId: 4, event: "repaired", at: Date.UTC(2026, 10, 16, 6, 10), note: "Pin" },
  });
  const summer = readEventForm(form({ when: "2026-07-01T07:10:30" }), plant);
  expect(summer).toMatchObject({ ok: true, entry: { at: Date.UTC(2026, 6, 1, 5, 10, 30) } });
  expect(wallTime(plant.now, plant.zone)).toBe("2026-11-16T07:10");
});

test("what will not do is refused beside its field, and typed text stays", () => {
  const ahead = readEventForm(form({ when: "2026-11-16T07:12" }), plant);
  expect(ahead).toMatchObject({ ok: false, faults: { when: "This lies ahead. Log it once it is done." } });
  expect(ahead.fields.when).toBe("2026-11-16T07:12");
  const wrong = readEventForm(form({ source: "all", event: "kicked", when: "yesterday" }), plant);
  expect(wrong).toMatchObject({
    ok: false,
    faults: { source: "Choose a source.", event: "Choose what was done.", when: "Enter day and time." },
  });
  const noDay = readEventForm(form({ when: "2026-13-45T07:10" }), plant);
  expect(noDay).toMatchObject({ ok: false, faults: { when: "There is no such day or time." } });
});
