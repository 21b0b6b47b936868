import type { Correlations } from "./common-news";

/**
 * What the lots of a part have in common over features: one course that many features follow, each with a load of
 * its own, as when the material of a lot is a little harder.
 */
export type CommonCourse = {
  /** Loads, by feature; of unit length. */
  loads: Float64Array;
  within: Seen;
  between: Seen;
  /** How features resemble each other once the course is taken out of each. */
  left: Correlations;
};

/** Loads v seen through correlations R: Rv, and vᵀRv. */
type Seen = { along: Float64Array; square: number };

/** At least this share of its variance is left of a feature's test. */
const LEAST_LEFT = 0.2;
const MOST_ROUNDS = 100;
const CLOSE_ENOUGH = 1e-14;

/**
 * The strongest common course of lots: the leading eigenvector of how lots scatter together. Null for fewer than three
 * features, or where nothing scatters.
 *
 * Tests that compare lots with lots share it as noise. Taken out of all of them, it leaves what a source did to some
 * features standing clearer, and features that say less of the same; a shift along the course itself is lost.
 *
 * Source: the idea of surrogate variables, J. T. Leek and J. D. Storey, PLoS Genetics 3 (2007) e161 (from memory).
 */
export function commonCourse(correlations: Correlations): CommonCourse | null {
  const { features, within, between } = correlations;
  const loads = strongestLoads(between, features);
  if (loads === null) return null;
  const seenWithin = seen(within, loads);
  const seenBetween = seen(between, loads);
  const left = {
    features,
    within: leftOf(within, loads, seenWithin),
    between: leftOf(between, loads, seenBetween),
    freedomWithin: correlations.freedomWithin,
    freedomBetween: correlations.freedomBetween,
  };
  return { loads, within: seenWithin, between: seenBetween, left };
}

/** Share of the variance of a feature's test that is left without the course, where b of it rests on lots. */
export function shareLeft({ loads, within, between }: CommonCourse, f: number, b: number): number {
  return Math.max(LEAST_LEFT, (1 - b) * varianceLeft(f, loads, within) + b * varianceLeft(f, loads, between));
}

function varianceLeft(f: number, loads: Float64Array, { along, square }: Seen): number {
  return 1 - 2 * loads[f]! * along[f]! + loads[f]! ** 2 * square;
}

/** The leading eigenvector: powers of the matrix on the row that resembles the others most. */
function strongestLoads(matrix: Float64Array, size: number): Float64Array | null {
  if (size < 3) return null;
  let loads: Float64Array = new Float64Array(size);
  let most = 0;
  for (let f = 0; f < size; f++) {
    const row = matrix.slice(f * size, (f + 1) * size);
    const length = lengthOf(row);
    if (length > most) {
      most = length;
      loads = row;
    }
  }
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = loads;
    const length = lengthOf(before);
    if (length === 0) return null;
    loads = times(
      matrix,
      before.map((load) => load / length),
    );
    if (Math.abs(lengthOf(loads) - length) < CLOSE_ENOUGH * length) break;
  }
  const length = lengthOf(loads);
  return loads.map((load) => load / length);
}

function lengthOf(vector: Float64Array): number {
  let squares = 0;
  for (let i = 0; i < vector.length; i++) squares += vector[i]! * vector[i]!;
  return Math.sqrt(squares);
}

function times(matrix: Float64Array, vector: Float64Array): Float64Array {
  const size = vector.length;
  const out = new Float64Array(size);
  for (let a = 0; a < size; a++) {
    let sum = 0;
    for (let b = 0; b < size; b++) sum += matrix[a * size + b]! * vector[b]!;
    out[a] = sum;
  }
  return out;
}

function seen(matrix: Float64Array, loads: Float64Array): Seen {
  const along = times(matrix, loads);
  let square = 0;
  for (let f = 0; f < loads.length; f++) square += loads[f]! * along[f]!;
  return { along, square };
}

/** (I − vvᵀ) R (I − vvᵀ), brought to ones on its diagonal. */
function leftOf(matrix: Float64Array, loads: Float64Array, seenBy: Seen): Float64Array {
  const size = loads.length;
  const { along, square } = seenBy;
  const scale = loads.map((_, f) => Math.sqrt(Math.max(LEAST_LEFT, varianceLeft(f, loads, seenBy))));
  const out = new Float64Array(matrix.length);
  for (let a = 0; a < size; a++) {
    for (let b = 0; b < a; b++) {
      const both =
        matrix[a * size + b]! -
        loads[a]! * along[b]! -
        along[a]! * loads[b]! +
        loads[a]! * loads[b]! * square;
      out[a * size + b] = out[b * size + a] = both / (scale[a]! * scale[b]!);
    }
    out[a * size + a] = 1;
  }
  return out;
}
