import { afterEach, beforeEach, describe, expect, test } from "vitest";
import {
  createAccount,
  createSession,
  endSession,
  openSetUp,
  SESSION_MS,
  setUp,
} from "../../db/commands/accounts";
import { changeSettings } from "../../db/commands/settings";
import { type Database, openDatabase } from "../../db/connection";
import { migrate } from "../../db/migrate";
import { hashPassword, isPassword } from "../../db/people/password";
import { checkPassword } from "../../db/people/sign-in";
import { accountOfSession, demoAccounts, mayBeSetUp } from "../../db/queries/accounts";

const NOW = Date.UTC(2024, 10, 11);
const PROGRAM = { accountId: null, at: NOW };
const ENGINEER = { login: "jr", name: "J. Rossi", password: "steady bore", roles: ["engineer"] as const };

let database: Database;

/** The account that login and password open, from a browser nobody knows; null for none. */
async function accountForLogin(_: Database, { login, password }: { login: string; password: string }) {
  const origin = { device: "", address: "" };
  const checked = await checkPassword(database, { login, password, origin, now: NOW });
  return checked.ok ? checked.account : null;
}

beforeEach(async () => {
  database = await openDatabase(":memory:");
  await migrate(database);
});

afterEach(() => database.close());

async function engineer(changes: { demo?: boolean } = {}): Promise<number> {
  const saved = await createAccount(database, { entry: { ...ENGINEER, ...changes }, actor: PROGRAM });
  if (!saved.ok) throw new Error(saved.message);
  return saved.id;
}

describe("passwords", () => {
  test("the same password gives another digest each time, and all of them hold", async () => {
    const [one, two] = await Promise.all([hashPassword("steady bore"), hashPassword("steady bore")]);
    expect(one).not.toBe(two);
    expect(one).not.toContain("steady");
    expect(await isPassword("steady bore", one)).toBe(true);
    expect(await isPassword("steady bore", two)).toBe(true);
    expect(await isPassword("Steady bore", one)).toBe(false);
  });

  test("scrypt with the parameters that stand in the digest", async () => {
    // RFC 7914, section 12: the second vector, "password" and "NaCl" with N = 1024, r = 8, p = 16; its first
    // 32 bytes (from memory; recomputed with Python's hashlib.scrypt).
    const digest = Buffer.from("fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162", "hex");
    const salt = Buffer.from("NaCl").toString("base64url");
    const stored = `scrypt:1024:8:16:${salt}:${digest.toString("base64url")}`;
    expect(await isPassword("password", stored)).toBe(true);
    expect(await isPassword("passwort", stored)).toBe(false);
  });

  test("letters that can be typed in two ways are the same", async () => {
    expect(await isPassword("pru\u0308fer-12", await hashPassword("pr\u00fcfer-12"))).toBe(true);
  });

  test("a digest of another kind holds for no password", async () => {
    expect(await isPassword("", "")).toBe(false);
    expect(await isPassword("x", "md5:x")).toBe(false);
  });
});

describe("accounts", () => {
  test("a person signs in with the login in any case, and not with another password", async () => {
    const id = await engineer();
    const found = await accountForLogin(database, { login: " JR ", password: "steady bore" });
    expect(found).toEqual({ id, login: "jr", name: "J. Rossi", roles: ["engineer"], demo: false });
    expect(await accountForLogin(database, { login: "jr", password: "unsteady" })).toBeNull();
    expect(await accountForLogin(database, { login: "nobody", password: "steady bore" })).toBeNull();
  });

  test.each([
    [{ login: "JR" }, 'the login "jr" is taken'],
    [{ login: "j r" }, "a login is"],
    [{ login: "x", password: "short" }, "has 5 characters; at least 8"],
    [{ login: "x", name: " " }, "a name has"],
    [{ login: "x", roles: [] }, "at least one role"],
  ])("refused: %j", async (changes, why) => {
    await engineer();
    const saved = await createAccount(database, { entry: { ...ENGINEER, ...changes }, actor: PROGRAM });
    expect(saved).toMatchObject({ ok: false, message: expect.stringContaining(why) });
    if (!saved.ok) expect(saved.message).toMatch(/^Nothing saved: /);
  });

  test("an account of the demo is refused outside demo mode, also within an open session", async () => {
    const id = await engineer({ demo: true });
    const entry = { login: "jr", password: "steady bore" };
    expect(await accountForLogin(database, entry)).toBeNull();

    await changeSettings(database, { changes: { demo: true }, actor: PROGRAM });
    expect(await accountForLogin(database, entry)).not.toBeNull();
    expect(await demoAccounts(database)).toHaveLength(1);
    const { token } = await createSession(database, { accountId: id, now: NOW });
    expect(await accountOfSession(database, { token, now: NOW })).not.toBeNull();

    await changeSettings(database, { changes: { demo: false }, actor: PROGRAM });
    expect(await accountOfSession(database, { token, now: NOW })).toBeNull();
    expect(await demoAccounts(database)).toEqual([]);
  });
});

