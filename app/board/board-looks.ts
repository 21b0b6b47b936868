import { concerns, isCalm } from "../news/concerns";
import type { NewsLine } from "../news/line";
import { refreshSchedule } from "../news/refresh-schedule";
import { BOARD_CALM_MS, BOARD_NEWS } from "./board-news";

/**
 * When an open board looks again, and as of which news. `ask` brings what a board shows that was read after the news with
 * this id, or null when none was to be had; such an answer may be some seconds old, so that what was heard meanwhile is
 * looked for once more.
 *
 * @returns how to stop
 */
export function boardLooks<View extends { since: number }>({
  line,
  since,
  ask,
  show,
  random,
}: {
  line: Pick<NewsLine, "begin" | "listen" | "state" | "latest">;
  /** The latest news when what is shown was read. */
  since: number;
  ask: (after: number) => Promise<View | null>;
  show: (view: View) => void;
  /** From 0 to 1. */
  random?: () => number;
}): () => void {
  /** What is shown holds everything up to here; of what was heard the latest, and the latest that nobody should wait for. */
  let shownTo = since;
  let heardTo = since;
  let urgentTo = since;
  let isStopped = false;

  const looks = refreshSchedule({
    calmMs: BOARD_CALM_MS,
    look: () => void look(),
    mayLook: () => line.state().is === "open",
    ...(random && { random }),
  });

  async function look(): Promise<void> {
    const view = await ask(Math.max(urgentTo, shownTo + 1)).catch(() => null);
    if (isStopped) return;
    if (view) {
      shownTo = Math.max(shownTo, view.since);
      show(view);
    }
    looks.done();
    if (heardTo > shownTo) looks.want(true);
  }

  // What was told before this page began to listen, as to one that a browser has kept, is hours old at worst.
  let isLate = true;
  line.begin(since);
  const stop = line.listen(since, (heard) => {
    const id = heard.gap ? line.latest() : heard.item.id;
    if (!heard.gap && (id <= shownTo || !concerns(heard.item, { kinds: BOARD_NEWS }))) return;
    const calm = !heard.gap && !isLate && isCalm(heard.item, BOARD_NEWS);
    heardTo = Math.max(heardTo, id);
    if (!calm) urgentTo = Math.max(urgentTo, id);
    looks.want(calm);
  });
  isLate = false;

  return () => {
    isStopped = true;
    stop();
    looks.stop();
  };
}
