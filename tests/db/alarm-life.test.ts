import { describe, expect, test } from "vitest";
import { actOnAlarm, endShelvings } from "../../db/commands/alarms";
import { freezeLimits } from "../../db/commands/limits";
import { writeReactionPlan } from "../../db/commands/reaction-plans";
import { undoIntake } from "../../db/commands/undo-intake";
import { connectionOf, type Database } from "../../db/connection";
import { alarmById, eventsOfAlarm, listAlarms } from "../../db/queries/alarms";
import { decisionsOf, holdsOutstanding } from "../../db/queries/containment";
import { listFeatures } from "../../db/queries/features";
import { featureHistory } from "../../db/queries/history";
import { latestNewsId, newsAfter } from "../../db/queries/news";
import { planInForce, planOfAlarm, planVersions } from "../../db/queries/reaction-plans";
import { listCauses } from "../../db/queries/sources";
import type { AlarmAct } from "../../lib/alarms/alarm-act";
import { bringIn, emptyPlant, type Row, SOMEBODY, tidyFile } from "./plant";

const START = SOMEBODY.at - 3 * 3_600_000;
const MINUTE = 60_000;
const STEADY = [0, 0.002, -0.002, 0.001];

const pieces = (from: number, values: readonly number[]): Row[] =>
  values.map((value, i) => ({
    piece: `S-${from + i}`,
    takenAt: START + (from + i) * MINUTE,
    value,
    lot: "L-1",
    fixture: "FX-1",
  }));
const steady = (from: number, count: number) =>
  pieces(
    from,
    Array.from({ length: count }, (_, i) => 10 + (STEADY[i % 4] as number)),
  );

type Plant = {
  database: Database;
  alarmId: number;
  featureId: number;
  jo: number;
  ann: number;
  intakeId: number;
};

/** A feature with limits, one alarm that still runs, and two people. */
async function plantWithAlarm(): Promise<Plant> {
  const database = await emptyPlant();
  // Their passwords do not matter here, and scrambling one takes longer than most of these tests.
  const add = connectionOf(database).sqlite.prepare(
    "insert into account (login, name, password_hash, roles, created_at) values (?, ?, '', '[\"shift-lead\"]', 0)",
  );
  const person = (login: string, name: string) => Number(add.run(login, name).lastInsertRowid);
  await bringIn(database, tidyFile(steady(0, 60)), { subgroupSize: 1 });
  const [feature] = await listFeatures(database);
  await freezeLimits(database, {
    featureId: feature!.id,
    baselineFrom: START,
    baselineTo: START + 59 * MINUTE,
    effectiveFrom: null,
    reason: "steady",
    actor: SOMEBODY,
  });
  const wild = await bringIn(database, tidyFile(pieces(60, [10.05, 10.051])));
  const [alarm] = await listAlarms(database, { open: true });
  return {
    database,
    alarmId: alarm!.id,
    featureId: feature!.id,
    jo: person("jo", "Jo Reed"),
    ann: person("ann", "Ann Lee"),
    intakeId: wild.id,
  };
}

/** One person's acts, after whatever has happened so far; `at` counts minutes from the first measurement. */
async function act({ database, alarmId }: Plant, who: number, minute: number, ...acts: AlarmAct[]) {
  const seen = (await eventsOfAlarm(database, alarmId)).at(-1)?.id ?? 0;
  return actOnAlarm(database, {
    id: alarmId,
    seen,
    acts,
    actor: { accountId: who, at: START + minute * MINUTE },
  });
}

async function kinds({ database, alarmId }: Plant): Promise<string[]> {
  return (await eventsOfAlarm(database, alarmId)).map(({ kind }) => kind);
}

