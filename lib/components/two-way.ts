import { InvalidInput, requireFinite } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { fUpperTail } from "../distributions/f";
import { leastSquares } from "../regression/least-squares";
import { groupReadings } from "./groups";

export type EffectLine = {
  sumOfSquares: number;
  degreesOfFreedom: number;
  /** Against the residual; null when that does not vary. */
  F: number | null;
  p: number | null;
};

export type TwoWay = {
  first: EffectLine;
  second: EffectLine;
  /** Null where it was not asked for. */
  interaction: EffectLine | null;
  residual: { sumOfSquares: number; degreesOfFreedom: number; meanSquare: number };
};

/**
 * Do readings differ by one factor once the other is taken off, as fixtures do beside their lots?
 *
 *   SS first  = RSS(second) − RSS(first + second),  SS second likewise
 *   SS interaction = RSS(first + second) − RSS(cells)
 *
 * with RSS the squares left by a fixed-effects model: sums of squares of "type II", each effect adjusted for the other,
 * whatever the numbers of readings in the cells. The residual is that of the cells with the interaction in the model,
 * that of the additive model without.
 *
 * The second factor is swept out by its means, so that only the first needs columns: give the one with fewer levels
 * first.
 *
 * Source: S. R. Searle, Linear Models for Unbalanced Data (1987), chapter 4 (from memory).
 *
 * @returns the problem "too-few-subgroups" below two levels of a factor, "too-few-readings" when no degree of freedom is
 *   left for the residual, "no-variation" when the two factors cannot be told apart
 * @throws InvalidInput when the lengths differ or a reading is not a finite number
 */
export function twoWayAnova({
  values,
  first,
  second,
  interaction,
}: {
  values: ArrayLike<number>;
  first: ArrayLike<number>;
  second: ArrayLike<number>;
  interaction: boolean;
}): Computed<TwoWay> {
  const where = "twoWayAnova";
  const n = values.length;
  for (const [field, ids] of Object.entries({ first, second })) {
    if (ids.length !== n) throw new InvalidInput(where, `${field}.length`, ids.length, `${n}, one a reading`);
  }
  requireFinite(where, "values", values);
  if (n === 0) return problem({ code: "too-few-readings", needed: 4, got: 0 });
  const origin = values[0]!;
  const shifted = Float64Array.from(values, (value) => value - origin);
  const byFirst = groupReadings(where, shifted, first);
  const bySecond = groupReadings(where, shifted, second);
  const levels = { first: byFirst.ids.length, second: bySecond.ids.length };
  const fewest = Math.min(levels.first, levels.second);
  if (fewest < 2) return problem({ code: "too-few-subgroups", needed: 2, got: fewest });
  const byCell = groupReadings(where, shifted, cellIds(byFirst.groupOf, bySecond.groupOf));

  const additive = additiveSquares(shifted, { first: byFirst.groupOf, second: bySecond.groupOf, levels });
  if (!additive.ok) return additive;
  const alone = { first: total(byFirst.squares), second: total(bySecond.squares) };
  const cells = total(byCell.squares);
  const additiveFreedom = n - levels.first - levels.second + 1;
  const cellFreedom = n - byCell.ids.length;
  const left = interaction ? cells : additive.value;
  const degreesOfFreedom = interaction ? cellFreedom : additiveFreedom;
  if (degreesOfFreedom < 1) {
    return problem({ code: "too-few-readings", needed: n + 1 - degreesOfFreedom, got: n });
  }

  const residual = { sumOfSquares: left, degreesOfFreedom, meanSquare: left / degreesOfFreedom };
  const line = (sumOfSquares: number, freedom: number): EffectLine => {
    const squares = Math.max(0, sumOfSquares);
    const F = residual.meanSquare === 0 || freedom === 0 ? null : squares / freedom / residual.meanSquare;
    const p = F === null ? null : fUpperTail(F, { numerator: freedom, denominator: degreesOfFreedom });
    return { sumOfSquares: squares, degreesOfFreedom: freedom, F, p };
  };
  return computed({
    first: line(alone.second - additive.value, levels.first - 1),
    second: line(alone.first - additive.value, levels.second - 1),
    interaction: interaction ? line(additive.value - cells, additiveFreedom - cellFreedom) : null,
    residual,
  });
}

function cellIds(first: Uint32Array, second: Uint32Array): Float64Array {
  let most = 0;
  for (const id of second) most = Math.max(most, id);
  return Float64Array.from(first, (id, i) => id * (most + 1) + second[i]!);
}

/** RSS of first + second: readings and the columns of the first factor, both less their means by the second. */
function additiveSquares(
  values: Float64Array,
  {
    first,
    second,
    levels,
  }: { first: Uint32Array; second: Uint32Array; levels: { first: number; second: number } },
): Computed<number> {
  const swept = sweep(values, { ids: second, levels: levels.second });
  const columns: Float64Array[] = [];
  for (let level = 1; level < levels.first; level++) {
    const column = Float64Array.from(first, (id) => (id === level ? 1 : 0));
    columns.push(sweep(column, { ids: second, levels: levels.second }));
  }
  const fitted = leastSquares(swept, columns);
  return fitted.ok ? computed(fitted.value.residualSumOfSquares) : fitted;
}

/** Values less the mean of their group. */
function sweep(values: Float64Array, { ids, levels }: { ids: Uint32Array; levels: number }): Float64Array {
  const sums = new Float64Array(levels);
  const counts = new Float64Array(levels);
  for (let i = 0; i < values.length; i++) {
    sums[ids[i]!]! += values[i]!;
    counts[ids[i]!]!++;
  }
  return values.map((value, i) => value - sums[ids[i]!]! / counts[ids[i]!]!);
}

function total(squares: Float64Array): number {
  return squares.reduce((sum, one) => sum + one, 0);
}