describe("sessions", () => {
  test("hold for twelve hours", async () => {
    const id = await engineer();
    const { token, expiresAt } = await createSession(database, { accountId: id, now: NOW });
    expect(expiresAt - NOW).toBe(SESSION_MS);
    expect((await accountOfSession(database, { token, now: expiresAt - 1 }))?.id).toBe(id);
    expect(await accountOfSession(database, { token, now: expiresAt })).toBeNull();
  });

  test("end when somebody signs out, and only that one", async () => {
    const id = await engineer();
    const one = await createSession(database, { accountId: id, now: NOW });
    const two = await createSession(database, { accountId: id, now: NOW });
    await endSession(database, { token: one.token });
    await endSession(database, { token: one.token });
    expect(await accountOfSession(database, { token: one.token, now: NOW })).toBeNull();
    expect(await accountOfSession(database, { token: two.token, now: NOW })).not.toBeNull();
  });

  test("an invented token opens nothing", async () => {
    expect(await accountOfSession(database, { token: "", now: NOW })).toBeNull();
  });
});

describe("the first account", () => {
  const entry = { login: "boss", name: "The boss", password: "one time only" };

  test("is made once, with the link, by an admin who is an engineer too", async () => {
    const token = (await openSetUp(database, { now: NOW })) ?? "";
    expect(await mayBeSetUp(database, { token, now: NOW })).toBe(true);
    expect((await setUp(database, { token, entry, at: NOW })).ok).toBe(true);
    const account = await accountForLogin(database, entry);
    expect(account?.roles).toEqual(["admin", "engineer"]);

    expect(await mayBeSetUp(database, { token, now: NOW })).toBe(false);
    expect((await setUp(database, { token, entry: { ...entry, login: "x" }, at: NOW })).ok).toBe(false);
    expect(await openSetUp(database, { now: NOW })).toBeNull();
  });

  test("the link ends after a day", async () => {
    const token = (await openSetUp(database, { now: NOW })) ?? "";
    const aDay = 24 * 60 * 60 * 1000;
    expect(await setUp(database, { token, entry, at: NOW + aDay })).toMatchObject({
      ok: false,
      message: expect.stringMatching(/^Nothing saved: this set-up link has been used, is older than a day/),
    });
    expect((await setUp(database, { token, entry, at: NOW + aDay - 1 })).ok).toBe(true);
  });

  test("a newer link takes the place of the one before, and a wrong entry uses none up", async () => {
    const old = (await openSetUp(database, { now: NOW })) ?? "";
    const token = (await openSetUp(database, { now: NOW })) ?? "";
    expect((await setUp(database, { token: old, entry, at: NOW })).ok).toBe(false);
    expect((await setUp(database, { token, entry: { ...entry, password: "short" }, at: NOW })).ok).toBe(
      false,
    );
    expect((await setUp(database, { token, entry, at: NOW })).ok).toBe(true);
  });

  test("two people with the link at once make one account", async () => {
    const token = (await openSetUp(database, { now: NOW })) ?? "";
    const outcomes = await Promise.allSettled(
      ["a", "b"].map((login) => setUp(database, { token, entry: { ...entry, login }, at: NOW })),
    );
    const made = outcomes.filter((outcome) => outcome.status === "fulfilled" && outcome.value.ok);
    expect(made).toHaveLength(1);
  });
});
