import { InvalidInput, requireCount } from "../checks";
import { type Computed, computed, problem } from "../computed";
import type { ControlLimits } from "../limits/limits-for-size";
import { isOfPieces, isPerUnit } from "../plan/counts";
import { ATTRIBUTE_CHARTS, type AttributeChart } from "../plan/feature-plan";
import { binomialTails, type CountTails, poissonTails, probabilityLimits } from "./counting";
import type { Side } from "./weighted-point";

/** `count` of nonconforming pieces among `size` (p, np), or of nonconformities on `size` units (c, u). */
export type AttributeSample = { count: number; size: number };

export type AttributeLimits = ControlLimits & {
  /** Chance that a point in control lies beyond one of the limits: exact, from the counts. */
  falseAlarm: number;
};

export type LimitsOfCounts = { threeSigma: AttributeLimits; probability: AttributeLimits };

export type AttributePoint = LimitsOfCounts & {
  /** As plotted: a share, a number, a number per unit. */
  value: number;
  signal: { threeSigma: Side | null; probability: Side | null };
};

/** Two samples at least: the centre of one says nothing about how the next will lie. */
const FEWEST = 2;

/**
 * The centre of an attribute chart, as a rate per piece or unit: Σ counts / Σ sizes.
 *
 * @returns the problem "too-few-subgroups" below two samples, "no-variation" when nothing was found, or
 *   (p, np) every piece was nonconforming: no limits can be drawn from that
 * @throws InvalidInput for an unknown chart, a count or size that does not fit it, or unequal sizes on an np
 *   or c chart
 */
export function attributeRate(chart: AttributeChart, samples: readonly AttributeSample[]): Computed<number> {
  requireSamples("attributeRate", chart, samples);
  if (samples.length < FEWEST) {
    return problem({ code: "too-few-subgroups", needed: FEWEST, got: samples.length });
  }
  const counts = samples.reduce((sum, { count }) => sum + count, 0);
  const sizes = samples.reduce((sum, { size }) => sum + size, 0);
  if (counts === 0 || (isOfPieces(chart) && counts === sizes)) return problem({ code: "no-variation" });
  return computed(counts / sizes);
}

/**
 * Limits for a sample of `size`, of both kinds:
 *
 *   p:  p̄ ± 3√(p̄(1 − p̄)/n)      np: np̄ ± 3√(np̄(1 − p̄))
 *   u:  ū ± 3√(ū/n)              c:  c̄ ± 3√c̄,  c̄ = nū
 *
 * cut at what is possible; and probability limits, the widest counts with at most 0.135 % beyond on either
 * side by the binomial (p, np) or Poisson distribution (c, u). A count at a limit is no signal. Three sigma
 * presumes a normal distribution: with np̄ = 1 its upper limit is passed thirteen times as often as the
 * 0.135 % it stands for, while there is no lower one. `falseAlarm` says how often, exactly.
 *
 * Both presume that pieces are independent: a clustered fault spreads counts further than either allows.
 *
 * In the unit of the plotted value. Source: ASTM E2587 and ISO 7870-2 (3-sigma limits, from memory);
 * probability limits: W. A. Shewhart's definition on the exact distribution, common practice.
 *
 * @param rate per piece (p, np) or per unit (c, u), as `attributeRate` gives it
 * @throws InvalidInput for an unknown chart, a rate that is not above 0 (and, for p and np, below 1), or a
 *   size that does not fit
 */
export function attributeLimits(
  chart: AttributeChart,
  { rate, size }: { rate: number; size: number },
): LimitsOfCounts {
  requireChart("attributeLimits", chart);
  requireSize("attributeLimits", chart, size);
  const isRate = rate > 0 && (isOfPieces(chart) ? rate < 1 : rate < Number.POSITIVE_INFINITY);
  if (!isRate) {
    throw new InvalidInput(
      "attributeLimits",
      "rate",
      rate,
      isOfPieces(chart) ? "between 0 and 1" : "above 0",
    );
  }
  const mean = size * rate;
  const most = isOfPieces(chart) ? size : Number.POSITIVE_INFINITY;
  const sigma = Math.sqrt(isOfPieces(chart) ? mean * (1 - rate) : mean);
  const tails = isOfPieces(chart) ? binomialTails(size, rate) : poissonTails(mean);
  // Limits of the count; a chart of shares or rates divides them by the size.
  const scale = isPerUnit(chart) ? 1 / size : 1;
  const limits = (lower: number, upper: number): AttributeLimits => ({
    lower: lower * scale,
    centre: mean * scale,
    upper: upper * scale,
    falseAlarm: beyond(tails, lower, upper),
  });
  const reach = { lower: Math.max(0, mean - 3 * sigma), upper: Math.min(most, mean + 3 * sigma) };
  const exact = probabilityLimits(tails, reach);
  return {
    threeSigma: limits(reach.lower, reach.upper),
    probability: limits(exact.lower, exact.upper),
  };
}

/**
 * Every sample with its limits and whether it is beyond them.
 *
 * @param rate of a baseline, or of these samples by `attributeRate`
 * @throws InvalidInput as `attributeRate` and `attributeLimits` do
 */
export function attributePoints(
  chart: AttributeChart,
  { rate, samples }: { rate: number; samples: readonly AttributeSample[] },
): AttributePoint[] {
  requireSamples("attributePoints", chart, samples);
  const known = new Map<number, LimitsOfCounts>();
  return samples.map(({ count, size }) => {
    const limits = known.get(size) ?? attributeLimits(chart, { rate, size });
    known.set(size, limits);
    const value = isPerUnit(chart) ? count / size : count;
    const sideOf = ({ lower, upper }: AttributeLimits): Side | null =>
      value > upper + ROUNDING * upper ? "up" : value < lower - ROUNDING * lower ? "down" : null;
    const signal = { threeSigma: sideOf(limits.threeSigma), probability: sideOf(limits.probability) };
    return { value, ...limits, signal };
  });
}

/** A limit that is a whole number of pieces over n may differ from the same share in its last bit. */
const ROUNDING = 1e-12;

function beyond(tails: CountTails, lower: number, upper: number): number {
  const least = Math.ceil(lower - ROUNDING * lower);
  const most = Math.floor(upper + ROUNDING * upper);
  return tails(least - 1).atMost + tails(most).above;
}

function requireChart(where: string, chart: AttributeChart): void {
  if (!ATTRIBUTE_CHARTS.includes(chart)) {
    throw new InvalidInput(where, "chart", chart, `one of ${ATTRIBUTE_CHARTS.join(", ")}`);
  }
}

function requireSize(where: string, chart: AttributeChart, size: number, field = "size"): void {
  if (isOfPieces(chart)) requireCount(where, field, size, 1);
  else if (!(size > 0 && size < Number.POSITIVE_INFINITY))
    throw new InvalidInput(where, field, size, "above 0");
}

function requireSamples(where: string, chart: AttributeChart, samples: readonly AttributeSample[]): void {
  requireChart(where, chart);
  const first = samples[0]?.size;
  for (const [i, { count, size }] of samples.entries()) {
    requireSize(where, chart, size, `samples[${i}].size`);
    requireCount(where, `samples[${i}].count`, count, 0, isOfPieces(chart) ? size : undefined);
    if (!isPerUnit(chart) && size !== first) {
      const other = isOfPieces(chart) ? "p" : "u";
      throw new InvalidInput(
        where,
        `samples[${i}].size`,
        size,
        `${first} as the first; a ${other} chart takes others`,
      );
    }
  }
}
