import { middleOf } from "./middle";
import type { Scatter } from "./scatter";

/**
 * How much features move together: correlations of single pieces within cells, and of lots, with the degrees
 * of freedom behind each.
 */
export type Correlations = {
  features: number;
  within: Float64Array;
  between: Float64Array;
  freedomWithin: number;
  freedomBetween: number;
};

/** Above this many features the correlation within cells is taken from some of the pieces. */
const FEATURES_IN_FULL = 150;
const PIECES_SAMPLED = 1000;
/** With fewer degrees of freedom within cells their deviations tell how features move together, not those of pieces. */
export const FREEDOM_FOR_PIECES = 40;
const CLIP = 2.5;
const MAD_TO_SD = 1.4826;

export function correlationsOf(scatter: Scatter): Correlations {
  const { prepared, residuals, means } = scatter;
  const { table, features, designs } = prepared;
  const cells = Math.max(...designs.map(({ strata }) => strata.cells));
  const freedom = table.pieces - cells;
  const stride =
    features.length > FEATURES_IN_FULL ? Math.max(1, Math.floor(table.pieces / PIECES_SAMPLED)) : 1;
  const pieces = features.map(({ design }, f) => {
    const { rows, cellOf } = designs[design]!;
    const residual = residuals[f]!;
    const { cells } = means[f]!;
    const column = new Float64Array(Math.ceil(table.pieces / stride));
    for (let i = 0; i < rows.length; i++) {
      const row = rows[i]!;
      if (stride === 1) column[row] = residual[i]! - cells[cellOf[i]!]!;
      else if (row % stride === 0) column[row / stride] = residual[i]! - cells[cellOf[i]!]!;
    }
    return column;
  });
  const setUps = freedom > FREEDOM_FOR_PIECES ? null : cellDeviations(scatter);
  return {
    features: features.length,
    within: correlationMatrix(setUps ?? pieces),
    between: correlationMatrix(lotDifferences(scatter)),
    freedomWithin: Math.max(freedom, 5),
    freedomBetween: Math.max(0.67 * (table.lots - 1), 3),
  };
}

/** Where cells hold too few pieces: deviations of fixtures from their lot, if enough lots ran several. */
function cellDeviations({ prepared, means }: Scatter): Float64Array[] | null {
  const { designs, features } = prepared;
  const [first] = designs;
  if (first === undefined || designs.length > 1) return null;
  const { strata, cellLot } = first;
  const several = Array.from(cellLot.keys()).filter((c) => {
    const lot = cellLot[c]!;
    return strata.lotCells[lot + 1]! - strata.lotCells[lot]! > 1;
  });
  if (several.length <= 8) return null;
  return features.map((_, f) =>
    Float64Array.from(several, (c) => means[f]!.cells[c]! - means[f]!.lots[cellLot[c]!]!),
  );
}

/**
 * Successive lot differences, so that a step enters once; each clipped, and a boundary at which everything moves
 * counts no more than 2.5 usual ones, for that is the fault that is sought and not how lots resemble each other.
 */
function lotDifferences({ prepared, means }: Scatter): Float64Array[] {
  const lots = prepared.table.lots;
  const columns = means.map(({ lots: own }) => {
    const differences = new Float64Array(lots - 1);
    for (let lot = 1; lot < lots; lot++) {
      const difference = own[lot]! - own[lot - 1]!;
      differences[lot - 1] = Number.isNaN(difference) ? 0 : difference;
    }
    const scale = MAD_TO_SD * middleOf(differences.map(Math.abs)) + 1e-9;
    return differences.map((d) => Math.max(-CLIP, Math.min(CLIP, d / scale)));
  });
  const sizes = Float64Array.from({ length: lots - 1 }, (_, i) =>
    Math.sqrt(columns.reduce((sum, column) => sum + column[i]! ** 2, 0) / Math.max(1, columns.length)),
  );
  const usual = CLIP * middleOf(sizes) + 1e-9;
  return columns.map((column) => column.map((d, i) => d / Math.max(1, sizes[i]! / usual)));
}

