import { InvalidInput, requireCount, requireFiniteNumbers } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { fUpperTail } from "../distributions/f";
import { normalUpperTail } from "../distributions/normal";
import { pOfTest } from "../format/chance";
import { TIE } from "../rules/judge";
import { mean } from "../summary/moments";
import { assumptions } from "../words/en/assumptions";
import { otherCharts } from "../words/en/other-charts";
import type { SigmaEstimate } from "./estimators";
import { type ControlLimits, limitsForSize, requireSigma } from "./limits-for-size";
import { sigmaFromMeanMovingRange } from "./mean-moving-range";

const ENGLISH = { ...assumptions, found: otherCharts.lots.found };
/** How the finding is told; English where no words are given. */
export type BetweenLotsWords = Pick<typeof ENGLISH, "found" | "p" | "pBelow">;

/** A lot: how many readings, and their mean. A `SubgroupSummary` is one, where each lot gives one subgroup. */
export type Lot = { size: number; mean: number };

/** Both in the unit of the readings. */
export type Components = { within: number; between: number };

export type BetweenLots = {
  lots: number;
  /** Do lot means differ by more than readings within a lot explain? */
  test: { F: number; p: number; numerator: number; denominator: number };
  /** Sigma within lots, and of the lots' true means, by the analysis of variance; 0 where none shows. */
  components: Components;
  /** Share of the total variance of a reading that lies between lots. */
  share: number;
  /** Lots beyond ±3 sigma limits drawn from the within sigma, as seen and as the components lead to expect. */
  signalling: { seen: number; expectedShare: number };
  /** "none": no component shows. "some": it shows, but most lots stay inside. "swamped": the chart is of no use. */
  verdict: "none" | "some" | "swamped";
  /** Limits for lot means that take lot-to-lot variation as part of the process; for the location chart alone. */
  offered: OfferedLimits;
  /** What is so, in words with the numbers. */
  sentence: string;
};

export type OfferedLimits = ControlLimits & {
  /** Of lot means: MR̄ / d2. */
  sigma: number;
  degreesOfFreedom: number;
  /** The same with what the readings contribute to a mean taken off: the lots' own sigma. */
  between: number;
  /** Lots beyond them. */
  signalling: number;
};

/** Chance of being told of a component that is not there. Common practice, no source. */
const SIGNIFICANCE = 0.01;

/** Where so large a share of lots signals, the within sigma is the wrong yardstick. Common practice, no source. */
const SWAMPED_SHARE = 0.2;

const FEWEST = 3;

/**
 * Is the within-lot sigma the right yardstick for lot means?
 *
 *   F = MS between / σ²within,   MS between = Σ nᵢ (x̄ᵢ − x̄)²/(k − 1),   x̄ the mean of all readings
 *   σ²between = max(0, (MS between − σ²within)/n₀),   n₀ = (N − Σ nᵢ²/N)/(k − 1)
 *
 * Castings of one melt, pieces of one setting are more alike than those of two. Limits from the spread
 * within then make most lots signal, though nothing happened that does not always happen. When F is
 * significant at 1 % and a fifth of the lots lies beyond such limits, this says so and offers others, from
 * the moving range of successive lot means:
 *
 *   mean of lot means ± 3 MR̄ / d2(2),    σ²between = max(0, (MR̄/d2)² − σ²within · mean of 1/nᵢ)
 *
 * Three things are then watched: lot means by these limits, their moving ranges, and the spread within
 * lots as before. To take them is a decision: they accept that lots differ, which only the shop can know to
 * be right. A lot-to-lot difference that can be removed is better removed. Lots in the order of time.
 *
 * Sizes may differ; the offered limits treat all lots alike. With n₀ = 1 nothing can be told apart.
 *
 * Unit of the readings. The F test takes σ within from the chart's own estimator with its degrees of freedom
 * (exact for pooled-sd, close for the others).
 *
 * Source: W. H. Woodall and E. V. Thomas, IIE Transactions 27 (1995) 757-764 (from memory); components:
 * S. R. Searle, G. Casella and C. E. McCulloch, Variance Components (1992), chapter 3 (from memory).
 *
 * @param within sigma of single readings within lots, as `estimateLimits` finds it
 * @returns the problem "too-few-subgroups" below three lots, "too-few-readings" when every lot has one
 *   reading, "no-variation" when all lot means are alike
 * @throws InvalidInput when a mean is not finite, a size is no whole number from 1 on, or sigma or its
 *   degrees of freedom are not above 0
 */
