import { eq } from "drizzle-orm";
import { type Database, write } from "../connection";
import { setting } from "../schema";

/*
 * Work that only one of the processes on a database may do: watching a folder, sending messages. Whoever does
 * it holds a lease that runs out by itself, so that another takes over when a process is gone.
 */

type Lease = { holder: string; until: number };

/** Takes or renews a lease; false while another holder's has not run out. Two askers are told apart by the write lock. */
export async function holdLease(
  database: Database,
  { name, holder, now, ms }: { name: string; holder: string; now: number; ms: number },
): Promise<boolean> {
  return write(database, ({ orm }) => {
    const key = `lease ${name}`;
    const row = orm.select({ value: setting.value }).from(setting).where(eq(setting.key, key)).get();
    const held = row ? (JSON.parse(row.value) as Lease) : null;
    if (held && held.holder !== holder && held.until > now) return false;
    const value = JSON.stringify({ holder, until: now + ms } satisfies Lease);
    orm
      .insert(setting)
      .values({ key, value })
      .onConflictDoUpdate({ target: setting.key, set: { value } })
      .run();
    return true;
  });
}

/** Gives a lease back, so that another process need not wait until it has run out. */
export async function giveUpLease(
  database: Database,
  { name, holder }: { name: string; holder: string },
): Promise<void> {
  await write(database, ({ orm }) => {
    const key = `lease ${name}`;
    const row = orm.select({ value: setting.value }).from(setting).where(eq(setting.key, key)).get();
    if (row && (JSON.parse(row.value) as Lease).holder === holder)
      orm.delete(setting).where(eq(setting.key, key)).run();
  });
}
