import { linearScale } from "../../../lib/chart/scale";

/*
 * What recharts finds when it asks d3-scale for a scale by name: next.config.mjs puts this file in place of that
 * package. The name is known at run time only, so a bundler has to keep every scale with its calendars, colours and
 * number formats, 20 kB of the feature page's compressed script, of which our axes use a straight line. An axis on
 * another scale hands the scale itself to recharts (`scale={…}`), which then asks for none.
 */

type Pair = readonly [number, number];

/** The part of a continuous scale of d3 that recharts calls. */
export type AxisScale = {
  (value: number | null | undefined): number | undefined;
  domain(): Pair;
  domain(next: Iterable<number>): AxisScale;
  range(): Pair;
  range(next: Iterable<number>): AxisScale;
  copy(): AxisScale;
  invert(place: number): number | undefined;
};

/** A straight line from figures to pixels; what is no figure has no place. */
export function scaleLinear(): AxisScale {
  let [domain, range]: [Pair, Pair] = [
    [0, 1],
    [0, 1],
  ];
  const scale = (value: number | null | undefined) => along(domain, range, value);
  return Object.assign(scale, {
    domain(next?: Iterable<number>) {
      if (next === undefined) return domain;
      domain = pairOf(next);
      return scale;
    },
    range(next?: Iterable<number>) {
      if (next === undefined) return range;
      range = pairOf(next);
      return scale;
    },
    copy: () => scaleLinear().domain(domain).range(range),
    invert: (place: number) => along(range, domain, place),
  }) as AxisScale;
}

function along([low, high]: Pair, [start, end]: Pair, value: number | null | undefined): number | undefined {
  if (value == null || ![low, high, start, end, value].every(Number.isFinite)) return undefined;
  return linearScale({ low, high }, { start, end })(value);
}

function pairOf(numbers: Iterable<number>): Pair {
  const [first = 0, second = first] = numbers;
  return [first, second];
}
