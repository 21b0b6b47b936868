import { InvalidInput } from "../checks";
import { fixed, inDigits } from "../format/numbers";
import { randomStream } from "../random/random-stream";
import type { RunRule } from "../rules/rule";
import { rulesRunLengths, type SimulationPlan } from "../run-length/rules-run-length";
import { simulateRunLength } from "../run-length/simulate";
import { otherCharts } from "../words/en/other-charts";

const english = otherCharts.neighbours;
type GrowthWords = Pick<typeof english, "hardly" | "growth">;

/**
 * Where the chart's sigma comes from. "overall": it is that of the points themselves. "moving-range": from
 * neighbours, as on a chart of single readings; alike neighbours make it too small, by √(1 − r).
 */
export type SigmaSource = "overall" | "moving-range";

export type FalseAlarmGrowth = {
  /** False alarms with correlated points over those with independent ones; null when hardly any came. */
  factor: number | null;
  /** Of the factor. */
  standardError: number | null;
  /** Points per false alarm: independent, and correlated. */
  independent: number | null;
  correlated: number | null;
  /** What it means, in words with the numbers. */
  sentence: string;
};

/** Beyond this a series hardly comes back to its centre. */
const MOST_CORRELATED = 0.99;

/**
 * By what factor run rules give more false alarms when neighbours in time resemble each other.
 *
 *   xₜ = r xₜ₋₁ + √(1 − r²) eₜ        (first-order autoregression, variance 1, first point likewise)
 *   factor = points per false alarm independent / the same correlated
 *
 * The independent one is exact where the rules have an exact form; the correlated one is simulated with the
 * judging code. Runs on one side and zones are what suffers: with r = 0.3 the four Western Electric rules
 * give twice as many, limits alone no more while sigma is that of the points. With sigma from moving ranges
 * the limits draw in as well: about four times as many, for either. A negative r does the contrary.
 *
 * Source: the effect as in L. C. Alwan and H. V. Roberts, Journal of Business & Economic Statistics 6 (1988)
 * 87-95 (from memory).
 *
 * @param r lag-1 autocorrelation of the plotted points, as `lagOneAutocorrelation` estimates it
 * @throws InvalidInput when there is no rule, r is not within ±0.99, the source of sigma is unknown, or the
 *   simulation plan is not of whole numbers in range
 */
export function falseAlarmGrowth({
  rules,
  r,
  sigmaFrom,
  simulation,
  words = english,
}: {
  rules: readonly RunRule[];
  r: number;
  sigmaFrom: SigmaSource;
  simulation: SimulationPlan;
  /** Of the sentence; English where none are given. */
  words?: GrowthWords;
}): FalseAlarmGrowth {
  const where = "falseAlarmGrowth";
  if (!(Math.abs(r) <= MOST_CORRELATED)) {
    throw new InvalidInput(where, "r", r, `within ±${MOST_CORRELATED}`);
  }
  if (sigmaFrom !== "overall" && sigmaFrom !== "moving-range") {
    throw new InvalidInput(where, "sigmaFrom", sigmaFrom, "overall or moving-range");
  }
  const [alone] = rulesRunLengths({ rules, shifts: [0], simulation });
  const independent = alone!.mean;

  const random = randomStream(simulation.seed, `autocorrelation ${r}`);
  const fresh = Math.sqrt(1 - r * r);
  const scale = sigmaFrom === "moving-range" ? 1 / Math.sqrt(1 - r) : 1;
  let x = 0;
  const nextPoint = (isFirst: boolean) => {
    x = isFirst ? random.normal() : r * x + fresh * random.normal();
    return x * scale;
  };
  const drawn = simulateRunLength({ rules, nextPoint, runs: simulation.runs });
  const correlated = drawn.mean;
  if (independent === null || correlated === null) {
    return { factor: null, standardError: null, independent, correlated, sentence: words.hardly };
  }
  const factor = independent / correlated;
  const relativeErrors = [(alone!.standardError ?? 0) / independent, drawn.standardError! / correlated];
  return {
    factor,
    standardError: factor * Math.hypot(...relativeErrors),
    independent,
    correlated,
    sentence: words.growth({
      alike: r >= 0,
      r: fixed(r, 2),
      factor: inDigits(factor, 2),
      points: Math.round(correlated),
      alone: Math.round(independent),
    }),
  };
}
