import { lagOneAutocorrelation } from "../autocorrelation/lag-one";
import { normality } from "../capability/normality";
import { chiSquareCdf, chiSquareUpperTail } from "../distributions/chi-square";
import { counted, fixed, whole } from "../format/numbers";
import { standardiseLocation } from "../limits/standardise";
import type { Evaluation } from "./evaluation";
import { type EvaluationSetup, LEAST_FOR_FINAL, TRIAL_VERSION } from "./setup";

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
export function chartAssumptions(evaluation: Evaluation, setup: EvaluationSetup): Assumption[] {
  const z = standardisedPoints(evaluation);
  const { counts } = setup.plan;
  return [
    enough(evaluation),
    independent(neighboursOf(z)),
    counts ? scatterOfCounts(z, counts.chart) : normalPoints(z, setup.plan.chart),
  ];
}

function enough({ progress, points }: Evaluation): Assumption {
  const name = "Limits rest on enough subgroups";
  const { limits } = progress;
  if (!limits) return { name, holds: null, words: "There are no limits yet." };
  if (limits.version !== TRIAL_VERSION) {
    return { name, holds: true, words: `Frozen ones need at least ${LEAST_FOR_FINAL}.` };
  }
  const holds = points.count >= LEAST_FOR_FINAL;
  const words = `${counted(points.count, "subgroup")} so far; ${LEAST_FOR_FINAL} are needed, and these limits are trial limits until somebody freezes them.`;
  return { name, holds, words };
}

function independent(found: Neighbours): Assumption {
  const name = "Points are independent of their neighbours";
  if (!found) return { name, holds: null, words: "Too few points to tell, or no variation." };
  const { r, p, count } = found;
  const figures = `Correlation of neighbours r = ${fixed(r, 2)} in ${whole(count)} points, ${chance(p)}`;
  return { name, holds: p >= SIGNIFICANCE, words: `${figures} (NIST/SEMATECH e-Handbook 1.3.5.12).` };
}

function normalPoints(z: readonly number[], chart: EvaluationSetup["plan"]["chart"]): Assumption {
  const name = chart === "i-mr" ? "Readings are normal" : "Means are normal";
  const found = normality(z);
  if (!found.ok) return { name, holds: null, words: "Too few points to tell, or no variation." };
  const { A2, p, spreadOverGrid } = found.value;
  const judged = spreadOverGrid ?? { A2, p };
  const robust =
    chart === "i-mr"
      ? " Limits of single readings lean on it."
      : " Limits of means lean on it little; rules within the limits more.";
  return {
    name,
    holds: judged.p >= SIGNIFICANCE,
    words: `Anderson-Darling A² = ${fixed(judged.A2, 2)}, ${chance(judged.p)}.${robust}`,
  };
}

/** Σ z² is chi-square with as many degrees of freedom as points less one, where counts scatter as they should. */
function scatterOfCounts(z: readonly number[], chart: "p" | "np" | "c" | "u"): Assumption {
  const law = chart === "p" || chart === "np" ? "binomial" : "Poisson";
  const name = `Counts scatter as ${law} ones do`;
  const k = z.length;
  if (k < 3) return { name, holds: null, words: "Too few counts to tell." };
  const mean = z.reduce((sum, one) => sum + one, 0) / k;
  const dispersion = z.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const more = chiSquareUpperTail(dispersion, k - 1);
  const less = chiSquareCdf(dispersion, k - 1);
  const p = Math.min(1, 2 * Math.min(more, less));
  const ratio = dispersion / (k - 1);
  const words = `Their variance is ${fixed(ratio, 2)} times that of a ${law} distribution, ${chance(p)}.`;
  const why =
    p >= SIGNIFICANCE
      ? ""
      : ratio > 1
        ? " Faults come in clusters, or the rate moves from sample to sample."
        : " Samples are more alike than chance makes them: are they counted independently?";
  return { name, holds: p >= SIGNIFICANCE, words: words + why };
}

function chance(p: number): string {
  return p < 0.001 ? "p below 0.001" : `p = ${fixed(p, 3)}`;
}