test("a whole life: seen, contained, found, verified, closed, opened again; every step is a line", async () => {
  const plant = await plantWithAlarm();
  const { database, alarmId, featureId, jo } = plant;
  expect(await alarmById(database, alarmId)).toMatchObject({ state: "unacknowledged", acknowledgedAt: null });

  expect(await act(plant, jo, 62, { kind: "acknowledge", note: "On it." })).toMatchObject({
    ok: true,
    state: "acknowledged",
  });
  expect(await act(plant, jo, 63, { kind: "acknowledge", note: "" })).toMatchObject({
    ok: false,
    message: "Nothing saved: this alarm is acknowledged already.",
  });
  await act(plant, jo, 63, { kind: "step", step: 0, done: true });
  const { series } = (await featureHistory(database, featureId))!;
  const doubtful = [series.piece[60]!, series.piece[61]!];
  expect(
    await act(plant, jo, 64, { kind: "contain", decision: "hold", pieceIds: doubtful, note: "Crate 7." }),
  ).toMatchObject({ ok: true });
  expect((await holdsOutstanding(database)).map(({ serial, by }) => [serial, by])).toEqual([
    ["S-60", "Jo Reed"],
    ["S-61", "Jo Reed"],
  ]);

  const early = await act(plant, jo, 65, { kind: "close", note: "" });
  expect(early).toMatchObject({
    ok: false,
    message: "Nothing saved: the feature has not returned to normal yet.",
  });
  await act(
    plant,
    jo,
    66,
    { kind: "cause", cause: "Chip under the piece", note: "" },
    { kind: "action", note: "Cleaned." },
  );
  expect(await listCauses(database)).toContain("Chip under the piece");

  // Four good pieces end the excursion (three quiet subgroups after the step back), the plan asks for five.
  await bringIn(database, tidyFile(steady(67, 5)), { at: START + 80 * MINUTE });
  expect(await alarmById(database, alarmId)).toMatchObject({ state: "returned" });
  const few = await act(plant, jo, 81, { kind: "close", note: "" });
  expect(few).toMatchObject({ ok: false });
  expect((few as { message: string }).message).toMatch(/of 5 good subgroups since the action/);
  await bringIn(database, tidyFile(steady(82, 5)), { at: START + 90 * MINUTE });
  expect(await act(plant, jo, 91, { kind: "close", note: "" })).toMatchObject({ ok: true, state: "closed" });
  expect(await alarmById(database, alarmId)).toMatchObject({
    state: "closed",
    closedAt: START + 91 * MINUTE,
  });
  expect(await act(plant, jo, 92, { kind: "cause", cause: "Other", note: "" })).toMatchObject({
    ok: false,
    message: "Nothing saved: this alarm is closed. Open it again first.",
  });
  expect(await act(plant, jo, 93, { kind: "reopen", note: "" })).toMatchObject({ ok: false });
  expect(await act(plant, jo, 93, { kind: "reopen", note: "It came back." })).toMatchObject({
    ok: true,
    state: "returned",
  });

  expect(await kinds(plant)).toEqual([
    "raised",
    "acknowledged",
    "step",
    "hold",
    "cause",
    "action",
    "returned",
    "closed",
    "reopened",
  ]);
});

describe("two people at once", () => {
  test("the later one is told what the other did, and nothing of either is lost", async () => {
    const plant = await plantWithAlarm();
    const { database, alarmId, jo, ann } = plant;
    const seen = (await eventsOfAlarm(database, alarmId)).at(-1)!.id;
    const both = await Promise.all(
      [jo, ann].map((accountId, i) =>
        actOnAlarm(database, {
          id: alarmId,
          seen,
          acts: [{ kind: "acknowledge", note: `by ${accountId}` }],
          actor: { accountId, at: START + (62 + i) * MINUTE },
        }),
      ),
    );
    expect(both.map(({ ok }) => ok)).toEqual([true, false]);
    const refused = both[1] as Extract<(typeof both)[number], { ok: false }>;
    expect(refused.since).toMatchObject([{ kind: "acknowledged", by: "Jo Reed", note: `by ${jo}` }]);
    expect(await kinds(plant)).toEqual(["raised", "acknowledged"]);

    // Having seen it, the second act goes through.
    const again = await actOnAlarm(database, {
      id: alarmId,
      seen: refused.seen,
      acts: [{ kind: "note", note: "I take the gauge." }],
      actor: { accountId: ann, at: START + 64 * MINUTE },
    });
    expect(again.ok).toBe(true);
  });

  test("what measurements did meanwhile counts only against acts that depend on the state", async () => {
    const plant = await plantWithAlarm();
    const { database, alarmId, jo } = plant;
    const seen = (await eventsOfAlarm(database, alarmId)).at(-1)!.id;
    await bringIn(database, tidyFile(steady(67, 6)), { at: START + 75 * MINUTE });
    expect(await kinds(plant)).toEqual(["raised", "returned"]);
    const as = (acts: AlarmAct[]) =>
      actOnAlarm(database, { id: alarmId, seen, acts, actor: { accountId: jo, at: START + 76 * MINUTE } });
    const refused = await as([{ kind: "acknowledge", note: "" }]);
    expect(refused).toMatchObject({ ok: false, since: [{ kind: "returned", by: null }] });
    expect(await as([{ kind: "step", step: 0, done: true }])).toMatchObject({ ok: true });
  });

  test("of several acts together, none is kept when one is refused", async () => {
    const plant = await plantWithAlarm();
    const outcome = await act(
      plant,
      plant.jo,
      62,
      { kind: "cause", cause: "New one", note: "" },
      { kind: "close", note: "" },
    );
    expect(outcome).toMatchObject({ ok: false });
    expect(await kinds(plant)).toEqual(["raised"]);
    expect(await listCauses(plant.database)).not.toContain("New one");
  });
});

