import { beforeAll, beforeEach, describe, expect, test } from "vitest";
import { connectionOf, type Database, write } from "../../db/connection";
import { admitGuess, noteRight } from "../../db/people/guesses";
import { hashPassword } from "../../db/people/password";
import { checkPin, setPin } from "../../db/people/pins";
import { checkPassword } from "../../db/people/sign-in";
import { account } from "../../db/schema";
import { pinFault } from "../../lib/people/pin";
import { emptyPlant } from "./plant";

const NOW = Date.UTC(2026, 0, 5, 8);
const SECOND = 1_000;
const MINUTE = 60 * SECOND;
const DAY = 24 * 60 * MINUTE;
const PASSWORD = "steady bore";
const PIN = "274105";
const TABLET = { device: "tablet-at-cell-three-x", address: "10.0.0.5" };
const ELSEWHERE = { device: "", address: "10.0.0.66" };

let database: Database;
let digests: { passwordHash: string; pinHash: string };
const ids: Record<string, number> = {};

beforeAll(async () => {
  digests = { passwordHash: await hashPassword(PASSWORD), pinHash: await hashPassword(PIN) };
});

beforeEach(async () => {
  database = await emptyPlant();
  const { orm } = connectionOf(database);
  for (const login of ["jr", "mk"]) {
    const row = { login, name: login, roles: ["shift-lead"], createdAt: NOW, ...digests };
    ids[login] = orm.insert(account).values(row).returning({ id: account.id }).get().id;
  }
});

const pinAt = (login: string, pin: string, origin: typeof TABLET, now = NOW) =>
  checkPin(database, { login, pin, origin, now });

type Who = { login: string; origin: typeof TABLET; now?: number };

/** Guesses that are not put right, counted as signing in counts them and without what a digest costs. */
function guess({ login, origin, now = NOW }: Who) {
  return admitGuess(database, { kind: "password", login, accountId: ids[login] ?? null, origin, now });
}

async function wrongBefore(count: number, who: Who) {
  const all = [];
  for (let i = 0; i < count; i++) all.push(await guess(who));
  return all;
}

/** Milliseconds for which the next guess waits; 0 makes it. */
async function wait(login: string, origin: typeof TABLET, now: number): Promise<number> {
  const admitted = await guess({ login, origin, now });
  return admitted.ok ? 0 : admitted.waitMs;
}

/** The person gets in here. */
function knownAt(login: string, origin: typeof TABLET): Promise<void> {
  const accountId = ids[login] as number;
  return write(database, (connection) =>
    noteRight(connection, { kind: "password", login, accountId, origin, now: NOW }),
  );
}

function recorded(): string[] {
  return connectionOf(database)
    .sqlite.prepare("select action || ': ' || subject from audit order by id")
    .pluck()
    .all() as string[];
}

describe("a PIN", () => {
  // NIST SP 800-63B (2017), 5.1.1.1: at least six digits where a secret is digits alone (from memory).
  test.each(["12345", "12345678901", "12 345 6", "a12345", "111111", "123456", "987654", "121212", "704704"])(
    "will not be %s",
    (pin) => expect(pinFault(pin, "jr")).not.toBeNull(),
  );

  test.each([PIN, "102938", "5550123456"])("may be %s", (pin) => expect(pinFault(pin, "jr")).toBeNull());

  test("is set by its person with the password, kept as a digest, and told in the record without it", async () => {
    const actor = { accountId: ids.jr as number, at: NOW };
    const entry = { accountId: ids.jr as number, pin: "918273", actor };
    expect(await setPin(database, { ...entry, password: "guessed it" })).toMatchObject({ ok: false });
    expect(await setPin(database, { ...entry, password: PASSWORD })).toEqual({ ok: true });
    expect(await pinAt("jr", "918273", TABLET)).toMatchObject({ ok: true, person: { id: ids.jr } });
    expect(recorded().at(-1)).toBe("set PIN: jr");
    const text = JSON.stringify(connectionOf(database).sqlite.prepare("select * from audit").all());
    expect(text).not.toContain("918273");

    await setPin(database, { ...entry, pin: null, password: PASSWORD });
    expect(await pinAt("jr", "918273", TABLET)).toMatchObject({ ok: false });
  });

  test("is its person's own, and of nobody who is not there or has none", async () => {
    expect(await pinAt(" JR ", PIN, TABLET)).toMatchObject({ ok: true, person: { login: "jr" } });
    expect(await pinAt("jr", "274106", TABLET)).toMatchObject({ ok: false });
    expect(await pinAt("nobody", PIN, TABLET)).toMatchObject({ ok: false });
    connectionOf(database).sqlite.prepare("update account set deactivated_at = 1 where login = 'jr'").run();
    expect(await pinAt("jr", PIN, TABLET)).toMatchObject({ ok: false });
  });
});

