import { join } from "node:path";
import { createAccount, createSession } from "../../db/commands/accounts";
import { connectionOf, type Database, openDatabase, write } from "../../db/connection";
import { settle } from "../../db/measurements/settle";
import { measurementCount } from "../../db/measurements/store";
import { migrate } from "../../db/migrate";
import { createApiKey } from "../../db/people/api-keys";
import { listFeatures } from "../../db/queries/features";
import { latestNewsId } from "../../db/queries/news";
import { emptySeries } from "../../lib/measurements/series";
import { Random } from "../drift/random";
import { codeOf, type Plant, plantOf } from "./drift-data";
import { storedOnce } from "./stored-plant";

const SEED = 20_260_105;
const FEATURES_OF_A_PART = 500;
const MOST_OF_ONE_FEATURE = 1_000_000;
const LONG_PART = "P-LONG";
const START = Date.UTC(2026, 0, 5, 6);
const TEN_SECONDS = 10_000;

/** A plant's data folder with somebody who may look and a machine that may post. */
export type ServedPlant = {
  data: string;
  measurements: number;
  features: number;
  cookie: string;
  secret: string;
  /** The id of the feature with the longest history, and how long that is. */
  longest: number;
  readings: number;
  /** The latest measurement of the features that are posted. */
  latest: number;
  newsBefore: number;
};

/**
 * 2,000 features of four parts and one feature whose history is a million measurements long, or half of all of them;
 * made in `folder`, or found there when an earlier run has left it.
 */
export async function servedPlant(folder: string, rows: number): Promise<ServedPlant> {
  const readings = Math.min(MOST_OF_ONE_FEATURE, Math.floor(rows / 2));
  const calm = { seed: SEED, lots: 60, featuresOfAPart: FEATURES_OF_A_PART, isCalm: true };
  const data = await storedOnce(join(folder, `serving-${rows}`), [
    () => plantOf(rows - readings, calm),
    () => longHistory(readings),
  ]);
  const database = await openDatabase(join(data, "steadyrest.db"));
  // One that was kept may be of an older version.
  await migrate(database);
  try {
    return { data, ...(await peopleAndKeys(database)), ...(await sizesOf(database)) };
  } finally {
    await database.close();
  }
}

/** One feature, a reading every ten seconds, a lot every thousand. */
function longHistory(count: number): Plant {
  const random = new Random(SEED);
  const series = emptySeries(count);
  for (let i = 0; i < count; i++) {
    series.value[i] = Math.round((25 + 0.005 * random.normal()) * 1000) / 1000;
    series.takenAt[i] = START + i * TEN_SECONDS;
    series.partTemp[i] = 20;
    series.piece[i] = i + 1;
    series.lot[i] = Math.floor(i / 1000) + 1;
    series.fixture[i] = (i % 2) + 1;
    series.tool[i] = Math.floor(i / 500) + 1;
    series.machine[i] = 1;
    series.gauge[i] = 1;
    series.operator[i] = (Math.floor(i / 2880) % 3) + 1;
  }
  const feature = {
    name: "Bore",
    kind: "size" as const,
    nominal: 25,
    lower: 24.97,
    upper: 25.03,
    unit: "mm" as const,
    resolution: 0.001,
    series,
  };
  return { parts: [{ part: LONG_PART, features: [feature] }], codeOf, lots: 60, rows: count };
}

async function peopleAndKeys(database: Database) {
  const actor = { accountId: null, at: Date.now() };
  const login = `bench-${actor.at}`;
  const account = await createAccount(database, {
    entry: { login, name: "Bench", password: `${Math.random()} of the bench`, roles: ["engineer"] },
    actor,
  });
  if (!account.ok) throw new Error(account.message);
  const { token } = await createSession(database, { accountId: account.id, now: actor.at });
  const key = await createApiKey(database, {
    entry: { name: login, scopes: ["post-measurements"], expiresAt: null },
    actor,
  });
  if (!key.ok) throw new Error(key.message);
  const newsBefore = await latestNewsId(database);
  return { cookie: `steadyrest-session=${token}`, secret: key.secret, newsBefore };
}

/** Counted in the database: one that was found has what earlier runs have posted. */
async function sizesOf(database: Database) {
  const features = await listFeatures(database);
  const longest = features.find(({ part }) => part.number === LONG_PART);
  if (!longest) throw new Error(`${database.path} holds no feature of ${LONG_PART}.`);
  const connection = connectionOf(database);
  await write(database, settle); // Which also stores the states that are behind.
  const { sqlite } = connection;
  const one = (query: string, ...values: unknown[]) =>
    sqlite
      .prepare(query)
      .pluck()
      .get(...values) as number;
  return {
    features: features.length,
    measurements: measurementCount(connection),
    longest: longest.id,
    readings: one("select sum(count) from measurement_block where feature_id = ?", longest.id),
    latest: one("select max(last_at) from feature_state where feature_id <> ?", longest.id),
  };
}
