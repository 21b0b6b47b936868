import { attributeLimits, type LimitsOfCounts } from "../charts/attribute";
import { sampleReader } from "../evaluation/count-working";
import type { Evaluation } from "../evaluation/evaluation";
import type { ControlLimits } from "../limits/limits-for-size";
import type { MeasurementSeries } from "../measurements/series";
import { isPerUnit, usualSample } from "../plan/counts";
import type { CountPlan, LimitsVersion } from "../plan/feature-plan";
import type { ShownWindow } from "./shown-window";

/** One sample on a chart of counts. */
export type CountPoint = {
  number: number;
  at: number;
  count: number;
  /** Pieces or units on which it was found. */
  size: number;
  /** As plotted, like its limits: a share, a number, a number per unit. */
  value: number;
  /** For a sample of its size; null where none judged it. */
  limits: ControlLimits | null;
  excluded: boolean;
  /** Beyond the limits that are drawn. */
  beyond: boolean;
};

/** A limit that is a whole number of pieces may differ from a share in its last bit. */
const ROUNDING = 1e-9;

/** The samples of a window, each with the limits for its own size, ready to be drawn. */
export function countPoints(
  evaluation: Evaluation,
  {
    series,
    counts,
    window,
    kind,
  }: { series: MeasurementSeries; counts: CountPlan; window: ShownWindow; kind: keyof LimitsOfCounts },
): CountPoint[] {
  const { points, versions } = evaluation;
  const read = sampleReader(evaluation, { series, counts });
  const known = new Map<string, LimitsOfCounts | null>();
  const limitsFor = (version: number, size: number): LimitsOfCounts | null => {
    const key = `${version} ${size}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const made = limitsOf(versions[version], { counts, size });
    known.set(key, made);
    return made;
  };
  return Array.from({ length: window.to - window.from + 1 }, (_, i) => {
    const number = window.from + i;
    const { count, size } = read(number);
    const scale = isPerUnit(counts.chart) ? size : 1;
    const limits = limitsFor(points.limits[number]!, size)?.[kind] ?? null;
    const excluded = points.excluded[number] === 1;
    const isBeyond =
      limits !== null && (count > limits.upper * scale + ROUNDING || count < limits.lower * scale - ROUNDING);
    return {
      number,
      at: points.at[number]!,
      count,
      size,
      value: count / scale,
      limits,
      excluded,
      beyond: isBeyond && !excluded,
    };
  });
}

/** The limits of a version for a sample of `size`; null where it shows no variation. */
export function limitsOf(
  version: LimitsVersion | undefined,
  { counts, size }: { counts: CountPlan; size: number },
): LimitsOfCounts | null {
  if (!version || version.sigma <= 0) return null;
  return attributeLimits(counts.chart, { rate: version.centre / usualSample(counts), size });
}