describe("wrong guesses", () => {
  test("on a device where the person is known: five are free, then waits double up to a quarter of an hour", async () => {
    await knownAt("jr", TABLET);
    await wrongBefore(5, { login: "jr", origin: TABLET });
    expect(await wait("jr", TABLET, NOW)).toBe(30 * SECOND);
    let now = NOW;
    const waits = [];
    for (let i = 0; i < 7; i++) {
      now += await wait("jr", TABLET, now);
      await wrongBefore(1, { login: "jr", origin: TABLET, now });
      waits.push((await wait("jr", TABLET, now)) / MINUTE);
    }
    expect(waits).toEqual([1, 2, 4, 8, 15, 15, 15]);
  });

  test("the right one begins anew", async () => {
    for (let round = 0; round < 3; round++) {
      await wrongBefore(9, { login: "jr", origin: ELSEWHERE });
      const asked = { login: "jr", password: PASSWORD, origin: ELSEWHERE, now: NOW };
      expect((await checkPassword(database, asked)).ok).toBe(true);
    }
  });

  test("by a stranger hold up strangers, not the person where they are known, nor anybody else", async () => {
    await knownAt("jr", TABLET);
    await wrongBefore(10, { login: "jr", origin: ELSEWHERE });
    expect(await wait("jr", ELSEWHERE, NOW)).toBeGreaterThan(0);
    const asked = { password: PASSWORD, now: NOW };
    expect(await checkPassword(database, { ...asked, login: "jr", origin: TABLET })).toMatchObject({
      ok: true,
    });
    expect(await checkPassword(database, { ...asked, login: "mk", origin: ELSEWHERE })).toMatchObject({
      ok: true,
    });
  });

  test("a stranger does not get more tries by throwing its cookie away or changing its address", async () => {
    const origins = Array.from({ length: 10 }, (_, i) => ({
      device: `invented-${i}`,
      address: `10.0.1.${i}`,
    }));
    for (const origin of origins) await wrongBefore(1, { login: "jr", origin });
    expect(await wait("jr", { device: "another", address: "10.0.2.1" }, NOW)).toBe(30 * SECOND);
  });

  test("one guess at each of many accounts from one address waits too, but never long", async () => {
    for (let i = 0; i < 55; i++) {
      const origin = { device: "", address: "10.0.0.9" };
      await wrongBefore(1, { login: `somebody${i}`, origin, now: NOW + i * 2 * MINUTE });
    }
    const late = NOW + 55 * 2 * MINUTE;
    await wrongBefore(1, { login: "other", origin: { device: "", address: "10.0.0.9" }, now: late });
    const held = await wait("mk", { device: "", address: "10.0.0.9" }, late);
    expect(held).toBeGreaterThan(0);
    expect(held).toBeLessThanOrEqual(MINUTE);
  });

  test("after a hundred in a row the wait is a day", async () => {
    // NIST SP 800-63B (2017), 5.2.2: no more than 100 consecutive failed attempts (from memory).
    await wrongBefore(1, { login: "jr", origin: ELSEWHERE });
    connectionOf(database).sqlite.prepare("update guess set wrong = 98, wait_until = 0").run();
    await wrongBefore(1, { login: "jr", origin: { ...ELSEWHERE, address: "" } });
    expect(await wait("jr", { ...ELSEWHERE, address: "" }, NOW)).toBe(15 * MINUTE);
    const then = NOW + 15 * MINUTE;
    await wrongBefore(1, { login: "jr", origin: { ...ELSEWHERE, address: "" }, now: then });
    expect(await wait("jr", { ...ELSEWHERE, address: "" }, then)).toBe(DAY);
  });

  test("many at once count as many", async () => {
    const who = { login: "jr", origin: ELSEWHERE };
    const all = await Promise.all(Array.from({ length: 40 }, () => guess(who)));
    expect(all.filter(({ ok }) => ok)).toHaveLength(10);
  });

  test("the record tells of the hold-up once, not of each guess", async () => {
    await wrongBefore(9, { login: "jr", origin: ELSEWHERE });
    const asked = { login: "jr", password: "no", origin: ELSEWHERE, now: NOW };
    for (let i = 0; i < 5; i++) expect((await checkPassword(database, asked)).ok).toBe(false);
    expect(recorded().filter((line) => line.includes("hold up"))).toEqual([
      "hold up sign-in after wrong passwords: jr",
    ]);
  });
});
