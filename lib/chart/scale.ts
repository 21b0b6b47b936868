import { InvalidInput, requireCount, requireFiniteNumbers } from "../checks";

/**
 * Where figures come to lie on paper: scales and ticks that every renderer shares, so that an interactive
 * chart, a strip in plain SVG and a printed report put a point at the same place.
 */

export type Span = { low: number; high: number };

/** A straight map from figures to places. A span without width lies in the middle of the places. */
export function linearScale(domain: Span, range: { start: number; end: number }): (value: number) => number {
  requireFiniteNumbers("linearScale", { ...domain, ...range });
  const width = domain.high - domain.low;
  if (width === 0) return () => (range.start + range.end) / 2;
  const slope = (range.end - range.start) / width;
  return (value) => range.start + (value - domain.low) * slope;
}

export type Ticks = {
  values: number[];
  step: number;
  /** Decimals that show every tick exactly. */
  places: number;
};

const STEPS = [1, 2, 5, 10];

/**
 * About `count` round figures inside a span: multiples of 1, 2 or 5 times a power of ten.
 *
 * The step is the smallest of these that gives at most `count` ticks. Ticks are whole multiples divided or
 * multiplied once, so that 0.3 is 0.3 and not 0.30000000000000004.
 *
 * @returns one tick for a span without width
 * @throws InvalidInput when the span is not finite or reversed, or `count` is below 1
 */
export function niceTicks({ low, high }: Span, count: number): Ticks {
  requireFiniteNumbers("niceTicks", { low, high });
  requireCount("niceTicks", "count", count, 1);
  if (low > high) throw new InvalidInput("niceTicks", "low", low, `at most ${high}`);
  if (low === high) return { values: [low], step: 0, places: 0 };

  let power = Math.floor(Math.log10((high - low) / count));
  for (;;) {
    for (const factor of STEPS) {
      const values = multiples({ low, high }, { factor, power });
      if (values.length > count) continue;
      return {
        values,
        step: scaled(factor, power),
        places: Math.max(0, factor === 10 ? -power - 1 : -power),
      };
    }
    power++;
  }
}

function multiples({ low, high }: Span, { factor, power }: { factor: number; power: number }): number[] {
  const step = scaled(factor, power);
  // A limit that is itself a multiple may miss it by its last bit.
  const slack = 1e-9;
  const first = Math.ceil(low / step - slack);
  const last = Math.floor(high / step + slack);
  const values: number[] = [];
  for (let k = first; k <= last; k++) values.push(scaled(k * factor, power));
  return values;
}

/** a·10ᵖ with one rounding. A zero has no sign. */
function scaled(a: number, power: number): number {
  const value = power >= 0 ? a * 10 ** power : a / 10 ** -power;
  return value === 0 ? 0 : value;
}

/** About `count` whole numbers of a run of subgroups, steps of 1, 2, 5, 10 … */
export function wholeTicks({ low, high }: Span, count: number): number[] {
  const { values } = niceTicks({ low, high }, count);
  return values.every(Number.isInteger) ? values : niceWholes({ low, high });
}

function niceWholes({ low, high }: Span): number[] {
  const wholes: number[] = [];
  for (let k = Math.ceil(low); k <= Math.floor(high); k++) wholes.push(k);
  return wholes;
}

/**
 * The smallest span that holds all the figures, with `margin` of its width added on both sides; NaN and
 * infinite ones are passed over. Figures that are all alike get a span about them, nothing gets 0 to 1.
 */
export function spanOf(figures: Iterable<number>, { margin }: { margin: number }): Span {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const figure of figures) {
    if (!Number.isFinite(figure)) continue;
    if (figure < low) low = figure;
    if (figure > high) high = figure;
  }
  if (low > high) return { low: 0, high: 1 };
  if (low === high) {
    const reach = low === 0 ? 1 : Math.abs(low) * 1e-3;
    return { low: low - reach, high: high + reach };
  }
  const room = (high - low) * margin;
  return { low: low - room, high: high + room };
}

/** As many steps make a span on an axis of round figures. */
const STEPS_OF_A_SPAN = 12;

/**
 * A span that holds this one and ends at round figures, so that an axis stays in place while what it shows moves on
 * between nearly the same ends. At most a sixth longer at either end.
 */
export function roundSpan({ low, high }: Span): Span {
  const { step } = niceTicks({ low, high }, STEPS_OF_A_SPAN);
  return step === 0
    ? { low, high }
    : { low: step * Math.floor(low / step), high: step * Math.ceil(high / step) };
}
