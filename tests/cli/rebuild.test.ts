import { describe, expect, test } from "vitest";
import { connectionOf, openDatabase } from "../../db/connection";
import { commandLine } from "./command";

describe("an empty database", () => {
  const { json, run, start } = commandLine();

  test("migrate makes it, and the second time there is nothing left to do", async () => {
    const first = await json<{ applied: number }>("migrate");
    expect(Object.keys(first)).toEqual(["ok", "applied", "backup", "rebuilt"]);
    expect(await json("migrate")).toMatchObject({ ok: true, backup: null, rebuilt: 0 });
  });

  test("rebuild finds nothing, says so and ends", async () => {
    expect(JSON.parse((await start("rebuild", "--json")).output)).toMatchObject({ ok: true, features: 0 });
    expect(await json("rebuild")).toEqual({ ok: true, features: 0, signals: 0, differing: 0 });
    const { output } = await run("rebuild");
    expect(output).toMatch(/^Rebuilt 0 features[^\n]*\n$/);
    expect(await run("rebuild", "everything")).toMatchObject({ code: 2, output: "" });
  });
});

describe("the demo plant", () => {
  const { json, run, database } = commandLine();

  test("is loaded, and every derived row is what a rebuild makes of it", async () => {
    const demo = await json<{ ok: boolean; files: number; measurements: number; features: number }>("demo");
    expect(demo).toMatchObject({ ok: true, features: 61 });
    expect(demo.measurements).toBeGreaterThan(10_000);

    const rebuilt = await json<{ signals: number }>("rebuild");
    expect(rebuilt).toMatchObject({ ok: true, features: 61, differing: 0 });
    expect(rebuilt.signals).toBeGreaterThan(0);

    // A newer version's first verb may be any: what an older one judged otherwise is judged anew before it is read.
    const plant = await openDatabase(database());
    connectionOf(plant).sqlite.exec(
      `update setting set value = '1' where key = 'derived format';
       update feature_state set progress = json_set(progress, '$.format', 1, '$.signals', 77)`,
    );
    await plant.close();
    expect(await json("verify")).toMatchObject({ ok: true, differing: [] });

    const second = await run("demo", "--json");
    expect({ code: second.code, output: second.output }).toEqual({ code: 1, output: "" });
    expect(second.errors).toMatch(/holds a plant already[^\n]*\n$/);
    expect(await json("demo", "--if-empty")).toMatchObject({ ok: true, measurements: 0 });
  });
});
