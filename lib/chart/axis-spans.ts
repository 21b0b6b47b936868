import { type Span, spanOf } from "./scale";

/** What an axis usually spans, and what it would have to span to hold every point; the very same where that is legible. */
export type AxisSpans = { near: Span; whole: Span };

/** Points far off are left off the axis where they would squeeze the rest into less than this share of it. */
const LEAST_SHARE = 1 / 5;
/** Times the interquartile range beyond the quartiles. */
const FAR_OUT = 3;

/**
 * The span of an axis on which the limits and most points can be read, although a single one lies a thousand sigma off.
 *
 * The near span holds what is `kept` (limits) and every value that is not "far out": further than three interquartile
 * ranges beyond the quartiles. It is taken only where the whole span would leave it less than a fifth of the axis;
 * a drift or a shift that is merely large is shown as it is. NaN and infinite figures are passed over.
 *
 * Source: J. W. Tukey, Exploratory Data Analysis, 1977 ("far out", from memory). The fifth is our own measure.
 */
export function axisSpans(
  values: Iterable<number>,
  { kept, margin }: { kept: readonly number[]; margin: number },
): AxisSpans {
  const finite = Float64Array.from(values).filter(Number.isFinite);
  const whole = spanOf(both(finite, kept), { margin });
  const isLegible = (near: Span) =>
    near.high > near.low && near.high - near.low >= LEAST_SHARE * (whole.high - whole.low);
  // Most histories stay near their limits, and need not be sorted.
  if (kept.length > 1 && isLegible(extent(kept))) return { near: whole, whole };

  const sorted = finite.toSorted();
  const quartile = (share: number) => sorted[Math.round(share * (sorted.length - 1))] as number;
  const reach = FAR_OUT * (quartile(0.75) - quartile(0.25));
  const [least, most] = [quartile(0.25) - reach, quartile(0.75) + reach];
  const bulk = finite.filter((value) => value >= least && value <= most);
  const held = extent(both(bulk, kept));
  if (!(held.high > held.low)) return { near: whole, whole };
  const near = spanOf(both(bulk, kept), { margin });
  return isLegible(near) ? { near: whole, whole } : { near, whole };
}

/** The nearest value on the axis, at which a point off it is drawn. */
export function heldOn({ low, high }: Span, value: number): number {
  return Math.min(high, Math.max(low, value));
}

export function isOff({ low, high }: Span, value: number): boolean {
  return value < low || value > high;
}

function* both(values: Iterable<number>, kept: Iterable<number>): Generator<number> {
  yield* values;
  yield* kept;
}

function extent(values: Iterable<number>): Span {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return { low, high };
}
