import { eq } from "drizzle-orm";
import { pinFault } from "../../lib/people/pin";
import { type Refused, refused, refusedAs } from "../../lib/words/refusal";
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

export type PinSaved = { ok: true } | Refused;

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
  if (!row) return refused("account-gone");
  const fault = pin === null ? null : pinFault(pin, row.login);
  if (fault) return refusedAs(fault);
  if (!(await isPassword(password, row.passwordHash))) return refused("pin-password");
  const pinHash = pin === null ? null : await hashPassword(pin);
  await write(database, (connection) => {
    connection.orm.update(account).set({ pinHash }).where(eq(account.id, accountId)).run();
    // What the PIN is stays out of the record; that there is one, and since when, belongs in it.
    record(connection, actor, { action: pin === null ? "take PIN away" : "set PIN", subject: row.login });
  });
  return { ok: true };
}

export type PinChecked = { ok: true; person: Account } | Refused;

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
    return refused("pin-wait", admitted.waitMs + 999);
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
  return refused("pin-wrong");
}
