import { and, desc, eq, lt } from "drizzle-orm";
import type { HandoverContent } from "../../lib/handover/handover";
import { connectionOf, type Database } from "../connection";
import { account } from "../schema";
import { handover } from "../schema-alarms";

export type HandoverRow = {
  id: number;
  shift: string;
  shiftFrom: number;
  shiftTo: number;
  coversFrom: number;
  remarks: string;
  content: HandoverContent;
  signedAt: number;
  by: string | null;
};

/** The signed handover of the shift that began then; null while nobody has signed it. */
export async function handoverOf(database: Database, shiftFrom: number): Promise<HandoverRow | null> {
  return (await readHandovers(database, eq(handover.shiftFrom, shiftFrom), 1))[0] ?? null;
}

/** The handover signed last of the shifts that began before; null when there is none. */
export async function handoverBefore(database: Database, shiftFrom: number): Promise<HandoverRow | null> {
  return (await readHandovers(database, lt(handover.shiftFrom, shiftFrom), 1))[0] ?? null;
}

/** Signed handovers, the latest first. */
export async function listHandovers(database: Database, count: number): Promise<HandoverRow[]> {
  return readHandovers(database, undefined, count);
}

async function readHandovers(
  database: Database,
  where: ReturnType<typeof eq> | undefined,
  count: number,
): Promise<HandoverRow[]> {
  return connectionOf(database)
    .orm.select({ row: handover, by: account.name })
    .from(handover)
    .leftJoin(account, eq(account.id, handover.accountId))
    .where(and(where))
    .orderBy(desc(handover.shiftFrom))
    .limit(count)
    .all()
    .map(({ row, by }) => {
      const { accountId: _, content, ...rest } = row;
      return { ...rest, content: JSON.parse(content) as HandoverContent, by };
    });
}
