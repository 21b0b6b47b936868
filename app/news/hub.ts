import type { Database } from "../../db/connection";
import { latestNewsId, type NewsItem, newsAfter, reachesBackTo } from "../../db/queries/news";
import { log } from "../log";
import { isCalm } from "./concerns";

/*
 * From the table of news to every open page of this process.
 *
 * The process asks the table once for all its streams, fifty times a second while there are any: that one read
 * of the primary key takes some microseconds, and it sees what other threads and other processes on the same
 * database have written, which a call within this process would not. Nothing is kept here: a stream that was
 * away, or too slow, comes back with the id of the last news it has, and gets the rest from the table.
 *
 * A line posts some pieces a second, each with further signals of many alarms, and nobody who looks at a page waits for
 * any of these: pages ask to be told what is calm once a second, together, for writing each piece to fifty streams took
 * 7 % of a processor at five pieces a second. What somebody waits for is told at once, behind what has gathered; and who
 * does not ask hears everything at once.
 */

const POLL_MS = 20;
const GATHER_MS = 1000;
const BEAT_MS = 15_000;
const READ_AT_ONCE = 500;

/** More than this many open streams would be a fault somewhere: a plant has some fifty screens. */
export const MOST_STREAMS = 1000;

/** Where a stream's text goes. `write` answers false when the reader is too far behind to be waited for. */
export type Reader = {
  write(text: string): boolean;
  /** Asked at every beat: a person who was signed out hears no more. */
  mayStay(): Promise<boolean>;
  end(): void;
};

type Stream = { reader: Reader; sent: number; together: boolean };

export type NewsHub = {
  /** Streams news after the one with this id to the reader, calm ones `together`; the returned function ends it. */
  join(reader: Reader, after: number | null, how?: { together: boolean }): Promise<() => void>;
  readonly size: number;
  /** Ends every stream, as the process is about to; later ones are ended at once. */
  close(): void;
};

export function newsHub(database: Database): NewsHub {
  const streams = new Set<Stream>();
  let last = 0;
  /** Read from the table and not yet told to those who are told together, all of it calm. */
  let gathered: NewsItem[] = [];
  let toldAt = 0;
  let isPolling = false;
  let beating: NodeJS.Timeout | null = null;
  let closed = false;

  function leave(stream: Stream): void {
    if (!streams.delete(stream)) return;
    stream.reader.end();
    if (streams.size > 0 || !beating) return;
    clearInterval(beating);
    beating = null;
  }

  /** False when the reader is too far behind. A stream that joined meanwhile may have some of the items already. */
  function send(stream: Stream, items: readonly NewsItem[], text: string): boolean {
    const isAll = (items[0]?.id ?? 0) > stream.sent;
    const news = isAll ? text : eventsOf(items.filter(({ id }) => id > stream.sent));
    stream.sent = Math.max(stream.sent, items.at(-1)?.id ?? 0);
    return news === "" || stream.reader.write(news);
  }

  function tell(items: readonly NewsItem[], { together }: { together: boolean }): void {
    const those = [...streams].filter((stream) => stream.together === together);
    if (those.length === 0) return;
    const text = eventsOf(items);
    for (const stream of those) if (!send(stream, items, text)) leave(stream);
  }

  function tellGathered(): void {
    tell(gathered, { together: true });
    gathered = [];
    toldAt = Date.now();
  }

  async function poll(): Promise<void> {
    try {
      const items = await newsAfter(database, { after: last, limit: READ_AT_ONCE });
      last = items.at(-1)?.id ?? last;
      if (items.length > 0) tell(items, { together: false });
      gathered.push(...items);
      const isTold = items.some((item) => !isCalm(item, [])) || gathered.length >= READ_AT_ONCE;
      if (gathered.length > 0 && (isTold || Date.now() - toldAt >= GATHER_MS)) tellGathered();
      isPolling = streams.size > 0;
      if (isPolling) setTimeout(poll, items.length === READ_AT_ONCE ? 0 : POLL_MS);
    } catch (error) {
      // A database that cannot be read is told by the pages themselves; streams end and come back later.
      log.error({ err: error }, "news could not be read; open pages connect again");
      isPolling = false;
      for (const stream of [...streams]) leave(stream);
    }
  }

  async function beat(): Promise<void> {
    const text = `event: beat\ndata: ${Date.now()}\n\n`;
    for (const stream of [...streams]) {
      if (!(await stream.reader.mayStay().catch(() => false))) {
        stream.reader.write("event: signed-out\ndata: \n\n");
        leave(stream);
      } else if (streams.has(stream) && !stream.reader.write(text)) leave(stream);
    }
  }

  function begin(): void {
    if (!isPolling) setTimeout(poll, POLL_MS);
    isPolling = true;
    beating ??= setInterval(() => void beat(), BEAT_MS);
  }

  return {
    async join(reader, after, { together } = { together: false }) {
      const known = after ?? (await latestNewsId(database));
      const stream: Stream = { reader, sent: known, together };
      let greeting = "retry: 2000\nevent: here\ndata: \n\n";
      if (!(await reachesBackTo(database, known))) {
        stream.sent = await latestNewsId(database);
        greeting += `id: ${stream.sent}\nevent: gap\ndata: \n\n`;
      }
      let isReading = reader.write(greeting);
      // Up to where the other streams are; from there it goes on with them, without a moment between.
      for (;;) {
        const items = await newsAfter(database, { after: stream.sent, limit: READ_AT_ONCE });
        if (items.length > 0) isReading &&= send(stream, items, eventsOf(items));
        else if (stream.sent >= last || streams.size === 0) break;
        if (!isReading) break;
      }
      if (closed || !isReading) {
        reader.end();
        return () => undefined;
      }
      if (streams.size === 0) {
        last = stream.sent;
        gathered = [];
      }
      streams.add(stream);
      begin();
      return () => leave(stream);
    },
    get size() {
      return streams.size;
    },
    close() {
      closed = true;
      for (const stream of [...streams]) leave(stream);
    },
  };
}

function eventsOf(items: readonly NewsItem[]): string {
  return items.map((item) => `id: ${item.id}\ndata: ${JSON.stringify(item)}\n\n`).join("");
}
