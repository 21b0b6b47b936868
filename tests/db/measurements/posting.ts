import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import { type Database, openDatabase } from "../../../db/connection";
import { postMeasurements } from "../../../db/intake/post-measurements";
import { migrate } from "../../../db/migrate";
import { type ApiKey, apiKeyOf, createApiKey } from "../../../db/people/api-keys";
import { utc } from "../../../lib/intake/zone";
import { bringIn, SOMEBODY, tidyFile } from "../plant";

export const START = Date.UTC(2026, 0, 5, 6);
export const MINUTE = 60_000;
export const FEATURES = ["bore", "depth", "width"];

/** A plant in a file, open twice as by two processes, with 90 pieces judged and a machine's key. */
export async function plantOpenTwice() {
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-known-"));
  const here = await openDatabase(join(folder, "steadyrest.db"));
  const there = await openDatabase(join(folder, "steadyrest.db"));
  onTestFinished(async () => {
    await here.close();
    await there.close();
    rmSync(folder, { recursive: true, force: true });
  });
  await migrate(here);
  const rows = FEATURES.flatMap((feature) =>
    Array.from({ length: 90 }, (_, i) => ({
      piece: `S-${i}`,
      takenAt: START + i * MINUTE,
      feature,
      value: valueAt(i),
    })),
  );
  await bringIn(here, tidyFile(rows), { subgroupSize: 3 });
  return { folder, here, there, key: await keyOf(here) };
}

export const valueAt = (i: number) => 10 + (((i * 7) % 11) - 5) / 1000;

async function keyOf(database: Database): Promise<ApiKey> {
  const made = await createApiKey(database, {
    entry: { name: "cell A", scopes: ["post-measurements"], expiresAt: null },
    actor: SOMEBODY,
  });
  if (!made.ok) throw new Error(made.message);
  const found = await apiKeyOf(database, { secret: made.secret, now: SOMEBODY.at });
  if (!found.ok) throw new Error(found.why);
  return found.key;
}

/** Posts the i-th piece: all features, or those named. */
export async function post(
  database: Database,
  key: ApiKey,
  i: number,
  {
    value = valueAt(i),
    features = FEATURES,
    lot = "L-1",
    piece = `S-${i}`,
    idempotencyKey = null as string | null,
  } = {},
) {
  const rows = features.map((feature, index) => ({
    line: index + 1,
    cells: {
      piece,
      taken_at: new Date(START + i * MINUTE).toISOString(),
      part: "P-1",
      lot,
      feature,
      value,
    },
  }));
  const result = await postMeasurements(database, {
    key,
    idempotencyKey,
    body: JSON.stringify(rows),
    posted: () => ({ rows, refusals: [], paths: rows.map((_, index) => `measurements[${index}]`) }),
    zone: utc,
    actor: SOMEBODY,
    now: SOMEBODY.at,
  });
  if (result.kind !== "stored") throw new Error(`The request was ${result.kind}.`);
  return JSON.parse(result.answer);
}

export async function postMany(database: Database, key: ApiKey, from: number, to: number): Promise<void> {
  for (let i = from; i < to; i++) await post(database, key, i);
}
