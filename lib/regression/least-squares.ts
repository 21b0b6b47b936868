import { InvalidInput, requireFinite } from "../checks";
import { type Computed, computed, problem } from "../computed";

export type Coefficient = { estimate: number; standardError: number; t: number | null };

export type Regression = {
  coefficients: Coefficient[];
  residuals: Float64Array;
  /** Σ of squared residuals, and their standard deviation √(SS / degrees of freedom), in the unit of y. */
  residualSumOfSquares: number;
  residualStandardDeviation: number;
  degreesOfFreedom: number;
  /** Share of the variation explained: about the mean when a column is constant, about zero otherwise. */
  rSquared: number | null;
  /** (XᵀX)⁻¹, row by row: times the residual variance it is the covariance of the coefficients. */
  inverse: Float64Array;
};

/** A diagonal element of R this much smaller than its column is rounding: the columns depend on each other. */
const DEPENDENT_BELOW = 1e-13;

/** Corrections by the residuals' own regression. */
const REFINEMENTS = 2;

/**
 * Linear least squares: the b that makes Σ (y − Xb)² smallest.
 *
 * By Householder's orthogonal triangularisation, X = QR, and not by the normal equations XᵀXb = Xᵀy, which square
 * the condition of X and lose twice the digits (Longley's data: 8 digits more here). Columns are scaled to length 1
 * first, and the solution is corrected twice by the regression of its residuals.
 *
 * Residuals that are all within the rounding of the readings count as 0: a line through exact points has no scatter and
 * no t.
 *
 * `columns` are those of X: one of ones stands for an intercept. Coefficients are in the unit of y over that of their
 * column.
 *
 * Source: G. H. Golub, Numerische Mathematik 7 (1965) 206-216 (from memory); checked on the linear regression sets of
 * NIST's Statistical Reference Datasets.
 *
 * @returns the problem "too-few-readings" unless there are more readings than columns, "no-variation" when columns
 *   depend on each other, as two equal ones do
 * @throws InvalidInput without columns, for columns of another length than y, or a number that is not finite
 */
export function leastSquares(
  y: ArrayLike<number>,
  columns: readonly ArrayLike<number>[],
): Computed<Regression> {
  const where = "leastSquares";
  if (columns.length === 0) throw new InvalidInput(where, "columns.length", 0, "at least 1");
  requireFinite(where, "y", y);
  for (const [j, column] of columns.entries()) {
    if (column.length !== y.length) {
      throw new InvalidInput(where, `columns[${j}].length`, column.length, `that of y, ${y.length}`);
    }
    requireFinite(where, `columns[${j}]`, column);
  }
  const rows = y.length;
  const count = columns.length;
  if (rows <= count) return problem({ code: "too-few-readings", needed: count + 1, got: rows });

  const scales = columns.map(lengthOf);
  if (scales.some((scale) => scale === 0)) return problem({ code: "no-variation" });
  const scaled = columns.map((column, j) => Float64Array.from(column, (x) => x / scales[j]!));
  const factor = triangularise(scaled, rows);
  if (factor === null) return problem({ code: "no-variation" });

  let solution = solve(factor, Float64Array.from(y));
  let residuals = residualsOf(y, { columns, solution, scales });
  for (let k = 0; k < REFINEMENTS; k++) {
    const correction = solve(factor, residuals);
    solution = solution.map((b, j) => b + correction[j]!);
    residuals = residualsOf(y, { columns, solution, scales });
  }

  if (isRounding(residuals, y)) residuals.fill(0);

  const degreesOfFreedom = rows - count;
  let squares = 0;
  for (const residual of residuals) squares += residual * residual;
  const deviation = Math.sqrt(squares / degreesOfFreedom);
  const inverse = inverseOf(factor.upper, scales);
  const coefficients = Array.from(solution, (b, j): Coefficient => {
    const estimate = b / scales[j]!;
    const standardError = deviation * Math.sqrt(inverse[j * count + j]!);
    return { estimate, standardError, t: standardError === 0 ? null : estimate / standardError };
  });
  const total = totalSquares(y, columns);
  return computed({
    coefficients,
    residuals,
    residualSumOfSquares: squares,
    residualStandardDeviation: deviation,
    degreesOfFreedom,
    rSquared: total === 0 ? null : 1 - squares / total,
    inverse,
  });
}

/** Whether all residuals are no larger than what the readings lost on becoming doubles: then nothing scatters. */
function isRounding(residuals: Float64Array, y: ArrayLike<number>): boolean {
  let largest = 0;
  for (let i = 0; i < y.length; i++) largest = Math.max(largest, Math.abs(y[i]!));
  return residuals.every((residual) => Math.abs(residual) <= 8 * Number.EPSILON * largest);
}

