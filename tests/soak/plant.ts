import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createAccount, createSession } from "../../db/commands/accounts";
import { connectionOf, type Database, openDatabase } from "../../db/connection";
import { postMeasurements } from "../../db/intake/post-measurements";
import { measurementCount } from "../../db/measurements/store";
import { migrate } from "../../db/migrate";
import { apiKeyOf, createApiKey } from "../../db/people/api-keys";
import { latestNewsId } from "../../db/queries/news";
import { utc } from "../../lib/intake/zone";

export const PART = "S-1";
export const FEATURES = 10;
const HISTORY = 60;
const MINUTE_MS = 60_000;

export type SoakPlant = {
  folder: string;
  database: Database;
  secret: string;
  /** What a signed-in person's browser sends. */
  cookie: string;
  /** News before the soak begins; what comes later is what it proves. */
  newsBefore: number;
  measurementsBefore: number;
  remove(): Promise<void>;
};

/** A value about 10 whose deviations repeat every 11 pieces, all well within their limits. */
export function steadyValue(n: number, feature: number): number {
  return Math.round(10_000 + ((n * 7 + feature * 3) % 11) - 5) / 1000;
}

/** A plant of ten features with a short history, a person who looks, and a key that posts. */
export async function soakPlant(): Promise<SoakPlant> {
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-soak-"));
  const database = await openDatabase(join(folder, "steadyrest.db"));
  await migrate(database);
  const now = Date.now();
  const actor = { accountId: null, at: now };
  const account = await createAccount(database, {
    entry: { login: "viewer", name: "Viewer", password: "soak soak soak", roles: ["viewer"] },
    actor,
  });
  if (!account.ok) throw new Error(account.message);
  const { token } = await createSession(database, { accountId: account.id, now });
  const key = await createApiKey(database, {
    entry: { name: "soak", scopes: ["post-measurements"], expiresAt: null },
    actor,
  });
  if (!key.ok) throw new Error(key.message);
  const found = await apiKeyOf(database, { secret: key.secret, now });
  if (!found.ok) throw new Error(found.why);

  const rows = Array.from({ length: HISTORY * FEATURES }, (_, index) => {
    const n = Math.floor(index / FEATURES);
    const feature = index % FEATURES;
    const cells = {
      piece: `history-${n}`,
      taken_at: new Date(now - (HISTORY + 10 - n) * MINUTE_MS).toISOString(),
      part: PART,
      feature: `feature ${feature}`,
      nominal: 10,
      lower_tolerance: 9.9,
      upper_tolerance: 10.1,
      unit: "mm",
      value: steadyValue(n, feature),
    };
    return { line: index + 1, cells };
  });
  const posted = { rows, refusals: [], paths: rows.map(({ line }) => String(line)) };
  await postMeasurements(database, {
    key: found.key,
    idempotencyKey: null,
    body: "history",
    posted: () => posted,
    zone: utc,
    actor,
    now,
  });
  return {
    folder,
    database,
    secret: key.secret,
    cookie: `steadyrest-session=${token}`,
    newsBefore: await latestNewsId(database),
    measurementsBefore: HISTORY * FEATURES,
    async remove() {
      await database.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** What the database holds at the end, counted by plain SQL. */
export function countsOf(database: Database) {
  const { sqlite } = connectionOf(database);
  const one = (sql: string) => sqlite.prepare(sql).pluck().get() as number;
  return {
    measurements: measurementCount(connectionOf(database)),
    posts: one("select count(*) from intake where kind = 'post' and state = 'done'"),
    alarms: sqlite.prepare("select id from alarm order by id").pluck().all() as number[],
    integrity: sqlite.pragma("integrity_check", { simple: true }) as string,
  };
}
