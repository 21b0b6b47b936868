import { InvalidInput } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { studentTQuantile, studentTUpperTail } from "../distributions/student-t";
import { studentizedRangeUpperTail } from "../distributions/studentized-range";
import { type Groups, groupReadings } from "./groups";

/** Two groups by their ids, and the mean of the first less that of the second. */
export type PairDifference = { first: number; second: number; difference: number; p: number };

export type WelchPair = PairDifference & {
  t: number;
  degreesOfFreedom: number;
  interval: [lower: number, upper: number];
};

export type TukeyPair = PairDifference & { studentizedRange: number };

/**
 * Differences of two means each, when groups may scatter unequally: Welch's t test of every pair.
 *
 *   t = (x̄₁ − x̄₂)/√(v₁ + v₂),  vᵢ = sᵢ²/nᵢ,  ν = (v₁ + v₂)² / (v₁²/(n₁ − 1) + v₂²/(n₂ − 1))
 *
 * Each p stands by itself: with many pairs adjust them, as ./adjusted-p does.
 *
 * Source: B. L. Welch, Biometrika 34 (1947) 28-35 (from memory).
 *
 * @returns the problem "too-few-subgroups" below two groups, "too-few-readings" for a group of one, "no-variation" for a
 *   pair of which neither varies
 * @throws InvalidInput when the lengths differ, a reading is not finite, or unless 0 < confidence < 1
 */
export function welchPairs(
  values: ArrayLike<number>,
  ids: ArrayLike<number>,
  { confidence }: { confidence: number },
): Computed<WelchPair[]> {
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidInput("welchPairs", "confidence", confidence, "a probability between 0 and 1");
  }
  const groups = groupReadings("welchPairs", values, ids);
  const { counts, means, squares } = groups;
  const shortage = tooSmall(groups);
  if (shortage) return shortage;
  const variances = squares.map((square, g) => square / (counts[g]! - 1) / counts[g]!);
  const pairs: WelchPair[] = [];
  for (const [i, j] of pairsOf(counts.length)) {
    const sum = variances[i]! + variances[j]!;
    if (sum === 0) return problem({ code: "no-variation" });
    // Shares first, so that tiny squares cannot vanish.
    const reciprocal =
      (variances[i]! / sum) ** 2 / (counts[i]! - 1) + (variances[j]! / sum) ** 2 / (counts[j]! - 1);
    const degreesOfFreedom = 1 / reciprocal;
    const difference = means[i]! - means[j]!;
    const t = difference / Math.sqrt(sum);
    const reach = studentTQuantile((1 + confidence) / 2, degreesOfFreedom) * Math.sqrt(sum);
    pairs.push({
      first: groups.ids[i]!,
      second: groups.ids[j]!,
      difference,
      t,
      degreesOfFreedom,
      p: 2 * studentTUpperTail(Math.abs(t), degreesOfFreedom),
      interval: [difference - reach, difference + reach],
    });
  }
  return computed(pairs);
}

/**
 * The same when groups scatter equally, all pairs judged together: a p below 5 % turns up anywhere in one of twenty
 * sets of equal groups, however many they are.
 *
 *   q = |x̄₁ − x̄₂| / √(MSw/2 · (1/n₁ + 1/n₂)),  p from the studentized range of all k groups
 *
 * Exact for groups of equal size, a little cautious otherwise.
 *
 * Source: J. W. Tukey (1953); C. Y. Kramer, Biometrics 12 (1956) 307-310 (from memory).
 *
 * @returns the problems of `welchPairs`; groups of one are welcome as long as some group repeats
 * @throws InvalidInput when the lengths differ or a reading is not finite
 */
export function tukeyKramerPairs(values: ArrayLike<number>, ids: ArrayLike<number>): Computed<TukeyPair[]> {
  const groups = groupReadings("tukeyKramerPairs", values, ids);
  const { counts, means, squares } = groups;
  const k = counts.length;
  if (k < 2) return problem({ code: "too-few-subgroups", needed: 2, got: k });
  const degreesOfFreedom = values.length - k;
  if (degreesOfFreedom < 1) {
    return problem({ code: "too-few-readings", needed: k + 1, got: values.length });
  }
  const meanSquare = squares.reduce((sum, square) => sum + square, 0) / degreesOfFreedom;
  if (meanSquare === 0) return problem({ code: "no-variation" });
  return computed(
    pairsOf(k).map(([i, j]) => {
      const difference = means[i]! - means[j]!;
      const error = Math.sqrt((meanSquare / 2) * (1 / counts[i]! + 1 / counts[j]!));
      const studentizedRange = Math.abs(difference) / error;
      const p = studentizedRangeUpperTail(studentizedRange, { groups: k, degreesOfFreedom });
      return { first: groups.ids[i]!, second: groups.ids[j]!, difference, studentizedRange, p };
    }),
  );
}

function tooSmall({ counts }: Groups): Computed<never> | null {
  if (counts.length < 2) return problem({ code: "too-few-subgroups", needed: 2, got: counts.length });
  const least = counts.reduce((smallest, count) => Math.min(smallest, count));
  return least < 2 ? problem({ code: "too-few-readings", needed: 2, got: least }) : null;
}

function pairsOf(count: number): [number, number][] {
  const pairs: [number, number][] = [];
  for (let i = 0; i < count; i++) for (let j = i + 1; j < count; j++) pairs.push([i, j]);
  return pairs;
}
