import { logBayesFactor, logSumExp, normalScore } from "./bayes-factor";
import type { Correlations } from "./common-news";
import { middleOf } from "./middle";
import type { Tests } from "./test-hypotheses";

/** What a pattern over features needs to be tested on one hypothesis. */
export type PatternGiven = {
  scope: readonly number[];
  tests: Tests;
  correlations: Correlations;
  /** Share of the information that rests on comparing lots. */
  betweenLots: number;
  /** By feature: how much more its tests scatter than the model has it. */
  inflation: Float64Array;
};

/** Σ u t with and without the inflation taken out, Σ u² and uᵀRu, where u = weight × √information. */
export type PatternSums = { along: number; alongPlain: number; square: number; variance: number };

/**
 * All features shift in given proportions: one weighted sum of their tests.
 *
 * @param weights by place in the scope: sigma of the feature per unit of the shift
 */
export function patternSums(k: number, weights: Float64Array, given: PatternGiven): PatternSums {
  const { scope, tests, correlations, betweenLots: b, inflation } = given;
  const base = k * tests.features;
  const u = scratchOf(scope.length);
  let along = 0;
  let alongPlain = 0;
  let square = 0;
  let variance = 0;
  for (let s = 0; s < scope.length; s++) {
    const t = tests.t[base + scope[s]!]!;
    if (Number.isNaN(t) || weights[s] === 0) continue;
    u[s] = weights[s]! * Math.sqrt(tests.information[base + scope[s]!]!);
    along += (u[s]! * t) / inflation[scope[s]!]!;
    alongPlain += u[s]! * t;
    square += u[s]! * u[s]!;
  }
  const { features, within, between } = correlations;
  for (let s = 0; s < scope.length; s++) {
    if (u[s] === 0) continue;
    const row = scope[s]! * features;
    // R is symmetric: what lies before the diagonal counts twice.
    let sum = 0;
    for (let o = 0; o < s; o++) {
      const at = row + scope[o]!;
      sum += u[o]! * ((1 - b) * within[at]! + b * between[at]!);
    }
    const own = row + scope[s]!;
    variance += u[s]! * (2 * sum + u[s]! * ((1 - b) * within[own]! + b * between[own]!));
  }
  return { along, alongPlain, square, variance: Math.max(variance, square) };
}

/** One vector serves all hypotheses: each is done with it before the next begins. */
let kept = new Float64Array(0);
function scratchOf(length: number): Float64Array {
  if (kept.length < length) kept = new Float64Array(length);
  return kept.fill(0, 0, length);
}

/**
 * Log evidence that the part sits displaced along one of its locating directions, averaged over them.
 *
 * A worn or shifted locator moves every feature by its sensitivity to that direction, whatever its size: known
 * geometry says which features must agree, and how.
 *
 * Source: D. Ceglarek and J. Shi, fault patterns of fixtures in body assembly, Journal of Engineering for Industry
 * 118 (1996) 494-501 (from memory).
 */
export function locatedEvidence(
  k: number,
  directions: readonly Float64Array[],
  freedom: number,
  given: PatternGiven,
): { tempered: number; plain: number } {
  const tempered: number[] = [];
  const plain: number[] = [];
  for (const weights of directions) {
    const { along, alongPlain, square, variance } = patternSums(k, weights, given);
    if (square === 0) continue;
    const touched = weights.filter((weight) => weight !== 0).map(Math.abs);
    const slab = 1 / middleOf(touched);
    tempered.push(
      logBayesFactor(normalScore(along / Math.sqrt(variance), freedom), (slab * square) ** 2 / variance),
    );
    plain.push(logBayesFactor(alongPlain / Math.sqrt(square), slab * slab * square));
  }
  if (tempered.length === 0) return { tempered: 0, plain: 0 };
  return {
    tempered: logSumExp(tempered) - Math.log(tempered.length),
    plain: logSumExp(plain) - Math.log(plain.length),
  };
}
