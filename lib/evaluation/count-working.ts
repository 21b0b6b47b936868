import { inspectedAt, type MeasurementSeries } from "../measurements/series";
import { usualSample } from "../plan/counts";
import type { CountPlan } from "../plan/feature-plan";
import type { Evaluation } from "./evaluation";
import { baselineNumbers, type FrozenBaseline } from "./limits-working";

/** One count as it was found. */
export type CountSample = { count: number; size: number };

/** The samples of a chart of counts by the number of their point. */
export function sampleReader(
  { formed }: Pick<Evaluation, "formed">,
  { series, counts }: { series: MeasurementSeries; counts: CountPlan },
): (number: number) => CountSample {
  const usual = usualSample(counts);
  return (number) => {
    const position = formed.order[formed.start[number]!]!;
    const inspected = inspectedAt(series, position);
    return { count: series.value[position]!, size: Number.isNaN(inspected) ? usual : inspected };
  };
}

/** What the centre line of counts rests on, to be shown with a feature's own figures. */
export type CountWorking = {
  samples: number;
  /** Σ counts and Σ sizes of the baseline. */
  counts: number;
  inspected: number;
  /** Per piece or unit, of the limits in force. */
  rate: number;
  /** The baseline gives that rate today; exclusions and corrections since may have changed it. */
  agrees: boolean;
};

/** Differences below this share come from rounding. */
const SAME = 1e-9;

/**
 * How the rate p̄ or ū of the limits in force came about: Σ counts / Σ sizes of their baseline. Null while there are none.
 *
 * @param frozen baselines of the frozen versions, as moments of last readings
 */
export function countWorking(
  evaluation: Evaluation,
  {
    series,
    counts,
    frozen,
  }: {
    series: MeasurementSeries;
    counts: CountPlan;
    frozen: readonly FrozenBaseline[];
  },
): CountWorking | null {
  const version = evaluation.progress.limits;
  if (!version) return null;
  const read = sampleReader(evaluation, { series, counts });
  const samples = baselineNumbers(evaluation.points, { version, frozen }).map(read);
  const found = samples.reduce((sum, { count }) => sum + count, 0);
  const inspected = samples.reduce((sum, { size }) => sum + size, 0);
  const rate = version.centre / usualSample(counts);
  const agrees = samples.length > 0 && Math.abs(found / inspected - rate) <= SAME * rate;
  return { samples: samples.length, counts: found, inspected, rate, agrees };
}
