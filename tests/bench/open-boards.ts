import { setTimeout as pause } from "node:timers/promises";
import { boardLooks } from "../../app/board/board-looks";
import { BOARD_CALM_MS } from "../../app/board/board-news";
import type { Heard } from "../../app/news/line";
import { type Listener, listener } from "../soak/listener";
import { answered, type Target } from "./requests";

export type OpenBoards = {
  /** How often they have shown themselves anew. */
  looks(): number;
  close(): void;
};

/** Half of the boards show the whole plant, the others one part each. */
const ADDRESSES = ["", "part=P-1", "", "part=P-2", "", "part=P-3", "", "part=P-4"];

/**
 * Shift boards as the server sees them: a stream of news each, and the board's view asked for when and as the page itself
 * does. They are opened one after the other over one calm time, as people do, not all in one moment.
 */
export async function openBoards(
  count: number,
  target: Target,
  { cookie, after: since }: { cookie: string; after: number },
): Promise<OpenBoards> {
  const closers: (() => void)[] = [];
  let looks = 0;
  let isClosed = false;

  function open(address: string): void {
    let page: Listener | null = null;
    const listen = (after: number, hear: (heard: Heard) => void) => {
      page = listener(target.address, {
        cookie,
        after,
        together: true,
        hear: (item) => hear({ gap: false, item }),
      });
      return page.stop;
    };
    const stop = boardLooks({
      line: {
        begin: () => undefined,
        listen,
        state: () => ({ is: "open", since: 0 }),
        latest: () => page?.last() ?? since,
      },
      since,
      ask: async (after) => {
        looks++;
        try {
          return await view(target, { address, after, cookie });
        } catch (error) {
          if (isClosed) return null;
          throw error;
        }
      },
      show: () => undefined,
    });
    closers.push(stop);
  }

  for (let i = 0; i < count; i++) {
    open(ADDRESSES[i % ADDRESSES.length] ?? "");
    await pause(BOARD_CALM_MS / count);
  }
  return {
    looks: () => looks,
    close() {
      isClosed = true;
      for (const close of closers) close();
    },
  };
}

async function view(
  target: Target,
  { address, after, cookie }: { address: string; after: number; cookie: string },
): Promise<{ since: number }> {
  const path = `/api/board?${address}&after=${after}`;
  const headers = { cookie, "accept-encoding": "gzip" };
  return JSON.parse((await answered({ ...target, path, headers })).text) as { since: number };
}

/** Has the server make a board's view so often, each another, as it has long done in a server that runs all day. */
export async function warmBoards(target: Target, { cookie, times }: { cookie: string; times: number }) {
  for (let i = 0; i < times; i++) {
    const address = `${ADDRESSES[i % ADDRESSES.length]}&act=${i + 1}`;
    await view(target, { address, after: 0, cookie });
  }
}