/** Householder vectors, one a column, and the upper triangle R, row by row. */
type Factor = { reflectors: Float64Array[]; upper: Float64Array[] };

function triangularise(columns: readonly Float64Array[], rows: number): Factor | null {
  const work = columns.map((column) => Float64Array.from(column));
  const reflectors: Float64Array[] = [];
  const upper: Float64Array[] = work.map(() => new Float64Array(work.length));
  for (let k = 0; k < work.length; k++) {
    const column = work[k]!;
    let squares = 0;
    for (let i = k; i < rows; i++) squares += column[i]! * column[i]!;
    const length = Math.sqrt(squares);
    if (length < DEPENDENT_BELOW) return null;
    const head = column[k]! >= 0 ? -length : length;
    const reflector = new Float64Array(rows);
    for (let i = k; i < rows; i++) reflector[i] = column[i]!;
    reflector[k]! -= head;
    const norm = lengthOf(reflector);
    for (let i = k; i < rows; i++) reflector[i]! /= norm;
    reflectors.push(reflector);
    upper[k]![k] = head;
    for (let j = k + 1; j < work.length; j++) {
      reflect(work[j]!, reflector, k);
      upper[k]![j] = work[j]![k]!;
    }
  }
  return { reflectors, upper };
}

/** v ← v − 2u(uᵀv), for a unit vector u that is zero before `from`. */
function reflect(vector: Float64Array, reflector: Float64Array, from: number): void {
  let product = 0;
  for (let i = from; i < vector.length; i++) product += reflector[i]! * vector[i]!;
  for (let i = from; i < vector.length; i++) vector[i]! -= 2 * product * reflector[i]!;
}

/** The coefficients of the scaled columns for a right-hand side. */
function solve({ reflectors, upper }: Factor, right: Float64Array): Float64Array {
  const turned = Float64Array.from(right);
  for (const [k, reflector] of reflectors.entries()) reflect(turned, reflector, k);
  const count = upper.length;
  const solution = new Float64Array(count);
  for (let i = count - 1; i >= 0; i--) {
    let rest = turned[i]!;
    for (let j = i + 1; j < count; j++) rest -= upper[i]![j]! * solution[j]!;
    solution[i] = rest / upper[i]![i]!;
  }
  return solution;
}

function residualsOf(
  y: ArrayLike<number>,
  {
    columns,
    solution,
    scales,
  }: { columns: readonly ArrayLike<number>[]; solution: Float64Array; scales: readonly number[] },
): Float64Array {
  return Float64Array.from(y, (value, i) => {
    let rest = value;
    for (let j = 0; j < columns.length; j++) rest -= (solution[j]! / scales[j]!) * columns[j]![i]!;
    return rest;
  });
}

/** (XᵀX)⁻¹ = R⁻¹R⁻ᵀ, with the scaling of the columns taken back. */
function inverseOf(upper: readonly Float64Array[], scales: readonly number[]): Float64Array {
  const count = upper.length;
  const inverse = upper.map(() => new Float64Array(count));
  for (let column = 0; column < count; column++) {
    for (let i = column; i >= 0; i--) {
      let rest = i === column ? 1 : 0;
      for (let j = i + 1; j <= column; j++) rest -= upper[i]![j]! * inverse[j]![column]!;
      inverse[i]![column] = rest / upper[i]![i]!;
    }
  }
  const product = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++) {
      let sum = 0;
      for (let k = Math.max(i, j); k < count; k++) sum += inverse[i]![k]! * inverse[j]![k]!;
      product[i * count + j] = sum / (scales[i]! * scales[j]!);
    }
  }
  return product;
}

/** About the mean when some column is constant, so that an intercept is in the model; about zero otherwise. */
function totalSquares(y: ArrayLike<number>, columns: readonly ArrayLike<number>[]): number {
  const hasIntercept = columns.some((column) => {
    for (let i = 1; i < column.length; i++) if (column[i] !== column[0]) return false;
    return true;
  });
  let sum = 0;
  for (let i = 0; i < y.length; i++) sum += y[i]!;
  const centre = hasIntercept ? sum / y.length : 0;
  let squares = 0;
  for (let i = 0; i < y.length; i++) squares += (y[i]! - centre) ** 2;
  return squares;
}

/** Euclidean length, without overflow of the squares of large numbers. */
function lengthOf(column: ArrayLike<number>): number {
  let largest = 0;
  for (let i = 0; i < column.length; i++) largest = Math.max(largest, Math.abs(column[i]!));
  if (largest === 0) return 0;
  let squares = 0;
  for (let i = 0; i < column.length; i++) squares += (column[i]! / largest) ** 2;
  return largest * Math.sqrt(squares);
}
