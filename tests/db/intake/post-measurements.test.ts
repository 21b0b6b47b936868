import { expect, test } from "vitest";
import { readBody } from "../../../app/api/v1/measurements/body";
import { differingFeatures } from "../../../db/commands/rebuild";
import { connectionOf, type Database } from "../../../db/connection";
import {
  type Posted,
  type PostResult,
  postMeasurements,
  pruneAnswers,
} from "../../../db/intake/post-measurements";
import { settle } from "../../../db/measurements/settle";
import { type ApiKey, apiKeyOf, createApiKey } from "../../../db/people/api-keys";
import { intakeById, refusalsOf } from "../../../db/queries/intakes";
import { newsAfter } from "../../../db/queries/news";
import { utc } from "../../../lib/intake/zone";
import { bringIn, emptyPlant, SOMEBODY, tidyFile } from "../plant";

const START = Date.UTC(2026, 0, 5, 6);
const MINUTE = 60_000;

async function plantWithKey() {
  const database = await emptyPlant();
  const made = await createApiKey(database, {
    entry: { name: "cell A", scopes: ["post-measurements"], expiresAt: null },
    actor: SOMEBODY,
  });
  if (!made.ok) throw new Error(made.message);
  const found = await apiKeyOf(database, { secret: made.secret, now: SOMEBODY.at });
  if (!found.ok) throw new Error(found.why);
  return { database, key: found.key };
}

type Reading = { at?: number; piece?: string; feature?: string; value: number | string; taken_at?: string };

function requestOf(readings: readonly Reading[]): Posted {
  const rows = readings.map(({ at = START, piece = "1", feature = "bore", value, taken_at }, index) => ({
    line: index + 1,
    cells: {
      piece,
      taken_at: taken_at ?? new Date(at).toISOString(),
      part: "P-1",
      feature,
      nominal: 10,
      lower_tolerance: 9.9,
      upper_tolerance: 10.1,
      unit: "mm",
      value,
    },
  }));
  return { rows, refusals: [], paths: rows.map((_, index) => `measurements[${index}]`) };
}

function post(
  database: Database,
  key: ApiKey,
  readings: readonly Reading[],
  { idempotencyKey = null as string | null, body = JSON.stringify(readings) } = {},
): Promise<PostResult> {
  return postMeasurements(database, {
    key,
    idempotencyKey,
    body,
    posted: () => requestOf(readings),
    zone: utc,
    actor: SOMEBODY,
    now: SOMEBODY.at,
  });
}

function answerOf(result: PostResult) {
  if (result.kind !== "stored") throw new Error(`The request was ${result.kind}.`);
  return JSON.parse(result.answer);
}

/** What the tables hold of the posted measurements, whoever stored them. */
function derivedOf(database: Database) {
  const connection = connectionOf(database);
  settle(connection); // Which also stores the states that are behind.
  const { sqlite } = connection;
  const all = (sql: string) => sqlite.prepare(sql).raw().all();
  return {
    signals: all(
      "select feature_id, chart, at, rule, direction, at_time, members from signal order by 1, 2, 3, 4, 5",
    ),
    states: all("select feature_id, last_at, progress from feature_state order by 1"),
    standings: all("select feature_id, recent, standing from feature_standing order by 1"),
    alarms: all("select feature_id, first_at, latest_at, state, words from alarm order by 1, 2"),
  };
}

function steady(count: number): Reading[] {
  return Array.from({ length: count }, (_, i) => ({
    at: START + i * MINUTE,
    piece: String(i),
    value: 10 + 0.001 * ((i * 7) % 11) - 0.005,
  }));
}

