import { lt } from "drizzle-orm";
import { type Connection, type Database, once, write } from "../connection";
import type { News } from "../queries/news";
import { news } from "../schema-live";
import { queueMessages } from "./messages";

/** A page that was asleep for longer than this is made anew instead of being told what it missed. */
const KEPT_MS = 7 * 24 * 60 * 60 * 1000;

/** Past this many features a page that shows any of them had better look for itself. */
const MOST_FEATURES_NAMED = 200;

/**
 * Tells open pages that something has happened. Call it inside the transaction of the change, after it: pages
 * hear of it when that is committed, in every process, and never of anything that was taken back. A raised
 * alarm also goes to the receivers of messages.
 *
 * The moment is the machine's, for news must age also in a demo whose own clock stands still.
 */
export function tell(connection: Connection, told: News): void {
  const { kind, ...detail } = told;
  if ("featureIds" in detail && (detail.featureIds?.length ?? 0) > MOST_FEATURES_NAMED)
    detail.featureIds = null;
  const now = Date.now();
  addNews(connection).run(now, kind, JSON.stringify(detail));
  if (told.kind === "alarm" && told.what === "raised")
    queueMessages(connection, { kind: "alarm", alarmId: told.alarmId }, now);
}

const addNews = once(({ sqlite }) => sqlite.prepare("insert into news (at, kind, detail) values (?, ?, ?)"));

/** Forgets what is older than a week; returns how many rows that were. */
export async function pruneNews(database: Database, { now }: { now: number }): Promise<number> {
  return write(
    database,
    ({ orm }) =>
      orm
        .delete(news)
        .where(lt(news.at, now - KEPT_MS))
        .run().changes,
  );
}
