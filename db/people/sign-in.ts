import { eq } from "drizzle-orm";
import { record } from "../commands/audit";
import { connectionOf, type Database, write } from "../connection";
import { type Account, accountById } from "../queries/accounts";
import { account } from "../schema";
import { admitGuess, noteRight, type Origin } from "./guesses";
import { isSecretOf } from "./password";

export type SignedIn = { ok: true; account: Account } | { ok: false; waitMs: number };

/**
 * The account to which login and password belong. `waitMs` is 0 for a wrong one, whichever of the two is wrong;
 * otherwise nothing was checked and the next guess waits so long.
 */
export async function checkPassword(
  database: Database,
  { login, password, origin, now }: { login: string; password: string; origin: Origin; now: number },
): Promise<SignedIn> {
  const wanted = login.trim().toLowerCase();
  const row = connectionOf(database).orm.select().from(account).where(eq(account.login, wanted)).get();
  const asked = { kind: "password", login: wanted, accountId: row?.id ?? null, origin, now } as const;
  const admitted = await admitGuess(database, asked);
  if (!admitted.ok) return admitted;
  // An unknown login answers no sooner than a wrong password.
  const isRight = await isSecretOf(password, row?.passwordHash);
  const found = row && isRight ? await accountById(database, row.id) : null;
  if (row && found) {
    await write(database, (connection) => noteRight(connection, { ...asked, accountId: row.id }));
    return { ok: true, account: found };
  }
  if (row && admitted.began) {
    await write(database, (connection) =>
      record(
        connection,
        { accountId: null, at: now },
        { action: "hold up sign-in after wrong passwords", subject: row.login },
      ),
    );
  }
  return { ok: false, waitMs: 0 };
}
