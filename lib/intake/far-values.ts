/**
 * A value this many widths of its tolerance away from nominal is remarked on. A misplaced decimal and another unit lie
 * much further off, a process that makes scrap far nearer: 1120.2 instead of 112.02 ± 0.05 is ten thousand widths away.
 * Common practice, no source.
 */
export const FAR_WIDTHS = 10;

/** As many are named in a remark. */
const MOST_NAMED = 8;
/** Digits of a value that tell a person which one is meant. */
const DIGITS = 10;

export type NearSpan = { low: number; high: number };
/** `nominal` may be a natural bound, such as 0 for form and position, where the drawing gives no nominal. */
export type Bounds = { nominal: number | null; lower: number | null; upper: number | null };
export type Far = { line: number; feature: string; value: number };

/**
 * What values are not far between: nominal ± 10 widths of the tolerance, in the unit of the bounds. Without a nominal
 * the middle of the tolerance stands for it; with one limit alone the width is that from nominal to the limit. Null
 * where no width is known.
 */
export function nearSpan({ nominal, lower, upper }: Bounds): NearSpan | null {
  const limits = [lower, upper].filter((limit) => limit !== null);
  const middle = nominal ?? (lower !== null && upper !== null ? (lower + upper) / 2 : null);
  if (middle === null) return null;
  const width =
    lower !== null && upper !== null
      ? upper - lower
      : Math.max(...limits.map((limit) => Math.abs(limit - middle)));
  return width > 0 ? { low: middle - FAR_WIDTHS * width, high: middle + FAR_WIDTHS * width } : null;
}

/** Values that lie far outside their tolerance: how many there are, and those of the first rows. */
export class FarValues {
  count = 0;
  private readonly first: Far[] = [];

  add(far: Far): void {
    this.count++;
    const { first } = this;
    const isFull = first.length === MOST_NAMED;
    if (isFull && far.line >= (first[MOST_NAMED - 1] as Far).line) return;
    if (isFull) first.pop();
    const place = first.findLastIndex(({ line }) => line <= far.line) + 1;
    first.splice(place, 0, far);
  }

  /** What there is to say, as a sentence; empty when nothing is. */
  remark(): string {
    if (this.count === 0) return "";
    const rows = this.first
      .map(({ line, feature, value }) => `${line} (“${feature}”, ${Number(value.toPrecision(DIGITS))})`)
      .join(", ");
    if (this.count === 1) {
      return `1 value lies more than ${FAR_WIDTHS} tolerance widths from nominal, in row ${rows}: likely another unit or a misplaced decimal. It is stored as it is.`;
    }
    return this.count <= this.first.length
      ? `${this.count} values lie more than ${FAR_WIDTHS} tolerance widths from nominal, in rows ${rows}: likely another unit or a misplaced decimal. They are stored as they are.`
      : `${this.count} values lie more than ${FAR_WIDTHS} tolerance widths from nominal, the first in rows ${rows}: likely another unit or a misplaced decimal. They are stored as they are.`;
  }
}
