import { expect, test } from "vitest";
import { updatePart } from "../../db/commands/plan";
import { differingFeatures } from "../../db/commands/rebuild";
import { connectionOf } from "../../db/connection";
import { bringIn, emptyPlant, SOMEBODY } from "./plant";

const START = Date.UTC(2026, 0, 5, 6);

test("a part's coefficient that is stated, changed or taken away judges its reduced features anew", async () => {
  const database = await emptyPlant();
  const rows = Array.from({ length: 60 }, (_, i) =>
    [
      `S-${i}`,
      new Date(START + i * 60_000).toISOString(),
      "P-1",
      "bore",
      "mm",
      500 + ((i * 7) % 11) / 1000,
      20 + (i % 6),
    ].join(),
  );
  await bringIn(database, `piece,taken_at,part,feature,unit,value,part_temp_c\n${rows.join("\n")}\n`, {
    subgroupSize: 3,
  });
  const { sqlite } = connectionOf(database);
  sqlite.exec("update feature set length = 500, reduced = 1 where id = 1");
  const state = sqlite.prepare("select progress from feature_state where feature_id = 1").pluck();
  const states = [state.get()];
  for (const expansion of [11.5e-6, 23e-6, null]) {
    const entry = { number: "P-1", revision: "", name: "", line: "", material: "", expansion };
    const saved = await updatePart(database, { id: 1, entry, reason: "material looked up", actor: SOMEBODY });
    expect(saved).toMatchObject({ ok: true });
    expect(await differingFeatures(database)).toEqual([]);
    states.push(state.get());
  }
  expect(new Set(states).size).toBe(3);
  // Without a coefficient nothing is reduced, as in the beginning.
  expect(states[3]).toBe(states[0]);
});
