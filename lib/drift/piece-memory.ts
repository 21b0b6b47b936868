import type { Design } from "./design";
import type { Fit } from "./fit";
import type { Carrier, Sparse } from "./hypotheses";
import { middleOf } from "./middle";

/** Lags in pieces within a lot over which pieces may resemble each other. */
const LAGS = 4;
const MOST_ALIKE = 0.6;

/**
 * How much more a comparison within lots scatters because pieces resemble those measured just before: by carrier, the
 * factor on the variance of its tests,
 *
 *   1 + 2 Σ ρ_d r_d,   at least 1,
 *
 * with ρ_d the correlation of pieces d apart within a lot and r_d that of the regressor, both about the lot's mean.
 * Fixtures that take turns are compared piece by piece (r_1 < 0) and lose nothing; an operator who measures piece after
 * piece is compared block by block (r_1 near 1). ρ is read off all features together, so that what moves some of them
 * hardly counts, and must fade with the distance, so that sources that take turns do not count as memory.
 *
 * Source: G. V. Bayley and J. M. Hammersley, J. Roy. Stat. Soc. Suppl. 8 (1946) 184-197, the effective number of
 * observations of a series (from memory).
 */
export function memoryFactors(fit: Fit, carriers: readonly Carrier[]): Float64Array {
  const { table, designs } = fit.prepared;
  const inTime = Int32Array.from(table.lotOf.keys()).sort(
    (a, b) => table.lotOf[a]! - table.lotOf[b]! || table.takenAt[a]! - table.takenAt[b]! || a - b,
  );
  const orders = designs.map((design) => orderOf(design, inTime));
  const alike = likeness(fit, orders);
  if (alike.every((rho) => rho === 0)) return new Float64Array(carriers.length).fill(1);
  return Float64Array.from(carriers, (carrier) => {
    const own = repetitionOf(carrier, designs, orders);
    if (own === null) return 1;
    return Math.max(1, 1 + 2 * alike.reduce((sum, rho, lag) => sum + rho * own[lag]!, 0));
  });
}

/** A regressor's correlation with itself stays the same while one thing after another is explained. */
const known = new WeakMap<Carrier, Float64Array | null>();

function repetitionOf(
  carrier: Carrier,
  designs: readonly Design[],
  orders: readonly Int32Array[],
): Float64Array | null {
  const found = known.get(carrier);
  if (found !== undefined) return found;
  const { on, source } = carrier;
  const d = source === null ? -1 : on.findIndex((sparse) => sparse !== null);
  const own = d === -1 ? null : correlationsByLag(designs[d]!, orders[d]!, columnOf(on[d]!, designs[d]!));
  known.set(carrier, own);
  return own;
}

function columnOf({ rows, x }: Sparse, design: Design): Float64Array {
  const column = new Float64Array(design.rows.length);
  for (let r = 0; r < rows.length; r++) column[rows[r]!] = x === null ? 1 : x[r]!;
  return column;
}

/** Positions in a design in the order of time within lots. */
function orderOf({ rows }: Design, inTime: Int32Array): Int32Array {
  const place = new Int32Array(inTime.length).fill(-1);
  for (let i = 0; i < rows.length; i++) place[rows[i]!] = i;
  const order = new Int32Array(rows.length);
  let count = 0;
  for (let i = 0; i < inTime.length; i++) if (place[inTime[i]!]! >= 0) order[count++] = place[inTime[i]!]!;
  return order;
}

/**
 * The middle one of all features, lag by lag. About the lot's mean of n pieces every correlation is too low: the mean
 * takes v = (1 + 2 Σ ρ_d) / n of the variance with it, and r = (ρ − v) / (1 − v). Solved in two rounds, from ρ = 0.
 */
function likeness({ prepared, residuals }: Fit, orders: readonly Int32Array[]): number[] {
  const { designs, features, table } = prepared;
  const own = features.flatMap(({ design }, f) => {
    const found = correlationsByLag(designs[design]!, orders[design]!, residuals[f]!);
    return found === null ? [] : [found];
  });
  if (own.length === 0) return [];
  const seen = Array.from({ length: LAGS }, (_, lag) => middleOf(own.map((one) => one[lag]!)));
  let alike = seen.map(() => 0);
  for (let round = 0; round < 2; round++) {
    const taken = Math.min(
      0.5,
      (table.lots / table.pieces) * (1 + 2 * alike.reduce((sum, rho) => sum + rho, 0)),
    );
    alike = fading(seen.map((r) => Math.min(MOST_ALIKE, Math.max(0, r * (1 - taken) + taken))));
  }
  return alike;
}

/**
 * Memory fades: pieces farther apart resemble each other no more than nearer ones. Where they do, sources take turns,
 * and one of them has moved.
 */
function fading(alike: readonly number[]): number[] {
  let least = Number.POSITIVE_INFINITY;
  return alike.map((rho) => {
    least = Math.min(least, rho);
    return least;
  });
}

/** Correlation of a column with itself so many pieces later, about the means of lots; null where it stands still. */
function correlationsByLag({ lotOf }: Design, order: Int32Array, column: Float64Array): Float64Array | null {
  const products = new Float64Array(LAGS);
  const off = new Float64Array(order.length);
  let squares = 0;
  for (let from = 0; from < order.length; ) {
    const lot = lotOf[order[from]!]!;
    let to = from;
    let sum = 0;
    while (to < order.length && lotOf[order[to]!] === lot) sum += column[order[to++]!]!;
    const mean = sum / (to - from);
    for (let i = from; i < to; i++) {
      off[i] = column[order[i]!]! - mean;
      squares += off[i]! * off[i]!;
      for (let lag = 1; lag <= LAGS && i - lag >= from; lag++) products[lag - 1]! += off[i]! * off[i - lag]!;
    }
    from = to;
  }
  return squares < 1e-9 ? null : products.map((product) => product / squares);
}