test("law: pieces posted one by one end in the same signals, standings and alarms as one file of them", async () => {
  const readings = [...steady(60), { at: START + 70 * MINUTE, piece: "out", value: 10.08 }];
  const { database, key } = await plantWithKey();
  // The first ones come as a file in both, so that the chart is the same.
  const begun = (plant: Database) =>
    bringIn(
      plant,
      tidyFile(readings.slice(0, 30).map(({ at = 0, piece = "", value }) => ({ takenAt: at, piece, value }))),
      {
        subgroupSize: 1,
      },
    );
  await begun(database);
  for (const reading of readings.slice(30)) answerOf(await post(database, key, [reading]));

  const other = await emptyPlant();
  await begun(other);
  await bringIn(
    other,
    tidyFile(readings.map(({ at = 0, piece = "", value }) => ({ takenAt: at, piece, value }))),
  );
  expect(derivedOf(database)).toEqual(derivedOf(other));
  expect(derivedOf(database).alarms).toHaveLength(1);
});

test("the answer names what was accepted, there already and refused, the signals and the alarm", async () => {
  const { database, key } = await plantWithKey();
  const before = steady(40);
  await bringIn(
    database,
    tidyFile(before.map(({ at = 0, piece = "", value }) => ({ takenAt: at, piece, value }))),
    {
      subgroupSize: 1,
    },
  );
  const out = { at: START + 60 * MINUTE, piece: "out", value: 10.08 };
  const last = before[39] as Reading;
  const result = answerOf(
    await post(database, key, [last, out, { ...out, feature: "", piece: "x" }, { ...out, taken_at: "soon" }]),
  );
  expect(result).toMatchObject({
    accepted: 1,
    duplicates: 1,
    corrections: 0,
    refused: 2,
    refusals: [
      { row: 3, path: "measurements[2].feature", field: "feature" },
      { row: 4, path: "measurements[3].taken_at", field: "taken_at" },
    ],
    alarms: [{ id: 1, part: "P-1", feature: "bore", words: expect.stringMatching(/./) }],
  });
  expect(result.signals).toContainEqual({
    part: "P-1",
    feature: "bore",
    chart: expect.any(String),
    rule: "beyond-3s",
    direction: "up",
    taken_at: new Date(out.at).toISOString(),
  });
  expect(await intakeById(database, result.intake)).toMatchObject({
    kind: "post",
    file: "key cell A",
    state: "done",
    accepted: 1,
    refused: 2,
  });
  expect(await refusalsOf(database, result.intake)).toHaveLength(2);
  const told = await newsAfter(database, { after: 0, limit: 100 });
  expect(told.at(-2)).toMatchObject({ kind: "alarm", what: "raised", alarmId: 1 });
  expect(told.at(-1)).toMatchObject({ kind: "intake", intakeId: result.intake });
});

test("the same request again gets the same answer and stores nothing; another body under its key is a conflict", async () => {
  const { database, key } = await plantWithKey();
  const first = await post(database, key, [{ value: 10.01 }], { idempotencyKey: "a-1" });
  const again = await post(database, key, [{ value: 10.01 }], { idempotencyKey: "a-1" });
  expect(first).toMatchObject({ kind: "stored", isRepeated: false });
  expect(again).toEqual({ ...first, isRepeated: true });
  expect(await post(database, key, [{ value: 10.02 }], { idempotencyKey: "a-1" })).toEqual({
    kind: "conflict",
  });
  const count = connectionOf(database).sqlite.prepare("select count(*) from intake").pluck();
  expect(count.get()).toBe(1);

  // Another machine may use the same words, and without the key the measurement itself is recognised.
  const other = { ...key, id: key.id + 1 };
  expect(answerOf(await post(database, other, [{ value: 10.01 }], { idempotencyKey: "a-1" }))).toMatchObject({
    accepted: 0,
    duplicates: 1,
    message: expect.stringContaining("The same request as intake 1"),
  });
});

test("two of the same request at once store it once", async () => {
  const { database, key } = await plantWithKey();
  const results = await Promise.all(
    [1, 2, 3].map(() => post(database, key, [{ value: 10.01 }], { idempotencyKey: "b" })),
  );
  expect(new Set(results.map((result) => result.kind === "stored" && result.answer)).size).toBe(1);
  expect(results.filter((result) => result.kind === "stored" && !result.isRepeated)).toHaveLength(1);
});

