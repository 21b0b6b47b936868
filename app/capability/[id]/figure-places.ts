import { linearScale, niceTicks, type Span } from "../../../lib/chart/scale";
import { fixed } from "../../../lib/format/numbers";

/** Size of both pictures of the distribution, in units of their own. */
export const FIGURE = { width: 620, height: 344, left: 62, right: 604, top: 48, bottom: 292 };

/** Of the per-lot strip. */
export const STRIP = { width: 940, height: 270, left: 64, top: 14, bottom: 218 };

export function isWithin({ low, high }: Span, value: number): boolean {
  return value >= low && value <= high;
}

export function horizontal(span: Span, place: { left: number; right: number }): (value: number) => number {
  return linearScale(span, { start: place.left, end: place.right });
}

export function vertical(span: Span, place: { top: number; bottom: number }): (value: number) => number {
  return linearScale(span, { start: place.bottom, end: place.top });
}

/** As many round figures as fit beside each other without touching. */
export function axisTicks(span: Span, { room, most }: { room: number; most: number }) {
  for (let count = most; count > 2; count--) {
    const ticks = niceTicks(span, count);
    const longest = Math.max(...ticks.values.map((value) => fixed(value, ticks.places).length));
    if (ticks.values.length * (longest + 3) * LETTER <= room) return ticks;
  }
  return niceTicks(span, 2);
}

/** Width of a letter as the pictures write it, about. */
export const LETTER = 7;

export type PlacedLabel = { text: string; x: number; row: number };

/** Labels over their lines, each in the first row where it touches no other, none outside the picture. */
export function placedLabels(
  labels: readonly { text: string; at: number }[],
  { left, right }: { left: number; right: number },
): PlacedLabel[] {
  const ends: number[] = [];
  return [...labels]
    .sort((a, b) => a.at - b.at)
    .map(({ text, at }) => {
      const half = (text.length * LETTER) / 2;
      const x = Math.min(right - half, Math.max(left + half, at));
      let row = ends.findIndex((end) => x - half > end + 10);
      if (row < 0) row = ends.length;
      ends[row] = x + half;
      return { text, x, row };
    });
}

/** Hundredths are finer than any screen. */
export function at(value: number): number {
  return Math.round(100 * value) / 100;
}

/** Places of labels beside their lines, moved down until none touches the one above it. */
export function spacedOut(places: readonly number[], gap: number): number[] {
  const order = places.map((_, i) => i).sort((a, b) => places[a]! - places[b]!);
  const spaced = [...places];
  for (let k = 1; k < order.length; k++) {
    const above = spaced[order[k - 1]!]!;
    spaced[order[k]!] = Math.max(spaced[order[k]!]!, above + gap);
  }
  return spaced;
}
