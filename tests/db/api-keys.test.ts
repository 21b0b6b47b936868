import { expect, test } from "vitest";
import { connectionOf, write } from "../../db/connection";
import { apiKeyOf, createApiKey, listApiKeys, markUse, revokeApiKey } from "../../db/people/api-keys";
import { emptyPlant, SOMEBODY } from "./plant";

const A_DAY = 24 * 3_600_000;
const NOW = SOMEBODY.at;

async function plantWithKey({ expiresAt = null as number | null } = {}) {
  const database = await emptyPlant();
  const entry = { name: "cell A", scopes: ["post-measurements"] as const, expiresAt };
  const made = await createApiKey(database, { entry, actor: SOMEBODY });
  if (!made.ok) throw new Error(made.message);
  return { database, ...made };
}

test("a key lets in who has its secret, and nobody else", async () => {
  const { database, id, secret } = await plantWithKey();
  const found = await apiKeyOf(database, { secret, now: NOW });
  expect(found).toMatchObject({ ok: true, key: { id, name: "cell A", scopes: ["post-measurements"] } });
  for (const wrong of ["", "srk_", secret.slice(0, -1), `${secret}x`, secret.toUpperCase()])
    expect(await apiKeyOf(database, { secret: wrong, now: NOW })).toEqual({ ok: false, why: "unknown" });
});

test("the secret itself is nowhere in the database, the record included", async () => {
  const { database, secret } = await plantWithKey();
  const { sqlite } = connectionOf(database);
  const tables = sqlite
    .prepare("select name from sqlite_master where type = 'table'")
    .pluck()
    .all() as string[];
  const everything = tables.map((name) => JSON.stringify(sqlite.prepare(`select * from "${name}"`).all()));
  expect(everything.join()).toContain(secret.slice(0, 8));
  expect(everything.join()).not.toContain(secret.slice(4));
});

test("it ends on its day, and at once when somebody ends it", async () => {
  const { database, id, secret } = await plantWithKey({ expiresAt: NOW + A_DAY });
  expect(await apiKeyOf(database, { secret, now: NOW + A_DAY - 1 })).toMatchObject({ ok: true });
  expect(await apiKeyOf(database, { secret, now: NOW + A_DAY })).toEqual({
    ok: false,
    why: "expired",
    name: "cell A",
    at: NOW + A_DAY,
  });
  expect(await revokeApiKey(database, { id, actor: SOMEBODY })).toEqual({ ok: true, name: "cell A" });
  expect(await apiKeyOf(database, { secret, now: NOW })).toMatchObject({ ok: false, why: "revoked" });
  expect(await revokeApiKey(database, { id, actor: SOMEBODY })).toMatchObject({ ok: false });
  expect((await listApiKeys(database))[0]).toMatchObject({ id, revokedAt: NOW });
});

test("a name stands for one key at a time", async () => {
  const { database, id } = await plantWithKey();
  const again = { name: " cell A ", scopes: ["show-wall"] as const, expiresAt: null };
  expect(await createApiKey(database, { entry: again, actor: SOMEBODY })).toMatchObject({
    ok: false,
    message: expect.stringContaining('there is a key "cell A" already'),
  });
  await revokeApiKey(database, { id, actor: SOMEBODY });
  expect(await createApiKey(database, { entry: again, actor: SOMEBODY })).toMatchObject({ ok: true });
});

test.each([
  [{ name: " ", scopes: ["show-wall"] as const, expiresAt: null }, "a name of 1 to 80"],
  [{ name: "x".repeat(81), scopes: ["show-wall"] as const, expiresAt: null }, "a name of 1 to 80"],
  [{ name: "wall", scopes: [], expiresAt: null }, "choose at least one thing"],
  [{ name: "wall", scopes: ["show-wall"] as const, expiresAt: NOW }, "has passed already"],
])("what will not do is refused in words: %o", async (entry, words) => {
  const database = await emptyPlant();
  expect(await createApiKey(database, { entry, actor: SOMEBODY })).toMatchObject({
    ok: false,
    message: expect.stringContaining(words),
  });
  expect(await listApiKeys(database)).toEqual([]);
});

test("its use is marked to the minute", async () => {
  const { database, secret } = await plantWithKey();
  const use = async (now: number) => {
    const found = await apiKeyOf(database, { secret, now });
    if (found.ok) await write(database, (connection) => markUse(connection, found.key, now));
    return (await listApiKeys(database))[0]?.lastUsedAt;
  };
  expect(await use(NOW)).toBe(NOW);
  expect(await use(NOW + 59_000)).toBe(NOW);
  expect(await use(NOW + 60_000)).toBe(NOW + 60_000);
});