export function betweenLots({
  lots,
  within,
  words = ENGLISH,
}: {
  lots: readonly Lot[];
  within: SigmaEstimate;
  words?: BetweenLotsWords | undefined;
}): Computed<BetweenLots> {
  requireLots(lots, within);
  const k = lots.length;
  if (k < FEWEST) return problem({ code: "too-few-subgroups", needed: FEWEST, got: k });
  const readings = lots.reduce((sum, { size }) => sum + size, 0);
  if (readings === k) return problem({ code: "too-few-readings", needed: k + 1, got: readings });
  const means = lots.map((lot) => lot.mean);
  if (means.every((one) => one === means[0])) return problem({ code: "no-variation" });

  // Differences from the first mean: a common offset would cost digits in every square.
  const shifted = lots.map(({ size, mean: value }) => ({ size, mean: value - means[0]! }));
  const grand = shifted.reduce((sum, lot) => sum + lot.size * lot.mean, 0) / readings;
  const meanSquare = shifted.reduce((sum, lot) => sum + lot.size * (lot.mean - grand) ** 2, 0) / (k - 1);
  const usualSize = (readings - lots.reduce((sum, { size }) => sum + size * size, 0) / readings) / (k - 1);
  const withinVariance = within.sigma ** 2;
  const F = meanSquare / withinVariance;
  const degrees = { numerator: k - 1, denominator: within.degreesOfFreedom };
  const p = fUpperTail(F, degrees);
  const betweenVariance = Math.max(0, (meanSquare - withinVariance) / usualSize);

  const seen = shifted.filter(
    ({ size, mean: value }) => Math.abs(value - grand) * Math.sqrt(size) > (3 + TIE) * within.sigma,
  ).length;
  const expectedShare =
    lots.reduce((sum, { size }) => sum + shareBeyond((size * betweenVariance) / withinVariance), 0) / k;
  const verdict = p > SIGNIFICANCE ? "none" : seen >= SWAMPED_SHARE * k ? "swamped" : "some";

  const found: Omit<BetweenLots, "sentence"> = {
    lots: k,
    test: { F, p, ...degrees },
    components: { within: within.sigma, between: Math.sqrt(betweenVariance) },
    share: betweenVariance / (betweenVariance + withinVariance),
    signalling: { seen, expectedShare },
    verdict,
    offered: limitsFromMeans(lots, within.sigma),
  };
  return computed({ ...found, sentence: inWords(found, words) });
}

/** P(abs mean beyond 3σ/√n) when the means themselves scatter: their variance is 1 + n σ²b/σ²w times as large. */
function shareBeyond(ratio: number): number {
  return 2 * normalUpperTail(3 / Math.sqrt(1 + ratio));
}

function limitsFromMeans(lots: readonly Lot[], within: number): OfferedLimits {
  const means = lots.map((lot) => lot.mean);
  const { sigma, degreesOfFreedom } = sigmaFromMeanMovingRange(means);
  const centre = mean(means);
  const { location } = limitsForSize({ chart: "i-mr", centre, sigma }, 1);
  const fromReadings = within ** 2 * mean(lots.map(({ size }) => 1 / size));
  return {
    ...location,
    sigma,
    degreesOfFreedom,
    between: Math.sqrt(Math.max(0, sigma ** 2 - fromReadings)),
    signalling: means.filter((value) => Math.abs(value - centre) > (3 + TIE) * sigma).length,
  };
}

function inWords(
  { lots, test, share, signalling, verdict, offered }: Omit<BetweenLots, "sentence">,
  words: BetweenLotsWords,
): string {
  const { found } = words;
  const seen = found.seen(signalling.seen, lots);
  if (verdict === "none") return found.none(pOfTest(test.p, words), seen);
  const percent = Math.round(100 * share);
  return verdict === "some"
    ? found.some(seen, percent)
    : found.swamped(seen, percent, offered.signalling, lots);
}

function requireLots(lots: readonly Lot[], { sigma, degreesOfFreedom }: SigmaEstimate): void {
  const where = "betweenLots";
  requireSigma(where, sigma);
  if (!(degreesOfFreedom > 0)) {
    throw new InvalidInput(where, "degreesOfFreedom", degreesOfFreedom, "above 0");
  }
  lots.forEach((lot, i) => {
    requireCount(where, `lots[${i}].size`, lot.size, 1);
    requireFiniteNumbers(where, { [`lots[${i}].mean`]: lot.mean });
  });
}
