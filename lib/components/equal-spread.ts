import { type Computed, computed, problem } from "../computed";
import { chiSquareUpperTail } from "../distributions/chi-square";
import { mean, median } from "../summary/moments";
import { groupReadings } from "./groups";
import { oneWayAnova } from "./one-way";

export type SpreadTest = { statistic: number; p: number };

/**
 * Do groups scatter equally? Bartlett's test, for normal readings: sharp, but it takes a long tail for a
 * difference in spread.
 *
 *   T = [ (N − k) ln s²ₚ − Σ (nᵢ − 1) ln sᵢ² ] / [ 1 + (Σ 1/(nᵢ − 1) − 1/(N − k)) / 3(k − 1) ]
 *
 * T is chi-square with k − 1 degrees of freedom. Groups of one reading have no spread and are left out.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.7.
 *
 * @returns the problem "too-few-subgroups" below two groups of two, "no-variation" when one does not vary
 * @throws InvalidInput when the lengths differ or a reading is not a finite number
 */
export function bartlettTest(values: ArrayLike<number>, ids: ArrayLike<number>): Computed<SpreadTest> {
  const { counts, squares } = groupReadings("bartlettTest", values, ids);
  const used = Array.from(counts.keys()).filter((group) => counts[group]! > 1);
  if (used.length < 2) return problem({ code: "too-few-subgroups", needed: 2, got: used.length });
  if (used.some((group) => squares[group] === 0)) return problem({ code: "no-variation" });

  let degrees = 0;
  let pooled = 0;
  let logs = 0;
  let reciprocals = 0;
  for (const group of used) {
    const own = counts[group]! - 1;
    degrees += own;
    pooled += squares[group]!;
    logs += own * Math.log(squares[group]! / own);
    reciprocals += 1 / own;
  }
  const statistic =
    (degrees * Math.log(pooled / degrees) - logs) /
    (1 + (reciprocals - 1 / degrees) / (3 * (used.length - 1)));
  return computed({ statistic, p: chiSquareUpperTail(Math.max(0, statistic), used.length - 1) });
}

/**
 * Do groups scatter equally? Levene's test on distances from the group's median (Brown and Forsythe): an
 * analysis of variance of |x − median|, steady against long tails.
 *
 * Source: NIST/SEMATECH e-Handbook 1.3.5.10.
 *
 * @returns the problems of `oneWayAnova`, and "no-variation" when the distances do not vary within groups
 * @throws InvalidInput when the lengths differ or a reading is not a finite number
 */
export function leveneTest(values: ArrayLike<number>, ids: ArrayLike<number>): Computed<SpreadTest> {
  return testOfDistances("leveneTest", { values, ids, centreOf: median });
}

/**
 * Levene's test as first published, on distances from the group's mean: a little sharper for normal readings, and
 * misled by long tails.
 *
 * Source: H. Levene in Contributions to Probability and Statistics (1960) 278-292 (from memory).
 *
 * @returns and throws as `leveneTest`
 */
export function leveneTestAboutMeans(
  values: ArrayLike<number>,
  ids: ArrayLike<number>,
): Computed<SpreadTest> {
  return testOfDistances("leveneTestAboutMeans", { values, ids, centreOf: mean });
}

function testOfDistances(
  where: string,
  {
    values,
    ids,
    centreOf,
  }: {
    values: ArrayLike<number>;
    ids: ArrayLike<number>;
    centreOf: (readings: ArrayLike<number>) => number;
  },
): Computed<SpreadTest> {
  const { counts, groupOf } = groupReadings(where, values, ids);
  const members = Array.from(counts, (count) => new Float64Array(count));
  const filled = new Uint32Array(counts.length);
  for (let i = 0; i < values.length; i++) {
    const group = groupOf[i]!;
    members[group]![filled[group]!++] = values[i]!;
  }
  const centres = members.map((readings) => centreOf(readings));
  const distances = Float64Array.from(values, (value, i) => Math.abs(value - centres[groupOf[i]!]!));

  const anova = oneWayAnova(distances, ids);
  if (!anova.ok) return anova;
  const { F, p } = anova.value;
  return F === null || p === null ? problem({ code: "no-variation" }) : computed({ statistic: F, p });
}