test("a request of which nothing can be taken leaves nothing behind, and may be sent again corrected", async () => {
  const { database, key } = await plantWithKey();
  const result = await post(database, key, [{ value: "ten" }, { value: 1e300, taken_at: "" }], {
    idempotencyKey: "c",
  });
  expect(result).toMatchObject({
    kind: "refused",
    count: 2,
    refused: [{ row: 1, path: "measurements[0].value" }, { row: 2 }],
  });
  const { sqlite } = connectionOf(database);
  for (const table of ["intake", "refusal", "part", "feature", "piece", "post_answer", "news"])
    expect(sqlite.prepare(`select count(*) from ${table}`).pluck().get(), table).toBe(0);
  expect(answerOf(await post(database, key, [{ value: 10 }], { idempotencyKey: "c" }))).toMatchObject({
    accepted: 1,
  });
});

test("a piece without a measurement is refused at the field that is empty", async () => {
  const { database, key } = await plantWithKey();
  const read = readBody({ piece: "1", taken_at: "2026-01-05T06:00:00Z", measurements: [] });
  if (!read.ok) throw new Error(read.reason);
  const asked = { key, idempotencyKey: null, body: "", zone: utc, actor: SOMEBODY, now: SOMEBODY.at };
  const result = await postMeasurements(database, { ...asked, posted: () => read.posted });
  expect(result).toMatchObject({
    kind: "refused",
    refused: [{ path: "measurements", field: "measurements" }],
  });
});

test("pieces that come out of order end as if they had come in order, and the late ones are counted", async () => {
  const readings = steady(40);
  const inOrder = await plantWithKey();
  for (const reading of readings) await post(inOrder.database, inOrder.key, [reading]);
  const shuffled = await plantWithKey();
  const order = readings.map((_, i) => (i * 7) % 40).sort((a, b) => (a < 20 ? 0 : 1) - (b < 20 ? 0 : 1));
  let late = 0;
  for (const i of order)
    late += answerOf(await post(shuffled.database, shuffled.key, [readings[i] as Reading])).late;
  expect(late).toBeGreaterThan(5);
  const { signals, states } = derivedOf(inOrder.database);
  expect(derivedOf(shuffled.database)).toMatchObject({ signals, states });
});

test("pieces of one and the same second end as a file of them would, and an alarm of that second is raised", async () => {
  const readings = steady(40);
  const last = readings.at(-1) as Reading;
  const tied: Reading[] = [
    { ...last, piece: "t1", value: 10.001 },
    { ...last, piece: "t2", value: 10.09 },
    { ...last, piece: "t3", value: 10.002 },
    { ...last, piece: "t4", value: 9.999 },
  ];
  const rowsOf = (all: readonly Reading[]) =>
    tidyFile(all.map(({ at = 0, piece = "", value }) => ({ takenAt: at, piece, value })));
  const { database, key } = await plantWithKey();
  await bringIn(database, rowsOf(readings), { subgroupSize: 1 });
  answerOf(await post(database, key, tied.slice(0, 1)));
  const out = answerOf(await post(database, key, tied.slice(1)));
  expect(out).toMatchObject({ accepted: 3, late: 0, alarms: [{ feature: "bore" }] });
  // Sent once more without an idempotency key: all of them are known.
  expect(answerOf(await post(database, key, [...tied].reverse()))).toMatchObject({
    accepted: 0,
    duplicates: 4,
  });

  const other = await emptyPlant();
  await bringIn(other, rowsOf([...readings, ...tied]), { subgroupSize: 1 });
  const { signals, states } = derivedOf(other);
  expect(derivedOf(database)).toMatchObject({ signals, states });
});

test("answers are forgotten after a week, and the measurement is then known by itself", async () => {
  const { database, key } = await plantWithKey();
  await post(database, key, [{ value: 10 }], { idempotencyKey: "d" });
  const A_WEEK = 7 * 24 * 3_600_000;
  expect(await pruneAnswers(database, { now: SOMEBODY.at + A_WEEK })).toBe(0);
  expect(await pruneAnswers(database, { now: SOMEBODY.at + A_WEEK + 1 })).toBe(1);
  expect(answerOf(await post(database, key, [{ value: 10 }], { idempotencyKey: "d" }))).toMatchObject({
    accepted: 0,
    duplicates: 1,
  });
});

