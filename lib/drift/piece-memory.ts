import type { Design, Prepared } from "./design";
import type { Fit } from "./fit";
import type { Carrier } from "./hypotheses";
import { middleOf } from "./middle";
import { inGroups } from "./order";
import type { Sparse } from "./sparse";

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
  const { designs } = fit.prepared;
  const orders = ordersOf(fit.prepared);
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
  orders: readonly InTime[],
): Float64Array | null {
  const found = known.get(carrier);
  if (found !== undefined) return found;
  const { on, source } = carrier;
  const d = source === null ? -1 : on.findIndex((sparse) => sparse !== null);
  const own = d === -1 ? null : correlationsByLag(orders[d]!, columnOf(on[d]!, designs[d]!, orders[d]!));
  known.set(carrier, own);
  return own;
}

/** A column, and the lots in which it is not the same on all pieces: from the others nothing comes. */
type Column = { values: Float64Array; lots: Int32Array | null };

function columnOf({ rows, x }: Sparse, { lotOf }: Design, { starts }: InTime): Column {
  const values = new Float64Array(lotOf.length);
  if (x !== null) {
    for (let r = 0; r < rows.length; r++) values[rows[r]!] = x[r]!;
    return { values, lots: null };
  }
  const lots: number[] = [];
  for (let r = 0; r < rows.length; ) {
    const lot = lotOf[rows[r]!]!;
    const begun = r;
    while (r < rows.length && lotOf[rows[r]!] === lot) values[rows[r++]!] = 1;
    if (r - begun < starts[lot + 1]! - starts[lot]!) lots.push(lot);
  }
  return { values, lots: Int32Array.from(lots) };
}

/** Positions in a design in the order of time within lots: those of a lot from starts[lot] to starts[lot + 1] − 1. */
type InTime = { order: Int32Array; starts: Int32Array };

/** Times stay the same too. */
const knownOrders = new WeakMap<Prepared, InTime[]>();

function ordersOf(prepared: Prepared): InTime[] {
  const found = knownOrders.get(prepared);
  if (found !== undefined) return found;
  const { lotOf, lots } = prepared.table;
  const inTime = inGroups(prepared.table.inTime, lotOf, lots);
  const made = new Map<Int32Array, InTime>();
  const orders = prepared.designs.map((design) => {
    const order = made.get(design.rows) ?? orderOf(design, inTime);
    made.set(design.rows, order);
    return order;
  });
  knownOrders.set(prepared, orders);
  return orders;
}

function orderOf({ rows, strata }: Design, inTime: Int32Array): InTime {
  const place = new Int32Array(inTime.length).fill(-1);
  for (let i = 0; i < rows.length; i++) place[rows[i]!] = i;
  const order = new Int32Array(rows.length);
  let count = 0;
  for (let i = 0; i < inTime.length; i++) if (place[inTime[i]!]! >= 0) order[count++] = place[inTime[i]!]!;
  const starts = strata.lotCells.map((cell) => strata.cellStart[cell]!);
  return { order, starts };
}

/**
 * The middle one of all features, lag by lag. About the lot's mean of n pieces every correlation is too low: the mean
 * takes v = (1 + 2 Σ ρ_d) / n of the variance with it, and r = (ρ − v) / (1 − v). Solved in two rounds, from ρ = 0.
 */
function likeness({ prepared, residuals }: Fit, orders: readonly InTime[]): number[] {
  const { features, table } = prepared;
  const own = features.flatMap(({ design }, f) => {
    const found = correlationsByLag(orders[design]!, { values: residuals[f]!, lots: null });
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
function correlationsByLag({ order, starts }: InTime, { values, lots }: Column): Float64Array | null {
  const products = new Float64Array(LAGS);
  let squares = 0;
  const count = lots === null ? starts.length - 1 : lots.length;
  for (let l = 0; l < count; l++) {
    const lot = lots === null ? l : lots[l]!;
    const from = starts[lot]!;
    const to = starts[lot + 1]!;
    if (kept.length < to - from) kept = new Float64Array(2 * (to - from));
    const off = kept;
    let sum = 0;
    for (let i = from; i < to; i++) sum += values[order[i]!]!;
    const mean = sum / (to - from);
    for (let i = from; i < to; i++) {
      const own = values[order[i]!]! - mean;
      off[i - from] = own;
      squares += own * own;
      for (let lag = 1; lag <= LAGS && i - lag >= from; lag++)
        products[lag - 1]! += own * off[i - from - lag]!;
    }
  }
  if (squares < 1e-9) return null;
  // No closure over the sum: the compiler would put a new number on the heap for every piece.
  for (let lag = 0; lag < LAGS; lag++) products[lag]! /= squares;
  return products;
}

/** Deviations of one lot at a time. */
let kept = new Float64Array(64);
