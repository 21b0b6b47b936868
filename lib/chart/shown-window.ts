/** First and last subgroup shown, counted from 0. */
export type ShownWindow = { from: number; to: number };

/** An interactive chart shows at most this many points at once. */
export const MOST_SHOWN = 500;
export const USUALLY_SHOWN = 120;

/**
 * The window that was asked for, cut to what there is and to what may be shown; the latest when not asked. One that lies
 * behind the end, as of a link from before measurements were taken back, is moved to it.
 */
export function shownWindow(
  count: number,
  asked: { from: number; to: number } | null,
  usual = USUALLY_SHOWN,
): ShownWindow {
  if (asked === null) return { from: Math.max(0, count - usual), to: count - 1 };
  const last = count - 1;
  const [first, end] = [Math.min(asked.from, asked.to), Math.max(asked.from, asked.to)];
  const to = Math.min(end, last);
  const from = Math.max(0, first > last ? first - (end - last) : first);
  return { from: Math.max(from, to - MOST_SHOWN + 1), to };
}
