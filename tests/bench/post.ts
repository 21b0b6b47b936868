import { join } from "node:path";
import { readBody } from "../../app/api/v1/measurements/body";
import { judgeAnew } from "../../db/commands/judge-feature";
import { createFeature, createPart } from "../../db/commands/plan";
import { connectionOf, type Database, openDatabase, write } from "../../db/connection";
import { postMeasurements } from "../../db/intake/post-measurements";
import { replaceSeries } from "../../db/measurements/store";
import { migrate } from "../../db/migrate";
import { type ApiKey, apiKeyOf, createApiKey } from "../../db/people/api-keys";
import { readFeature } from "../../db/queries/features";
import { utc } from "../../lib/intake/zone";
import { emptySeries } from "../../lib/measurements/series";
import { randomStream } from "../../lib/random/random-stream";
import type { Bench, BenchOptions, BenchResult } from "./benches";
import { type Timing, timed } from "./timing";

const FEATURES = 50;
const ROWS = 1_000_000;
const POSTS = 500;
const A_SECOND = 50;
const START = Date.UTC(2026, 0, 1);
const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const LATE_POSTS = 10;
const LAST_BAR_MS = 50;

/**
 * Pieces of 50 features, posted one after the other onto a plant of many measurements: taken apart, checked,
 * stored, judged, alarms raised, committed with synchronous=FULL. In this process, without HTTP.
 */
export const post: Bench = { times: `a posted piece of ${FEATURES} features, on --rows measurements`, run };

async function run({ folder, rows = ROWS, runs }: BenchOptions): Promise<BenchResult> {
  const database = await openDatabase(join(folder, "post.db"));
  await migrate(database);
  const random = randomStream(1, "posted pieces");
  const value = () => 10 + 0.0115 * random.normal();
  await fill(database, { each: Math.floor(rows / FEATURES), value });
  const key = await benchKey(database);
  let latest = START + Math.floor(rows / FEATURES) * MINUTE_MS;
  const next = () => {
    latest += 1000;
    return latest;
  };

  const saturated: Timing = { label: `${POSTS} posts as fast as they go`, processor: [], clock: [] };
  const paced: number[] = [];
  for (let n = 0; n < runs; n++) {
    const [begun, used] = [performance.now(), process.cpuUsage()];
    for (let k = 0; k < POSTS; k++) await postOne(database, { key, at: next(), value });
    const { user, system } = process.cpuUsage(used);
    saturated.clock.push((performance.now() - begun) / 1000);
    saturated.processor.push((user + system) / 1e6);
    paced.push(...(await postPaced(database, { key, value, at: next })));
  }
  const late = { key, value, before: latest };
  const lateTimings = [
    await postLate(database, { ...late, by: HOUR_MS, label: "a piece that comes an hour late" }),
    await postLate(database, { ...late, by: 24 * HOUR_MS, label: "a piece that comes a day late" }),
  ];
  await database.close();
  paced.sort((a, b) => a - b);
  const at = (share: number) =>
    paced[Math.min(paced.length - 1, Math.floor(share * paced.length))] ?? Number.NaN;
  return {
    about: `${FEATURES} features a piece on ${rows} measurements`,
    timings: [saturated, ...lateTimings],
    ratios: [
      { label: `median of ${A_SECOND} posts a second, ms`, value: at(0.5) },
      { label: `p99 of ${A_SECOND} posts a second, ms`, value: at(0.99), bar: `under ${LAST_BAR_MS}` },
      { label: "longest, ms", value: at(1) },
    ],
    remarks: ["Waiting for the post before is counted. HTTP is not: the bench named serving has it."],
  };
}

