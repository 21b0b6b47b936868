import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { backUp, restore } from "../../../db/backup";
import { addExclusion, freezeLimits } from "../../../db/commands/limits";
import { type FeatureEntry, updateFeature } from "../../../db/commands/plan";
import { differingFeatures } from "../../../db/commands/rebuild";
import { undoIntake } from "../../../db/commands/undo-intake";
import { connectionOf, type Database, openDatabase, write } from "../../../db/connection";
import { settle, settleSome } from "../../../db/measurements/settle";
import type { ApiKey } from "../../../db/people/api-keys";
import { shiftBoard } from "../../../db/queries/board";
import { type FeatureRow, listFeatures } from "../../../db/queries/features";
import { featureHistory, namesOf } from "../../../db/queries/history";
import { runs } from "../../laws";
import { Ledger } from "../ledger";
import { bringIn, SOMEBODY, tidyFile } from "../plant";
import { FEATURES, MINUTE, plantOpenTwice, post, START, valueAt } from "./posting";

/*
 * Law: whoever writes what and in which order, from two connections as of two processes, no measurement is lost or
 * doubled, every state is the one that the measurements give, and every board says the same, one that was held through
 * all of it and one of a process that has just begun.
 */

const by = fc.boolean();
const few = fc.integer({ min: 1, max: 9 });
const back = fc.integer({ min: 1, max: 30 });
const STEPS = {
  post: { weight: 8, with: fc.record({ by, count: few }) },
  "post at once": { weight: 4, with: fc.record({ by, count: few, poison: fc.nat({ max: 12 }), again: by }) },
  "post late": { weight: 2, with: fc.record({ by, back }) },
  "bring a file": { weight: 1, with: fc.record({ by, count: fc.constantFrom(3, 300) }) },
  correct: { weight: 2, with: fc.record({ by, back }) },
  undo: { weight: 2, with: fc.record({ by, back: few }) },
  plan: { weight: 2, with: fc.record({ by, size: fc.integer({ min: 1, max: 4 }), upper: few }) },
  freeze: { weight: 1, with: fc.record({ by }) },
  "leave out": { weight: 1, with: fc.record({ by, back }) },
  "settle some": { weight: 1, with: fc.record({ by }) },
  "settle all": { weight: 1, with: fc.record({ by }) },
  look: { weight: 6, with: fc.record({ by }) },
  "start again": { weight: 1, with: fc.record({ by }) },
  "move to another place": { weight: 1, with: fc.record({ by }) },
};
type Kind = keyof typeof STEPS;
type Step = { do: Kind; by: boolean; count: number; back: number; poison: number; again: boolean } & {
  size: number;
  upper: number;
};
const step = fc.oneof(
  ...Object.entries(STEPS).map(([kind, { weight, with: given }]) => ({
    weight,
    arbitrary: (given as fc.Arbitrary<object>).map((one) => ({ do: kind, ...one }) as Step),
  })),
);

class Plant {
  private readonly ledger = new Ledger();
  private readonly intakes: number[] = [];
  private next = 90;
  private places = 0;
  private constructor(
    private readonly folder: string,
    private here: Database,
    private there: Database,
    private readonly key: ApiKey,
  ) {
    for (let i = 0; i < 90; i++) this.state(i, valueAt(i), 1);
  }

  static async begun(): Promise<Plant> {
    const { folder, here, there, key } = await plantOpenTwice();
    return new Plant(folder, here, there, key);
  }

  private state(i: number, value: number, intake: number, features = FEATURES): void {
    for (const feature of features) this.ledger.state(`${feature} S-${i}`, value, intake);
  }

  /** Two in three pieces have all features, the others one alone; one in 13 lies far out. */
  private async postNext(database: Database, { twice = false } = {}): Promise<void> {
    const i = this.next;
    this.next += i % 7 === 0 ? 2 : 1;
    const features = i % 3 === 0 ? ["depth"] : FEATURES;
    const value = i % 13 === 0 ? 10.03 : valueAt(i);
    const idempotencyKey = twice ? `piece-${i}` : null;
    const answers = await Promise.all(
      Array.from({ length: twice ? 2 : 1 }, () =>
        post(database, this.key, i, { features, value, idempotencyKey }),
      ),
    );
    const [{ intake }] = answers as [{ intake: number }];
    expect(answers.at(-1)).toEqual(answers[0]);
    this.intakes.push(intake);
    this.state(i, value, intake, features);
  }

