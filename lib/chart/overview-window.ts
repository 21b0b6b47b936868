import { MOST_SHOWN, type ShownWindow, USUALLY_SHOWN } from "./shown-window";

/*
 * Ways to move the shown window over a long history. Subgroups count from 0 to count − 1, a window holds
 * at least one and at most `MOST_SHOWN` of them, and every answer lies inside the history.
 */

type History = { count: number };

/** Another first subgroup. The last one stays, unless it would be passed or lie too far away. */
export function withFirst({ to }: ShownWindow, first: number, { count }: History): ShownWindow {
  const from = inside(first, count);
  return { from, to: Math.min(Math.max(from, to), from + MOST_SHOWN - 1) };
}

/** Another last subgroup. The first one stays, unless it would be passed or lie too far away. */
export function withLast({ from }: ShownWindow, last: number, { count }: History): ShownWindow {
  const to = inside(last, count);
  return { from: Math.max(Math.min(from, to), to - MOST_SHOWN + 1), to };
}

/** As wide as before, moved by so many subgroups and stopped at the ends of the history. */
export function movedBy({ from, to }: ShownWindow, by: number, { count }: History): ShownWindow {
  const width = to - from;
  const start = Math.min(Math.max(0, from + Math.round(by)), Math.max(0, count - 1 - width));
  return { from: start, to: start + width };
}

/** As wide as before, with that subgroup in its middle where the ends of the history allow. */
export function centredAt(window: ShownWindow, subgroup: number, history: History): ShownWindow {
  return movedBy(window, subgroup - Math.floor((window.to - window.from) / 2) - window.from, history);
}

export type WindowSteps = {
  /** The neighbours on either side; null at the ends. */
  earlier: ShownWindow | null;
  later: ShownWindow | null;
  /** What is shown when nothing was asked for. */
  latest: ShownWindow;
  /** The whole history, or as much of it, up to the window's last subgroup, as can be shown at once. */
  widest: ShownWindow;
};

export function windowSteps(window: ShownWindow, { count }: History): WindowSteps {
  const width = window.to - window.from + 1;
  const last = count - 1;
  const widestTo = Math.min(last, Math.max(window.to, MOST_SHOWN - 1));
  return {
    earlier: window.from > 0 ? movedBy(window, -width, { count }) : null,
    later: window.to < last ? movedBy(window, width, { count }) : null,
    latest: { from: Math.max(0, count - USUALLY_SHOWN), to: last },
    widest: { from: Math.max(0, widestTo - MOST_SHOWN + 1), to: widestTo },
  };
}

/** A page's address with this window in its query, `?w=0-119`, or with none; other parts of the query stay. */
export function windowAddress(address: string, window: ShownWindow | null): string {
  const [path = "", text] = address.split("?");
  const query = new URLSearchParams(text);
  query.delete("w");
  if (window) query.set("w", `${window.from}-${window.to}`);
  return query.size === 0 ? path : `${path}?${query}`;
}

/** What `windowAddress` wrote: first and last subgroup, counted from 0; null for none. */
export function windowFrom(text: string | null | undefined): ShownWindow | null {
  const found = /^(\d{1,9})-(\d{1,9})$/.exec(text ?? "");
  return found ? { from: Number(found[1]), to: Number(found[2]) } : null;
}

export function isSameWindow(a: ShownWindow | null, b: ShownWindow | null): boolean {
  return a?.from === b?.from && a?.to === b?.to;
}

function inside(subgroup: number, count: number): number {
  return Math.min(Math.max(0, Math.round(subgroup)), Math.max(0, count - 1));
}
