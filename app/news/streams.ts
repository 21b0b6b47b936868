import "server-only";
import { database } from "../database";
import { MOST_STREAMS, type NewsHub, newsHub, type Reader } from "./hub";

/*
 * The one hub of this process, held outside the module: a server's bundles each carry a copy of this file, and
 * the process that ends has to find the streams that the route opened.
 */
type Holder = { steadyrestNews?: { hub: NewsHub | null; opening: number; ending: boolean } };
const holder = globalThis as Holder;

function held() {
  holder.steadyrestNews ??= { hub: null, opening: 0, ending: false };
  return holder.steadyrestNews;
}

/** A reader this far behind is let go; it comes back by itself and reads what it missed from the table. */
const MOST_BEHIND_BYTES = 1_000_000;

/**
 * An answer that goes on with every news after the one with this id, or null: from now on. Null when this
 * process has as many streams as it takes, or is about to end.
 */
export async function openStream({
  after,
  together,
  mayStay,
  left,
}: {
  after: number | null;
  mayStay: () => Promise<boolean>;
  /** Whether calm news are told once a second, together. */
  together: boolean;
  /** Aborts when the reader has gone. */
  left: AbortSignal;
}): Promise<ReadableStream<Uint8Array> | null> {
  const news = held();
  news.hub ??= newsHub(await database());
  const { hub } = news;
  if (news.ending || hub.size + news.opening >= MOST_STREAMS) return null;
  news.opening++;
  const text = new TextEncoder();
  let leave: () => void = () => undefined;
  return new ReadableStream<Uint8Array>(
    {
      async start(controller) {
        let open = true;
        const reader: Reader = {
          write(events) {
            if (!open) return false;
            controller.enqueue(text.encode(events));
            return (controller.desiredSize ?? 0) > 0;
          },
          mayStay,
          end() {
            if (!open) return;
            open = false;
            controller.close();
          },
        };
        left.addEventListener("abort", () => leave());
        try {
          leave = await hub.join(reader, after, { together });
        } finally {
          news.opening--;
        }
        if (left.aborted) leave();
      },
      cancel() {
        leave();
      },
    },
    new ByteLengthQueuingStrategy({ highWaterMark: MOST_BEHIND_BYTES }),
  );
}

/**
 * Ends every stream and opens no more. A process that was asked to stop waits for its open answers, and a
 * stream would never end by itself.
 */
export function endStreams(): void {
  const news = held();
  news.ending = true;
  news.hub?.close();
}
