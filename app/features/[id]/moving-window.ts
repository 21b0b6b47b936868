import type { ChartStretch } from "../../../lib/chart/chart-view";
import { isSameWindow } from "../../../lib/chart/overview-window";
import { MOST_SHOWN, type ShownWindow, shownWindow } from "../../../lib/chart/shown-window";

/*
 * Moving over a long history without waiting for the server at each step.
 *
 * The browser holds one stretch of the history, some windows wide. What lies in it is shown at once, and when the
 * window comes near an end of it a stretch about the window is fetched in its place; a window elsewhere is fetched by
 * itself first. One request is under way at a time: who drags over the whole history gets what is under the hand when
 * the one before is there, and not an answer for each place the hand passed.
 */

export type Moving = {
  /** Null where the server draws the points. */
  stretch: ChartStretch | null;
  /** Where the frame stands. */
  wanted: ShownWindow;
  /** What the chart shows; another than wanted while that is fetched. */
  shown: ShownWindow;
  /** The window that the address names, or will when the hand rests; null for none, as for the latest. */
  asked: ShownWindow | null;
  /** The hand is on it. */
  isMoving: boolean;
  /** Why what is wanted could not be fetched; null where it could, or was not tried. */
  fault: string | null;
};

/** What a page was made with. */
export type Made = {
  stretch: ChartStretch | null;
  window: ShownWindow;
  /** The window that its address named. */
  asked: ShownWindow | null;
  count: number;
};

export type MovingWindow = {
  state(): Moving;
  subscribe(listener: () => void): () => void;
  /** Brings another window to the chart; `asked` is what the address is to name. */
  show(window: ShownWindow, how: { asked: ShownWindow | null; isMoving?: boolean }): void;
  /** Fetches what lies about the window, for a hand that comes near. */
  warm(): void;
  /** The page was made anew: perhaps with other measurements, so what is held is of no use any more. */
  adopt(made: Made): void;
  /** Once more, after a fault. */
  again(): void;
};

/** @param fetchStretch a stretch of the history as it now is; rejects with an Error whose message is for the reader */
export function movingWindow(
  made: Made,
  fetchStretch: (range: ShownWindow) => Promise<ChartStretch>,
): MovingWindow {
  let { count } = made;
  let state: Moving = {
    stretch: made.stretch,
    wanted: made.window,
    shown: made.window,
    asked: made.asked,
    isMoving: false,
    fault: null,
  };
  /** Counts how often the page was made anew; what was asked for before it does not fit what came with it. */
  let making = 0;
  let isBusy = false;
  let isStale = false;
  const listeners = new Set<() => void>();

  function set(changes: Partial<Moving>): void {
    state = { ...state, ...changes };
    for (const listener of listeners) listener();
  }

  const isHeld = (window: ShownWindow) => !isStale && holds(state.stretch, window);

  /** What to ask for next; null when there is nothing to wish for. */
  function missing({ isWarm }: { isWarm: boolean }): ShownWindow | null {
    const { wanted, isMoving } = state;
    if (!isHeld(wanted)) return wanted;
    if (isMoving || !isWarm || isHeld(reachOf(wanted, count))) return null;
    return aboutOf(wanted, count);
  }

  async function work({ isWarm }: { isWarm: boolean }): Promise<void> {
    if (isBusy || state.stretch === null) return;
    isBusy = true;
    for (let range = missing({ isWarm }); range !== null; range = missing({ isWarm })) {
      const asked = making;
      const isNeeded = !isHeld(state.wanted);
      try {
        const stretch = await fetchStretch(range);
        if (asked !== making) continue;
        // Measurements were taken back, so that there is no such place any more: news make the page anew.
        if (!holds(stretch, range)) break;
        take(stretch, isNeeded ? range : null);
      } catch (error) {
        // What was only to be at hand is asked for again when it is needed.
        if (isNeeded) set({ fault: error instanceof Error ? error.message : String(error) });
        break;
      }
    }
    isBusy = false;
  }

  /** @param passed the window for which it was fetched; null for what was to be at hand */
  function take(stretch: ChartStretch, passed: ShownWindow | null): void {
    const { wanted } = state;
    // While a hand moves on, what it has passed shows the way.
    const shown = holds(stretch, wanted) ? wanted : isHeld(wanted) ? null : passed;
    if (shown === null) return;
    isStale = false;
    set({ stretch, shown, fault: null });
  }

  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    show(wanted, { asked, isMoving = false }) {
      const shown = state.stretch === null || isHeld(wanted) ? wanted : state.shown;
      set({ wanted, shown, asked, isMoving, fault: null });
      void work({ isWarm: !isMoving });
    },
    warm() {
      void work({ isWarm: true });
    },
    adopt({ stretch, window, asked, count: counted }) {
      making++;
      count = counted;
      // Who has gone on while the page was made stays where they are.
      const isHere = isSameWindow(asked, state.asked);
      const wanted = isHere ? window : shownWindow(counted, state.wanted);
      isStale = !(isHere || stretch === null || state.stretch === null || holds(stretch, wanted));
      if (isStale) set({ wanted, fault: null });
      else {
        const shown = stretch === null || holds(stretch, wanted) ? wanted : window;
        set({ stretch, wanted, shown, fault: null });
      }
      void work({ isWarm: false });
    },
    again() {
      set({ fault: null });
      void work({ isWarm: false });
    },
  };
}

function holds(stretch: ShownWindow | null, { from, to }: ShownWindow): boolean {
  return stretch !== null && stretch.from <= from && to <= stretch.to;
}

/** Where one step may lead: a window to either side, or as many points as may be shown up to the last one. */
function reachOf({ from, to }: ShownWindow, count: number): ShownWindow {
  const width = to - from + 1;
  return within({ from: Math.min(from - width, to - MOST_SHOWN + 1), to: to + width }, count);
}

/** Several steps either way, and never more than three times what may be shown. */
function aboutOf({ from, to }: ShownWindow, count: number): ShownWindow {
  return within({ from: from - MOST_SHOWN, to: to + MOST_SHOWN }, count);
}

function within({ from, to }: ShownWindow, count: number): ShownWindow {
  const last = Math.max(0, count - 1);
  return { from: Math.min(Math.max(0, from), last), to: Math.min(Math.max(0, to), last) };
}
