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
  const finite = finiteOf(values);
  const whole = spanOf([...endsOf(finite), ...kept], { margin });
  const isLegible = (near: Span) =>
    near.high > near.low && near.high - near.low >= LEAST_SHARE * (whole.high - whole.low);
  // Most histories stay near their limits, and need not be sorted.
  if (kept.length > 1 && isLegible(extent(kept))) return { near: whole, whole };

  const sorted = finite.toSorted();
  const quartile = (share: number) => sorted[Math.round(share * (sorted.length - 1))] as number;
  const reach = FAR_OUT * (quartile(0.75) - quartile(0.25));
  const [least, most] = [quartile(0.25) - reach, quartile(0.75) + reach];
  const bulk = endsOf(finite.filter((value) => value >= least && value <= most));
  const held = extent([...bulk, ...kept]);
  if (!(held.high > held.low)) return { near: whole, whole };
  const near = spanOf([...bulk, ...kept], { margin });
  return isLegible(near) ? { near: whole, whole } : { near, whole };
}

/** The nearest value on the axis, at which a point off it is drawn. */
export function heldOn({ low, high }: Span, value: number): number {
  return Math.min(high, Math.max(low, value));
}

export function isOff({ low, high }: Span, value: number): boolean {
  return value < low || value > high;
}

/** A long history comes as the column that it is, and nearly always without gaps. */
function finiteOf(values: Iterable<number>): Float64Array {
  const column = values instanceof Float64Array ? values : Float64Array.from(values);
  return column.every(Number.isFinite) ? column : column.filter(Number.isFinite);
}

/** Of many values a span needs but these. */
function endsOf(values: Float64Array): number[] {
  if (values.length === 0) return [];
  const { low, high } = extent(values);
  return [low, high];
}

function extent(values: Float64Array | readonly number[]): Span {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return { low, high };
}
