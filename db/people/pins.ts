import { eq } from "drizzle-orm";
import { durationWords } from "../../lib/format/times";
import { pinFault } from "../../lib/people/pin";
import { type Actor, record } from "../commands/audit";
import { connectionOf, type Database, write } from "../connection";
import { type Account, accountById } from "../queries/accounts";
import { account } from "../schema";
import { admitGuess, noteRight, type Origin } from "./guesses";
import { hashPassword, isPassword, isSecretOf } from "./password";

/*
 * PINs: on a tablet that a shift shares, a person puts their name to one act without signing everybody else
 * out. A PIN is kept as a password is, with the same slow digest; what guards its few digits is the limit on
 * guesses (guesses.ts).
 */

export type PinSaved = { ok: true } | { ok: false; message: string };

/** Sets a person's own PIN, or takes it away with null. Asks for the password, for the tablet may lie open. */
export async function setPin(
  database: Database,
  {
    accountId,
    pin,
    password,
    actor,
  }: { accountId: number; pin: string | null; password: string; actor: Actor },
): Promise<PinSaved> {
  const { orm } = connectionOf(database);
  const row = orm.select().from(account).where(eq(account.id, accountId)).get();
  if (!row) return refused("this account is not there any more.");
  const fault = pin === null ? null : pinFault(pin, row.login);
  if (fault) return refused(fault);
  if (!(await isPassword(password, row.passwordHash)))
    return refused("this is not your password. Type it again; without it nobody else can set your PIN.");
  const pinHash = pin === null ? null : await hashPassword(pin);
  await write(database, (connection) => {
    connection.orm.update(account).set({ pinHash }).where(eq(account.id, accountId)).run();
    // What the PIN is stays out of the record; that there is one, and since when, belongs in it.
    record(connection, actor, { action: pin === null ? "take PIN away" : "set PIN", subject: row.login });
  });
  return { ok: true };
}

export type PinChecked = { ok: true; person: Account } | { ok: false; message: string };

/**
 * The person to whom login and PIN belong, or why not, to show as it is. Every wrong guess counts.
 *
 * Times are those of the real clock, also in a demo whose own clock stands still.
 */
export async function checkPin(
  database: Database,
  { login, pin, origin, now }: { login: string; pin: string; origin: Origin; now: number },
): Promise<PinChecked> {
  const { orm } = connectionOf(database);
  const wanted = login.trim().toLowerCase();
  const row = orm.select().from(account).where(eq(account.login, wanted)).get();
  const asked = { kind: "pin", login: wanted, accountId: row?.id ?? null, origin, now } as const;
  const admitted = await admitGuess(database, asked);
  if (!admitted.ok) {
    return refused(
      `after several wrong PINs for this person, wait ${durationWords(admitted.waitMs + 999)} before the next try, or sign in with the password.`,
    );
  }
  const isRight = await isSecretOf(pin, row?.pinHash);
  const person = row && isRight ? await accountById(database, row.id) : null;
  if (row && person) {
    await write(database, (connection) => noteRight(connection, { ...asked, accountId: row.id }));
    return { ok: true, person };
  }
  if (row && admitted.began) {
    const actor = { accountId: null, at: now };
    await write(database, (connection) =>
      record(connection, actor, { action: "hold up PIN after wrong ones", subject: row.login }),
    );
  }
  return refused("name and PIN do not belong together. Check both; a PIN is set on your own page.");
}

function refused(why: string): { ok: false; message: string } {
  return { ok: false, message: `Nothing saved: ${why}` };
}
