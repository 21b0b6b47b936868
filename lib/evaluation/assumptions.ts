import { lagOneAutocorrelation } from "../autocorrelation/lag-one";
import { normality } from "../capability/normality";
import { chiSquareCdf, chiSquareUpperTail } from "../distributions/chi-square";
import { pOfTest } from "../format/chance";
import { fixed } from "../format/numbers";
import { standardiseLocation } from "../limits/standardise";
import { assumptions as english } from "../words/en/assumptions";
import type { Evaluation } from "./evaluation";
import { type EvaluationSetup, LEAST_FOR_FINAL, TRIAL_VERSION } from "./setup";

type AssumptionWords = typeof english;

/** What a chart takes for granted, and whether it does hold; null where too little is known to tell. */
export type Assumption = { name: string; holds: boolean | null; words: string };

/** Lag-1 correlation of the points with its p; null where there are too few, or no variation. */
export type Neighbours = { r: number; p: number; count: number } | null;

/** Below this chance an assumption is said to fail. Common practice, no source. */
const SIGNIFICANCE = 0.01;
/** More of the latest points than this change no verdict that matters now. */
const MOST_POINTS = 1_000;

/** The latest points that count, as z by the limits that judged each. */
export function standardisedPoints({ points, versions }: Evaluation): number[] {
  const z: number[] = [];
  for (let number = points.count - 1; number >= 0 && z.length < MOST_POINTS; number--) {
    const version = versions[points.limits[number]!];
    if (!version || version.sigma <= 0 || points.excluded[number] === 1) continue;
    z.push(standardiseLocation(version, { mean: points.mean[number]!, size: points.size[number]! }));
  }
  return z.reverse();
}

/** Do neighbouring points resemble each other? See `lagOneAutocorrelation`. */
export function neighboursOf(z: ArrayLike<number>): Neighbours {
  const found = lagOneAutocorrelation(z);
  return found.ok ? found.value : null;
}

/** Whether a correlation is more than chance. */
export function isCorrelated(neighbours: Neighbours): neighbours is NonNullable<Neighbours> {
  return neighbours !== null && neighbours.p < SIGNIFICANCE;
}

/**
 * What the limits and the rules of a chart take for granted: enough subgroups behind the limits, independent
 * neighbours, and the distribution (normal points, or counts that scatter as binomial or Poisson ones do).
 */
export function chartAssumptions(
  evaluation: Evaluation,
  setup: EvaluationSetup,
  words: AssumptionWords = english,
): Assumption[] {
  const z = standardisedPoints(evaluation);
  const { counts } = setup.plan;
  return [
    enough(evaluation, words),
    independent(neighboursOf(z), words),
    counts ? scatterOfCounts(z, counts.chart, words) : normalPoints(z, setup.plan.chart, words),
  ];
}

function enough({ progress, points }: Evaluation, { enough: said }: AssumptionWords): Assumption {
  const { name } = said;
  const { limits } = progress;
  if (!limits) return { name, holds: null, words: said.none };
  if (limits.version !== TRIAL_VERSION) {
    return { name, holds: true, words: said.frozen(LEAST_FOR_FINAL) };
  }
  const holds = points.count >= LEAST_FOR_FINAL;
  return { name, holds, words: said.trial(points.count, LEAST_FOR_FINAL) };
}

function independent(found: Neighbours, words: AssumptionWords): Assumption {
  const { name, figures } = words.independent;
  if (!found) return { name, holds: null, words: words.tooFewPoints };
  const { r, p, count } = found;
  return { name, holds: p >= SIGNIFICANCE, words: figures(fixed(r, 2), count, pOfTest(p, words)) };
}

function normalPoints(
  z: readonly number[],
  chart: EvaluationSetup["plan"]["chart"],
  words: AssumptionWords,
): Assumption {
  const { normal: said } = words;
  const name = chart === "i-mr" ? said.readings : said.means;
  const found = normality(z);
  if (!found.ok) return { name, holds: null, words: words.tooFewPoints };
  const { A2, p, spreadOverGrid } = found.value;
  const judged = spreadOverGrid ?? { A2, p };
  const robust = chart === "i-mr" ? said.single : said.ofMeans;
  return {
    name,
    holds: judged.p >= SIGNIFICANCE,
    words: said.figures(fixed(judged.A2, 2), pOfTest(judged.p, words)) + robust,
  };
}

/** Σ z² is chi-square with as many degrees of freedom as points less one, where counts scatter as they should. */
function scatterOfCounts(
  z: readonly number[],
  chart: "p" | "np" | "c" | "u",
  words: AssumptionWords,
): Assumption {
  const { counts: said } = words;
  const law = chart === "p" || chart === "np" ? "binomial" : "Poisson";
  const name = said.name(law);
  const k = z.length;
  if (k < 3) return { name, holds: null, words: said.tooFew };
  const mean = z.reduce((sum, one) => sum + one, 0) / k;
  const dispersion = z.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const more = chiSquareUpperTail(dispersion, k - 1);
  const less = chiSquareCdf(dispersion, k - 1);
  const p = Math.min(1, 2 * Math.min(more, less));
  const ratio = dispersion / (k - 1);
  const figures = said.figures(fixed(ratio, 2), law, pOfTest(p, words));
  const why = p >= SIGNIFICANCE ? "" : ratio > 1 ? said.clusters : said.alike;
  return { name, holds: p >= SIGNIFICANCE, words: figures + why };
}