  async take(one: Step): Promise<void> {
    const database = one.by ? this.here : this.there;
    switch (one.do) {
      case "post":
        for (let k = 0; k < one.count; k++) await this.postNext(database);
        return;
      case "post at once":
        return this.postAtOnce(database, one);
      case "post late": {
        const i = this.next - one.back - 0.5;
        const { intake } = await post(database, this.key, i);
        this.intakes.push(intake);
        return this.state(i, valueAt(i), intake);
      }
      case "bring a file":
        return this.bringFile(database, one.count);
      case "correct": {
        const features = ["depth", "bore"];
        const [i, value] = [this.next - one.back, 10.002];
        const { intake } = await post(database, this.key, i, { value, features });
        this.intakes.push(intake);
        return this.state(i, value, intake, features);
      }
      case "undo": {
        const id = this.intakes.at(-one.back);
        if (id === undefined) return;
        const undone = await undoIntake(database, { id, actor: SOMEBODY });
        if (undone.ok) this.ledger.undo(id);
        return;
      }
      case "plan":
        return this.changePlan(database, one);
      case "freeze":
        await freezeLimits(database, {
          featureId: 1,
          baselineFrom: START,
          baselineTo: START + 89 * MINUTE,
          effectiveFrom: null,
          reason: "a steady run",
          actor: SOMEBODY,
        });
        return;
      case "leave out": {
        const from = START + (this.next - one.back) * MINUTE;
        await addExclusion(database, {
          featureId: 2,
          from,
          to: from + 2 * MINUTE,
          cause: "chips",
          actor: SOMEBODY,
        });
        return;
      }
      case "settle some":
        return write(database, (connection) => settleSome(connection, { rows: 1 }));
      case "settle all": {
        const shown = await boardOf(database);
        await write(database, settle);
        expect(await boardOf(database)).toEqual(shown);
        return;
      }
      case "look": {
        const held = await boardOf(database);
        const anew = await openDatabase(database.path);
        expect(held).toEqual(await boardOf(anew));
        return anew.close();
      }
      case "start again":
        return this.openAnew(database.path);
      case "move to another place": {
        const place = join(this.folder, `${++this.places}`);
        await backUp(database, { to: `${place}.copy` });
        await restore({ from: `${place}.copy`, to: `${place}.db`, actor: SOMEBODY });
        return this.openAnew(`${place}.db`);
      }
    }
  }

  /** What waits together shares a transaction; one that cannot be stored is refused alone. */
  private async postAtOnce(database: Database, { count, poison, again }: Step): Promise<void> {
    const posts = Array.from({ length: count }, async (_, k) => {
      const first = this.postNext(database, { twice: again });
      if (k === poison) {
        // Measured before those with it, or after some of them.
        const i = this.next + (again ? 30 : -2.25);
        const refused = post(database, this.key, i, { piece: "poison" });
        await expect(refused).rejects.toThrow("no room");
      }
      await first;
    });
    const { sqlite } = connectionOf(database);
    sqlite.exec(
      "create temp trigger poison before insert on piece when new.serial = 'poison' begin select raise(abort, 'no room'); end",
    );
    try {
      await Promise.all(posts);
    } finally {
      sqlite.exec("drop trigger poison");
    }
  }

  private async bringFile(database: Database, count: number): Promise<void> {
    const numbers = Array.from({ length: count }, (_, k) => this.next + k);
    this.next += count;
    const rows = FEATURES.flatMap((feature) =>
      numbers.map((i) => ({ piece: `S-${i}`, takenAt: START + i * MINUTE, feature, value: valueAt(i) })),
    );
    const { id } = await bringIn(database, tidyFile(rows));
    this.intakes.push(id);
    for (const i of numbers) this.state(i, valueAt(i), id);
  }

  private async changePlan(database: Database, { size, upper }: Step): Promise<void> {
    const feature = (await listFeatures(database)).find(({ name }) => name === "depth");
    if (!feature) throw new Error("depth is gone.");
    const entry = entryOf(feature);
    entry.upper = 10 + upper / 10;
    entry.subgroupSize = size;
    entry.chart = size === 1 ? "i-mr" : "xbar-s";
    const saved = await updateFeature(database, { id: feature.id, entry, reason: "test", actor: SOMEBODY });
    expect(saved).toMatchObject({ ok: true });
  }

  private async openAnew(file: string): Promise<void> {
    await Promise.all([this.here.close(), this.there.close()]);
    this.here = await openDatabase(file);
    this.there = await openDatabase(file);
  }

  /** Looks whether all holds, and closes. */
  async end(): Promise<void> {
    const { here, there } = this;
    const anew = await openDatabase(here.path);
    expect(await boardOf(here)).toEqual(await boardOf(anew));
    expect(await boardOf(there)).toEqual(await boardOf(anew));
    expect(await storedValues(here)).toEqual(this.ledger.values());
    expect(await differingFeatures(there)).toEqual([]);
    await Promise.all([here.close(), there.close(), anew.close()]);
  }
}

const boardOf = async (database: Database) => [...(await shiftBoard(database))];

function entryOf({ plan, ...feature }: FeatureRow): FeatureEntry {
  const { chart, subgroupSize, rules, tolerance, target, naturalBound } = plan;
  return { ...feature, chart, subgroupSize, rules, target, naturalBound, ...tolerance };
}

async function storedValues(database: Database): Promise<Record<string, number>> {
  const values: [string, number][] = [];
  for (const { id, name } of await listFeatures(database)) {
    const { series } = (await featureHistory(database, id)) ?? {};
    if (!series) continue;
    const names = await namesOf(database, "piece", series.piece);
    for (let i = 0; i < series.count; i++)
      values.push([`${name} ${names.get(series.piece[i] as number)}`, series.value[i] as number]);
  }
  const found = Object.fromEntries(values);
  expect(values).toHaveLength(Object.keys(found).length); // None of them twice.
  return found;
}

test("law: whoever writes what, nothing is lost or doubled, and all states and boards are those of the measurements", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 3, maxLength: 20 }), async (steps) => {
      const plant = await Plant.begun();
      for (const one of steps) await plant.take(one);
      await plant.end();
    }),
    { numRuns: runs(8) },
  );
});
