import { setTimeout as pause } from "node:timers/promises";
import { BOARD_CALM_MS, BOARD_NEWS } from "../../app/board/board-news";
import { concerns, isCalm } from "../../app/news/concerns";
import { refreshSchedule } from "../../app/news/refresh-schedule";
import { listener } from "../soak/listener";
import { answered, type Target } from "./requests";

export type OpenBoards = {
  /** How often they have shown themselves anew. */
  looks(): number;
  close(): void;
};

/**
 * Shift boards as the server sees them: a stream of news each, and the board read again when the page's own schedule
 * has it so. They are opened one after the other over one calm time, as people do, not all in one moment.
 */
export async function openBoards(
  count: number,
  target: Target,
  { cookie, after }: { cookie: string; after: number },
): Promise<OpenBoards> {
  const path = await addressOfData(target.address, cookie);
  const closers: (() => void)[] = [];
  let looks = 0;
  let isClosed = false;

  function open(): void {
    const look = () => answered({ ...target, path, headers: { cookie, rsc: "1" } });
    const schedule = refreshSchedule({
      calmMs: BOARD_CALM_MS,
      look: () => {
        looks++;
        look()
          .catch((error: unknown) => {
            if (!isClosed) throw error;
          })
          .finally(schedule.done);
      },
      mayLook: () => true,
    });
    const page = listener(target.address, {
      cookie,
      after,
      hear: (item) => {
        if (concerns(item, { kinds: BOARD_NEWS })) schedule.want(isCalm(item, BOARD_NEWS));
      },
    });
    closers.push(page.stop, schedule.stop);
  }

  for (let i = 0; i < count; i++) {
    open();
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

/** Has the server make the board's data so often, as it has long done in a server that runs all day. */
export async function warmBoards(target: Target, { cookie, times }: { cookie: string; times: number }) {
  const path = await addressOfData(target.address, cookie);
  for (let i = 0; i < times; i++) await answered({ ...target, path, headers: { cookie, rsc: "1" } });
}

/** A page's data has an address with a check value, to which the server leads who asks without one. */
async function addressOfData(address: string, cookie: string): Promise<string> {
  const answer = await fetch(`${address}/`, { headers: { cookie, rsc: "1" }, redirect: "manual" });
  const leadsTo = answer.headers.get("location");
  if (leadsTo === null) throw new Error(`The board's data answered ${answer.status}.`);
  const { pathname, search } = new URL(leadsTo, address);
  return pathname + search;
}