describe("containment", () => {
  test("only what is held is released or scrapped, with a reason; each decision stays on record", async () => {
    const plant = await plantWithAlarm();
    const { database, alarmId, featureId, jo } = plant;
    const { series } = (await featureHistory(database, featureId))!;
    const one = series.piece[60]!;
    const contain = (decision: "hold" | "release" | "scrap", ids: number[], note: string) =>
      act(plant, jo, 70, { kind: "contain", decision, pieceIds: ids, note });
    expect(await contain("release", [one], "Good.")).toMatchObject({ ok: false });
    expect(await contain("hold", [], "")).toMatchObject({ ok: false });
    expect(await contain("hold", [99_999], "")).toMatchObject({ ok: false });
    expect(await contain("hold", [one], "")).toMatchObject({ ok: true });
    expect(await contain("hold", [one], "")).toMatchObject({
      ok: false,
      message: expect.stringContaining("already"),
    });
    expect(await contain("scrap", [one], "")).toMatchObject({ ok: false });
    expect(await contain("scrap", [one], "Too large; decided by quality.")).toMatchObject({ ok: true });
    expect(await decisionsOf(database, alarmId)).toMatchObject([{ decision: "scrap", by: "Jo Reed" }]);
    expect(await holdsOutstanding(database)).toEqual([]);
    expect(connectionOf(database).sqlite.prepare("select count(*) from containment").pluck().get()).toBe(2);
  });
});

test("news tell an alarm that merely goes on from one that is over", async () => {
  const { database, alarmId } = await plantWithAlarm();
  const toldOf = async (text: string) => {
    const after = await latestNewsId(database);
    await bringIn(database, text);
    const told = await newsAfter(database, { after, limit: 100 });
    return told.flatMap((item) => (item.kind === "alarm" ? [[item.alarmId, item.what]] : []));
  };
  expect(await toldOf(tidyFile(pieces(62, [10.052])))).toEqual([[alarmId, "goes on"]]);
  expect(await toldOf(tidyFile(steady(63, 30)))).toContainEqual([alarmId, "changed"]);
});

describe("shelving", () => {
  test("wants a reason and an end within a week, and ends by itself", async () => {
    const plant = await plantWithAlarm();
    const { database, alarmId, jo } = plant;
    const until = START + 100 * MINUTE;
    expect(await act(plant, jo, 70, { kind: "shelve", until, note: "" })).toMatchObject({ ok: false });
    expect(await act(plant, jo, 70, { kind: "shelve", until: START + 70 * MINUTE, note: "x" })).toMatchObject(
      { ok: false },
    );
    expect(
      await act(plant, jo, 70, { kind: "shelve", until: START + 11_000 * MINUTE, note: "x" }),
    ).toMatchObject({ ok: false });
    expect(await act(plant, jo, 70, { kind: "shelve", until, note: "Spare ordered." })).toMatchObject({
      ok: true,
      state: "shelved",
    });

    expect(await endShelvings(database, { now: until - 1 })).toBe(0);
    const before = (await newsAfter(database, { after: 0, limit: 1000 })).length;
    expect(await endShelvings(database, { now: until })).toBe(1);
    expect(await endShelvings(database, { now: until })).toBe(0);
    expect(await alarmById(database, alarmId)).toMatchObject({ state: "unacknowledged", shelvedUntil: null });
    expect((await eventsOfAlarm(database, alarmId)).at(-1)).toMatchObject({
      kind: "unshelved",
      at: until,
      by: null,
    });
    expect((await newsAfter(database, { after: 0, limit: 1000 })).length).toBe(before + 1);
  });

  test("further signals join a shelved alarm without calling anybody", async () => {
    const plant = await plantWithAlarm();
    await act(plant, plant.jo, 62, { kind: "shelve", until: START + 500 * MINUTE, note: "Known." });
    expect(
      (await bringIn(plant.database, tidyFile(pieces(63, [10.05])), { at: START + 64 * MINUTE })).alarms,
    ).toBe(0);
    expect(await listAlarms(plant.database, { open: true })).toMatchObject([{ state: "shelved" }]);
  });
});

