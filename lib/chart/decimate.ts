import { InvalidInput, requireCount } from "../checks";

/** A long history is drawn with at most this many points: about two for each pixel of a wide screen. */
export const MOST_DRAWN = 2_000;

/**
 * Which points of a long history to draw so that it looks like all of them.
 *
 * The history is cut into buckets of neighbours, and of each the lowest and the highest are drawn, in their
 * order. Every point that `mustKeep` names (signalled, beyond a limit, left out) is drawn as well. The
 * first and the last always are. A history short enough is drawn whole.
 *
 * Where more must be kept than may be drawn, all of them are, with a quarter of `most` for the rest.
 *
 * @returns positions, ascending, without repetition
 * @throws InvalidInput when `most` is below 8
 */
export function decimate({
  values,
  mustKeep,
  most = MOST_DRAWN,
}: {
  values: ArrayLike<number>;
  mustKeep: (position: number) => boolean;
  most?: number;
}): Uint32Array {
  requireCount("decimate", "most", most, 8);
  const count = values.length;
  if (count <= most) return Uint32Array.from({ length: count }, (_, i) => i);

  const drawn = new Uint8Array(count);
  let kept = 0;
  for (let i = 0; i < count; i++) {
    if (!mustKeep(i)) continue;
    drawn[i] = 1;
    kept++;
  }
  // Two a bucket, and two for the ends.
  const buckets = Math.floor((Math.max(most - kept, most / 4) - 2) / 2);
  for (let b = 0; b < buckets; b++) {
    const from = Math.floor((b * count) / buckets);
    const to = Math.floor(((b + 1) * count) / buckets);
    markExtremes(values, { from, to }, drawn);
  }
  drawn[0] = 1;
  drawn[count - 1] = 1;

  const positions: number[] = [];
  for (let i = 0; i < count; i++) if (drawn[i] === 1) positions.push(i);
  return Uint32Array.from(positions);
}

function markExtremes(
  values: ArrayLike<number>,
  { from, to }: { from: number; to: number },
  drawn: Uint8Array,
): void {
  let lowest = -1;
  let highest = -1;
  for (let i = from; i < to; i++) {
    const value = values[i];
    if (value === undefined) throw new InvalidInput("decimate", `values[${i}]`, value, "a number");
    if (Number.isNaN(value)) continue;
    if (lowest < 0 || value < values[lowest]!) lowest = i;
    if (highest < 0 || value > values[highest]!) highest = i;
  }
  if (lowest >= 0) drawn[lowest] = 1;
  if (highest >= 0) drawn[highest] = 1;
}
