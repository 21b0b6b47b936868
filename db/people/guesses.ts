import { createHash } from "node:crypto";
import { and, eq, lt } from "drizzle-orm";
import { type Connection, type Database, write } from "../connection";
import { guess, knownDevice } from "../schema-people";
import { digestOf } from "./token";

/*
 * Limits on guesses at passwords and PINs, kept in the database: a restart forgets nothing, and several
 * processes count together.
 *
 * Whoever guesses must not be able to keep others out. So what is counted is narrow:
 *
 *   known device      wrong guesses at one account in one browser in which its person has got in before.
 *                     Nobody else can use these up, for nobody else has that browser's cookie.
 *   strangers         wrong guesses at one account in all other browsers together. A guesser can use these
 *                     up; the person still gets in wherever they got in before.
 *   address           wrong guesses at any account from one address by strangers: one guess at each of many
 *                     accounts. The wait is short, for a whole plant may stand behind one address.
 *
 * After the free tries each further one waits twice as long as the one before. After a hundred wrong ones in
 * a row the wait is a day: NIST SP 800-63B (2017), section 5.2.2, allows no more than 100 consecutive failed
 * attempts on one account (from memory). Blocking by device rather than by account follows the device cookies
 * that the OWASP Authentication Cheat Sheet describes (from memory).
 */

export type GuessKind = "password" | "pin";

/** Where a guess comes from. `device`: the browser's own cookie, "" for none. `address`: "" where it is not known. */
export type Origin = { device: string; address: string };

type Limit = { free: number; longestMs: number; dayAfter: number };

const SECOND = 1_000;
const DAY = 86_400 * SECOND;
const FIRST_WAIT_MS = 30 * SECOND;
const LIMITS = {
  known: { free: 5, longestMs: 15 * 60 * SECOND, dayAfter: 100 },
  strangers: { free: 10, longestMs: 15 * 60 * SECOND, dayAfter: 100 },
  address: { free: 50, longestMs: 60 * SECOND, dayAfter: Number.POSITIVE_INFINITY },
} as const satisfies Record<string, Limit>;

/** Counters that nobody has touched for so long are forgotten; longer than the longest wait. */
const FORGOTTEN_AFTER_MS = 7 * DAY;

export type Guess = { kind: GuessKind; login: string; accountId: number | null; origin: Origin; now: number };

/**
 * Whether a guess may be made now. It is counted as wrong before it is checked, so that many at once count as
 * many; `noteRight` takes that back.
 *
 * @returns how many milliseconds to wait otherwise; `began` tells that a wait began with this guess
 */
export async function admitGuess(
  database: Database,
  asked: Guess,
): Promise<{ ok: true; began: boolean } | { ok: false; waitMs: number }> {
  return write(database, (connection) => {
    const counters = countersOf(connection, asked);
    const rows = counters.map(({ key }) =>
      connection.orm.select().from(guess).where(eq(guess.key, key)).get(),
    );
    const waitMs = Math.max(...rows.map((row) => (row?.waitUntil ?? 0) - asked.now));
    if (waitMs > 0) return { ok: false, waitMs };
    let began = false;
    counters.forEach(({ key, limit }, i) => {
      const wrong = (rows[i]?.wrong ?? 0) + 1;
      began ||= limit !== LIMITS.address && (wrong === limit.free || wrong === limit.dayAfter);
      const row = { wrong, lastAt: asked.now, waitUntil: asked.now + waitAfter(wrong, limit) };
      connection.orm
        .insert(guess)
        .values({ key, ...row })
        .onConflictDoUpdate({ target: guess.key, set: row })
        .run();
    });
    connection.orm
      .delete(guess)
      .where(lt(guess.lastAt, asked.now - FORGOTTEN_AFTER_MS))
      .run();
    return { ok: true, began };
  });
}

/** The guess was right: its counters begin anew, and the device is known from now on. */
export function noteRight(connection: Connection, asked: Guess & { accountId: number }): void {
  for (const { key, limit } of countersOf(connection, asked)) {
    // One right password does not clear an address of what it tried at other accounts.
    if (limit === LIMITS.address) {
      const row = connection.orm.select().from(guess).where(eq(guess.key, key)).get();
      if (row)
        connection.orm
          .update(guess)
          .set({ wrong: Math.max(0, row.wrong - 1), waitUntil: 0 })
          .where(eq(guess.key, key))
          .run();
    } else connection.orm.delete(guess).where(eq(guess.key, key)).run();
  }
  if (asked.origin.device === "") return;
  const row = {
    accountId: asked.accountId,
    deviceDigest: digestOf(asked.origin.device),
    lastAt: asked.now,
  };
  connection.orm
    .insert(knownDevice)
    .values(row)
    .onConflictDoUpdate({
      target: [knownDevice.accountId, knownDevice.deviceDigest],
      set: { lastAt: asked.now },
    })
    .run();
}

/** Milliseconds that the next guess waits after so many wrong ones in a row. */
function waitAfter(wrong: number, { free, longestMs, dayAfter }: Limit): number {
  if (wrong < free) return 0;
  if (wrong >= dayAfter) return DAY;
  return Math.min(longestMs, FIRST_WAIT_MS * 2 ** Math.min(20, wrong - free));
}

function countersOf(
  connection: Connection,
  { kind, login, accountId, origin }: Guess,
): { key: string; limit: Limit }[] {
  const whose = accountId === null ? `login ${login.trim().toLowerCase()}` : `account ${accountId}`;
  if (accountId !== null && isKnown(connection, accountId, origin.device))
    return [{ key: keyOf(kind, whose, "device", origin.device), limit: LIMITS.known }];
  const strangers = { key: keyOf(kind, whose, "strangers"), limit: LIMITS.strangers };
  if (origin.address === "") return [strangers];
  return [strangers, { key: keyOf(kind, "address", origin.address), limit: LIMITS.address }];
}

function isKnown({ orm }: Connection, accountId: number, device: string): boolean {
  if (device === "") return false;
  const row = orm
    .select({ lastAt: knownDevice.lastAt })
    .from(knownDevice)
    .where(and(eq(knownDevice.accountId, accountId), eq(knownDevice.deviceDigest, digestOf(device))))
    .get();
  return row !== undefined;
}

function keyOf(...parts: string[]): string {
  return createHash("sha256").update(JSON.stringify(parts)).digest("hex");
}