test("an excursion that goes on after its return wants to be seen anew", async () => {
  const plant = await plantWithAlarm();
  const { database, alarmId, jo } = plant;
  await act(plant, jo, 62, { kind: "acknowledge", note: "" });
  await bringIn(database, tidyFile(steady(67, 6)), { at: START + 75 * MINUTE });
  expect(await alarmById(database, alarmId)).toMatchObject({ state: "returned" });
  // Late pieces between the two stretches join both into one excursion that has not returned.
  await bringIn(database, tidyFile(pieces(80, [10.05])), { at: START + 85 * MINUTE });
  const open = await listAlarms(database, { open: true });
  expect(open.map(({ state }) => state)).toContain("unacknowledged");
});

test("a withdrawn alarm keeps what people wrote and is closed with a remark", async () => {
  const plant = await plantWithAlarm();
  const { database, alarmId, intakeId, jo } = plant;
  await act(plant, jo, 62, { kind: "note", note: "Gauge was dirty." });
  await undoIntake(database, { id: intakeId, actor: { accountId: jo, at: START + 70 * MINUTE } });
  expect(await kinds(plant)).toEqual(["raised", "note", "withdrawn"]);
  expect(await act(plant, jo, 71, { kind: "close", note: "" })).toMatchObject({ ok: false });
  expect(await act(plant, jo, 71, { kind: "close", note: "Intake undone: wrong file." })).toMatchObject({
    state: "closed",
  });
  expect((await alarmById(database, alarmId))?.withdrawnAt).toBe(START + 70 * MINUTE);
});

test("nothing written about an alarm can be changed or taken away, not even by SQL", async () => {
  const plant = await plantWithAlarm();
  await act(plant, plant.jo, 62, { kind: "note", note: "First." });
  const { sqlite } = connectionOf(plant.database);
  expect(() => sqlite.exec("update alarm_event set note = 'Other.'")).toThrow("append-only");
  expect(() => sqlite.exec("delete from alarm_event")).toThrow("append-only");
  expect(() => sqlite.exec("replace into alarm_event select * from alarm_event limit 1")).toThrow(
    "append-only",
  );
});

describe("reaction plans", () => {
  test("a feature's own, else its part's, else the program's; versions stay, an alarm keeps the one it was raised under", async () => {
    const plant = await plantWithAlarm();
    const { database, alarmId, featureId, jo } = plant;
    const [feature] = await listFeatures(database);
    const write = (owner: { featureId: number } | { partId: number }, before: number, steps: string[]) =>
      writeReactionPlan(database, {
        owner,
        before,
        steps,
        verifySubgroups: 4,
        reason: "",
        actor: { accountId: jo, at: START },
      });
    expect((await planInForce(database, feature!)).of).toBe("default");
    expect(await write({ partId: feature!.partId }, 0, ["Stop.", " ", "Call."])).toEqual({
      ok: true,
      version: 1,
    });
    expect(await planInForce(database, feature!)).toMatchObject({
      of: "part",
      version: 1,
      steps: ["Stop.", "Call."],
    });
    expect(await write({ featureId }, 0, ["Look at the pin."])).toEqual({ ok: true, version: 1 });
    expect(await planInForce(database, feature!)).toMatchObject({ of: "feature", verifySubgroups: 4 });

    // Raised before anybody wrote one.
    const alarm = (await alarmById(database, alarmId))!;
    expect(
      (await planOfAlarm(database, { reactionPlanId: alarm.reactionPlanId, kind: feature!.kind })).of,
    ).toBe("default");
    await bringIn(database, tidyFile(steady(70, 8)), { at: START + 80 * MINUTE });
    await bringIn(database, tidyFile(pieces(90, [9.95])), { at: START + 91 * MINUTE });
    const [newer] = await listAlarms(database, { open: true });
    expect(
      await planOfAlarm(database, { reactionPlanId: newer!.reactionPlanId, kind: feature!.kind }),
    ).toMatchObject({
      of: "feature",
      steps: ["Look at the pin."],
    });

    expect(await write({ featureId }, 1, [])).toEqual({ ok: true, version: 2 });
    expect((await planInForce(database, feature!)).of).toBe("part");
    expect((await planVersions(database, { featureId })).map(({ version, by }) => [version, by])).toEqual([
      [2, "Jo Reed"],
      [1, "Jo Reed"],
    ]);
  });

  test("two people writing at once: the later one is told", async () => {
    const { database, featureId, jo } = await plantWithAlarm();
    const write = () =>
      writeReactionPlan(database, {
        owner: { featureId },
        before: 0,
        steps: ["Look."],
        verifySubgroups: 5,
        reason: "",
        actor: { accountId: jo, at: START },
      });
    expect(await write()).toEqual({ ok: true, version: 1 });
    expect(await write()).toMatchObject({
      ok: false,
      message: expect.stringContaining("Jo Reed has written version 1"),
    });
  });
});