/** Posts at a steady rate; each latency counts from the moment at which the post was due. */
async function postPaced(
  database: Database,
  { key, value, at }: { key: ApiKey; value: () => number; at: () => number },
): Promise<number[]> {
  const latencies: number[] = [];
  const begun = performance.now();
  for (let k = 0; k < POSTS; k++) {
    const due = begun + (k * 1000) / A_SECOND;
    const wait = due - performance.now();
    if (wait > 0) await new Promise((resolve) => setTimeout(resolve, wait));
    await postOne(database, { key, value, at: at() });
    latencies.push(performance.now() - due);
  }
  return latencies;
}

/** Pieces that were measured so much earlier than others that are stored. */
async function postLate(
  database: Database,
  {
    key,
    value,
    before,
    by,
    label,
  }: { key: ApiKey; value: () => number; before: number; by: number; label: string },
): Promise<Timing> {
  let k = 0;
  return timed(label, LATE_POSTS, {
    prepare: () => before - by + ++k,
    work: (at) => postOne(database, { key, value, at }),
  });
}

async function postOne(
  database: Database,
  { key, at, value }: { key: ApiKey; at: number; value: () => number },
): Promise<void> {
  const body = JSON.stringify({
    piece: `piece-${at}`,
    taken_at: new Date(at).toISOString(),
    part: "P-1",
    lot: `L-${Math.floor(at / 1e6)}`,
    fixture: "FX-1",
    gauge: "GA-1",
    measurements: Array.from({ length: FEATURES }, (_, f) => ({
      feature: `feature ${f}`,
      value: Number(value().toFixed(3)),
      unit: "mm",
      tool: `T-${f % 9}`,
    })),
  });
  const read = readBody(JSON.parse(body));
  if (!read.ok) throw new Error(read.reason);
  const result = await postMeasurements(database, {
    key,
    idempotencyKey: `piece-${at}`,
    body,
    posted: () => read.posted,
    zone: utc,
    actor: { accountId: null, at },
    now: Date.now(),
  });
  if (result.kind !== "stored") throw new Error(`A post was ${result.kind}.`);
}

async function fill(
  database: Database,
  { each, value }: { each: number; value: () => number },
): Promise<void> {
  const actor = { accountId: null, at: START };
  const entry = { number: "P-1", revision: "", name: "", line: "", material: "", expansion: null };
  const part = await createPart(database, entry, actor);
  if (!part.ok) throw new Error(part.message);
  for (let f = 0; f < FEATURES; f++) {
    const series = emptySeries(each);
    for (let i = 0; i < each; i++) {
      series.takenAt[i] = START + i * MINUTE_MS;
      series.value[i] = value();
      series.piece[i] = i + 1;
      series.intake[i] = 1;
      series.line[i] = i;
    }
    const made = await createFeature(database, { partId: part.id, entry: featureEntry(f), actor });
    if (!made.ok) throw new Error(made.message);
    await write(database, (connection) => {
      replaceSeries(connection, made.id, series);
      const feature = readFeature(connection, made.id);
      if (feature) judgeAnew(connection, { feature, at: START, lastBefore: null });
    });
  }
  connectionOf(database).sqlite.pragma("wal_checkpoint(TRUNCATE)");
}

function featureEntry(f: number) {
  return {
    name: `feature ${f}`,
    kind: "size" as const,
    nominal: 10,
    lower: 9.9,
    upper: 10.1,
    target: 10,
    naturalBound: null,
    unit: "mm" as const,
    resolution: 0.001,
    keyCharacteristic: false,
    subgroupSize: 5,
    chart: "xbar-r" as const,
    rules: ["beyond-3s", "two-of-three-2s", "four-of-five-1s", "nine-one-side"],
    length: null,
    expansion: null,
    reduced: false,
  };
}

async function benchKey(database: Database): Promise<ApiKey> {
  const made = await createApiKey(database, {
    entry: { name: "bench", scopes: ["post-measurements"], expiresAt: null },
    actor: { accountId: null, at: START },
  });
  if (!made.ok) throw new Error(made.message);
  const found = await apiKeyOf(database, { secret: made.secret, now: Date.now() });
  if (!found.ok) throw new Error(found.why);
  return found.key;
}