function correlationMatrix(columns: readonly Float64Array[]): Float64Array {
  const size = columns.length;
  const out = new Float64Array(size * size);
  const norms = columns.map((column) => {
    let squares = 0;
    for (let i = 0; i < column.length; i++) squares += column[i]! * column[i]!;
    return Math.sqrt(squares) < 1e-9 ? 1 : Math.sqrt(squares);
  });
  for (let a = 0; a < size; a += 2) {
    for (let b = 0; b <= a + 1 && b < size; b += 4) {
      const sums = products(columns, a, b);
      for (let k = 0; k < 8; k++) {
        const [row, column] = [a + (k >> 2), b + (k & 3)];
        if (row >= size || column > row) continue;
        out[row * size + column] = out[column * size + row] = sums[k]! / (norms[row]! * norms[column]!);
      }
    }
  }
  return out;
}

const eight = new Float64Array(8);

/**
 * Products of columns a and a + 1 with four from b on, the last of all once more where there are fewer: sums that do not
 * wait for each other take a third of the time, and what was fetched serves twice.
 */
function products(columns: readonly Float64Array[], a: number, first: number): Float64Array {
  const last = columns.length - 1;
  const u0 = columns[a]!;
  const u1 = columns[Math.min(last, a + 1)]!;
  const v0 = columns[first]!;
  const v1 = columns[Math.min(last, first + 1)]!;
  const v2 = columns[Math.min(last, first + 2)]!;
  const v3 = columns[Math.min(last, first + 3)]!;
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let t0 = 0;
  let t1 = 0;
  let t2 = 0;
  let t3 = 0;
  for (let i = 0; i < u0.length; i++) {
    const p = u0[i]!;
    const q = u1[i]!;
    const w0 = v0[i]!;
    const w1 = v1[i]!;
    const w2 = v2[i]!;
    const w3 = v3[i]!;
    s0 += p * w0;
    s1 += p * w1;
    s2 += p * w2;
    s3 += p * w3;
    t0 += q * w0;
    t1 += q * w1;
    t2 += q * w2;
    t3 += q * w3;
  }
  eight[0] = s0;
  eight[1] = s1;
  eight[2] = s2;
  eight[3] = s3;
  eight[4] = t0;
  eight[5] = t1;
  eight[6] = t2;
  eight[7] = t3;
  return eight;
}

/**
 * How many features of a scope say the same as this one, itself included: 1 + Σ ρ², each ρ² less its sampling
 * value, half the feature's own sum and half the average.
 *
 * Forty features that always move together count as a few. For blocks of equally dependent features, dividing
 * the log evidence by the block's size keeps its expectation at or below 1 (Hölder's inequality).
 *
 * Source: magnitude-adjusted composite likelihood; Varin, Reid and Firth, Statistica Sinica 21 (2011) 5-42.
 */
export type Repeats = { within: Float64Array; mixed: Float64Array; between: Float64Array };

export function repeatsIn(scope: readonly number[], correlations: Correlations): Repeats {
  const { within, between, freedomWithin, freedomBetween } = correlations;
  return {
    within: rowSums(scope, correlations, within, within, freedomWithin),
    mixed: rowSums(scope, correlations, within, between, null),
    between: rowSums(scope, correlations, between, between, freedomBetween),
  };
}

function rowSums(
  scope: readonly number[],
  { features }: Correlations,
  a: Float64Array,
  b: Float64Array,
  freedom: number | null,
): Float64Array {
  const own = Float64Array.from(scope, (f) => {
    let sum = 0;
    for (const other of scope) {
      if (other === f) continue;
      const product = a[f * features + other]! * b[f * features + other]!;
      sum += freedom === null ? product : product - (1 - product) / freedom;
    }
    return sum;
  });
  const average = own.reduce((sum, one) => sum + one, 0) / Math.max(1, own.length);
  return own.map((one) => 1 + Math.max(0, 0.5 * one + 0.5 * average));
}
