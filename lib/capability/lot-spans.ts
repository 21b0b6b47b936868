import { InvalidInput } from "../checks";
import type { MeasurementSeries } from "../measurements/series";

/** What some readings span, in the unit of the feature. */
export type Span = {
  count: number;
  min: number;
  mean: number;
  max: number;
  /** First and last measurement, UTC ms. */
  firstAt: number;
  lastAt: number;
};

/** What one lot's readings span; `lot` is its id. */
export type LotSpan = Span & { lot: number };

export type LotSpans = {
  /** In the order in which the lots were first measured. */
  lots: LotSpan[];
  /** Readings that state no lot; they are in no span. */
  withoutLot: number;
};

/**
 * Lot by lot, where the readings of a study lie: whether one spread can stand for all of them is seen here.
 *
 * `values` are the charted values at `positions` of the series, both in the order of time, as `featureStudy`
 * gives them. A lot measured in two goes is one span, at the place of its first reading. Means are Welford's.
 *
 * @throws InvalidInput when there are not as many values as positions
 */
export function lotSpans({
  series,
  positions,
  values,
}: {
  series: Pick<MeasurementSeries, "lot" | "takenAt">;
  positions: ArrayLike<number>;
  values: ArrayLike<number>;
}): LotSpans {
  if (values.length !== positions.length) {
    throw new InvalidInput(
      "lotSpans",
      "values.length",
      values.length,
      `that of positions, ${positions.length}`,
    );
  }
  const spans = new Map<number, Span>();
  let withoutLot = 0;
  for (let i = 0; i < positions.length; i++) {
    const position = positions[i]!;
    const lot = series.lot[position]!;
    if (lot === 0) withoutLot++;
    else extendSpan(spans, lot, { value: values[i]!, at: series.takenAt[position]! });
  }
  return { lots: Array.from(spans, ([lot, span]) => ({ lot, ...span })), withoutLot };
}

/** One reading more in the span of its lot, which begins with its first. */
export function extendSpan<Lot>(
  spans: Map<Lot, Span>,
  lot: Lot,
  { value, at }: { value: number; at: number },
): void {
  const span = spans.get(lot);
  if (!span) {
    spans.set(lot, { count: 1, min: value, mean: value, max: value, firstAt: at, lastAt: at });
    return;
  }
  span.count++;
  span.mean += (value - span.mean) / span.count;
  span.min = Math.min(span.min, value);
  span.max = Math.max(span.max, value);
  span.lastAt = Math.max(span.lastAt, at);
}