test("pieces that are posted at the same moment in any order are none of them late, and one that fails is alone in it", async () => {
  const { database, key } = await plantWithKey();
  const readings = steady(30);
  const shuffled = readings.map((_, i) => readings[(i * 7) % 30] as Reading);
  const answers = await Promise.all(shuffled.map((reading) => post(database, key, [reading])));
  expect(answers.map((result) => answerOf(result).late)).toEqual(shuffled.map(() => 0));
  const inOrder = await plantWithKey();
  for (const reading of readings) await post(inOrder.database, inOrder.key, [reading]);
  expect(derivedOf(database)).toEqual(derivedOf(inOrder.database));

  // A trigger in the place of a fault of the program, for one piece among three.
  connectionOf(database).sqlite.exec(
    "create temp trigger fault before insert on piece when new.serial = 'b' begin select raise(abort, 'fault'); end",
  );
  const three = ["a", "b", "c"].map((piece, i) => ({ at: START + (60 + i) * MINUTE, piece, value: 10.001 }));
  const outcomes = await Promise.allSettled(three.map((reading) => post(database, key, [reading])));
  expect(outcomes.map(({ status }) => status)).toEqual(["fulfilled", "rejected", "fulfilled"]);
  for (const reading of [three[0], three[2]]) await post(inOrder.database, inOrder.key, [reading as Reading]);
  expect(derivedOf(database)).toEqual(derivedOf(inOrder.database));
});

test("a piece is one row of arrivals also while its features' limits still change with every subgroup", async () => {
  const { database, key } = await plantWithKey();
  const features = ["bore", "depth", "width"];
  for (const { at = 0, piece = "", value } of steady(30))
    answerOf(
      await post(
        database,
        key,
        features.map((feature) => ({ at, piece, feature, value })),
      ),
    );
  const { sqlite } = connectionOf(database);
  expect(sqlite.prepare("select count from arrival").pluck().all()).toEqual(Array(30).fill(3));
  expect(await differingFeatures(database)).toEqual([]);
});

test("counts are posted with what was inspected, beside measured values, and each is judged by its own sample", async () => {
  const { database, key } = await plantWithKey();
  const send = (sample: number, found: number, inspected: number | null) => {
    const body = {
      piece: `B-${sample}`,
      taken_at: new Date(START + sample * MINUTE).toISOString(),
      part: "P-1",
      measurements: [
        { feature: "rejects", value: found, inspected },
        { feature: "bore", value: 10.001, unit: "mm" },
      ],
    };
    const read = readBody(body);
    if (!read.ok) throw new Error(read.reason);
    return postMeasurements(database, {
      ...{ key, idempotencyKey: null, body: JSON.stringify(body), posted: () => read.posted, zone: utc },
      ...{ actor: SOMEBODY, now: SOMEBODY.at },
    });
  };
  // The first 25, 12 of 100 and 24 of 300 in turn: p̄ = (13·12 + 12·24)/(13·100 + 12·300) = 444/4900 = 0.0906, and
  // 3√(p̄(1 − p̄)/n) is 0.0861 of 100 and 0.0497 of 300: 17.7 of 100 and 42.1 of 300 are the limits.
  for (let sample = 0; sample < 26; sample++)
    await send(sample, sample % 2 === 0 ? 12 : 24, sample % 2 === 0 ? 100 : 300);
  const signals = [];
  for (const [i, [found, inspected]] of [
    [17, 100] as const,
    [18, 100] as const,
    [42, 300] as const,
    [43, 300] as const,
  ].entries())
    signals.push(answerOf(await send(26 + i, found, inspected)).signals.length);
  expect(signals).toEqual([0, 1, 0, 1]);

  // What is not stated does not fit a plan that the first sample made without a usual size.
  const left = answerOf(await send(30, 5, null));
  expect(left).toMatchObject({ accepted: 1, refusals: [{ row: 1, field: "inspected" }] });
  settle(connectionOf(database));
  expect(await differingFeatures(database)).toEqual([]);
});
