import type { Correlations } from "./common-news";

/** Beyond what chance alone gives a correlation matrix. */
const CLEARLY_LARGER = 1.1;
const MOST_DIRECTIONS = 5;
/** Below this many degrees of freedom the correlations of pieces say nothing about directions. */
const LEAST_FREEDOM = 60;
const STEPS = 60;
const SWEEPS = 30;
/** Loadings below this share of a direction's largest are taken for noise. */
const LEAST_LOADING = 0.3;
const LEAST_FEATURES = 3;

/**
 * The directions along which pieces already sit differently from one to the next, learned from how features
 * scatter together within fixture and lot: for each, how strongly every feature of the table follows it.
 *
 * A locator that wears, or chips under it, displaces the part along the directions along which it has always been
 * free to shift a little. Where no drawing states them, the leading principal components of the pieces' scatter do,
 * turned so that each holds few features.
 *
 *   kept are eigenvalues of the correlation matrix above 1.1 (1 + √(features/ν))², the largest that unrelated
 *   features would show (Marchenko and Pastur, 1967); loadings v √(λ − 1) are turned by varimax (Kaiser, 1958)
 *
 * Source: principal components of fixture faults, D. Ceglarek and J. Shi, Journal of Engineering for Industry 118
 * (1996) 494-501; all from memory.
 *
 * @returns none where features do not scatter together
 */
export function seatingDirections({ features, within, freedomWithin }: Correlations): Float64Array[] {
  if (freedomWithin < LEAST_FREEDOM || features < LEAST_FEATURES) return [];
  const edge = CLEARLY_LARGER * (1 + Math.sqrt(features / freedomWithin)) ** 2;
  const { vectors, values } = leading(within, features);
  const loadings = vectors
    .filter((_, k) => values[k]! > edge)
    .map((vector, k) => vector.map((one) => one * Math.sqrt(values[k]! - 1)));
  turn(loadings);
  return loadings.flatMap((loading) => {
    const most = loading.reduce((largest, one) => Math.max(largest, Math.abs(one)), 0);
    const clear = loading.map((one) => (Math.abs(one) < LEAST_LOADING * most ? 0 : one));
    return clear.filter((one) => one !== 0).length < LEAST_FEATURES ? [] : [clear];
  });
}

/** The largest eigenvalues of a correlation matrix, largest first, by orthogonal iteration from fixed vectors. */
function leading(matrix: Float64Array, size: number): { vectors: Float64Array[]; values: number[] } {
  const count = Math.min(MOST_DIRECTIONS, size);
  let vectors: Float64Array[] = Array.from({ length: count }, (_, k) =>
    Float64Array.from({ length: size }, (_, f) => Math.cos((Math.PI * (f + 0.5) * (k + 0.37)) / size)),
  );
  orthonormalise(vectors);
  let values: number[] = [];
  for (let step = 0; step < STEPS; step++) {
    const images = vectors.map((vector) => times(matrix, vector));
    values = orthonormalise(images);
    vectors = images;
  }
  const order = [...values.keys()].sort((a, b) => values[b]! - values[a]!);
  return { vectors: order.map((k) => vectors[k]!), values: order.map((k) => values[k]!) };
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

/** Gram and Schmidt, in place. @returns the lengths that were left */
function orthonormalise(vectors: readonly Float64Array[]): number[] {
  return vectors.map((vector, k) => {
    for (const earlier of vectors.slice(0, k)) {
      const along = product(earlier, vector);
      for (let f = 0; f < vector.length; f++) vector[f]! -= along * earlier[f]!;
    }
    const length = Math.sqrt(product(vector, vector));
    if (length > 0) for (let f = 0; f < vector.length; f++) vector[f]! /= length;
    return length;
  });
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let f = 0; f < a.length; f++) sum += a[f]! * b[f]!;
  return sum;
}

/** Varimax, pair by pair, in place: as much as possible of every direction on as few features as possible. */
function turn(loadings: readonly Float64Array[]): void {
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    let most = 0;
    for (const [k, a] of loadings.entries()) {
      for (const b of loadings.slice(k + 1)) most = Math.max(most, Math.abs(turnPair(a, b)));
    }
    if (most < 1e-6) return;
  }
}

function turnPair(a: Float64Array, b: Float64Array): number {
  const n = a.length;
  let [sumU, sumV, sumSquares, sumProducts] = [0, 0, 0, 0];
  for (let f = 0; f < n; f++) {
    const u = a[f]! ** 2 - b[f]! ** 2;
    const v = 2 * a[f]! * b[f]!;
    sumU += u;
    sumV += v;
    sumSquares += u * u - v * v;
    sumProducts += 2 * u * v;
  }
  const angle = Math.atan2(sumProducts - (2 * sumU * sumV) / n, sumSquares - (sumU ** 2 - sumV ** 2) / n) / 4;
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  for (let f = 0; f < n; f++) {
    const [x, y] = [a[f]!, b[f]!];
    a[f] = x * cosine + y * sine;
    b[f] = y * cosine - x * sine;
  }
  return angle;
}
