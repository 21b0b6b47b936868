import { solveLower } from "./cholesky";
import { addRow, type Columns, type Generalised, takeCellsOff } from "./columns";
import type { Design } from "./design";
import type { Hypothesis, Shape } from "./hypotheses";
import type { Sparse } from "./sparse";
import { type Strata, takenOff } from "./strata";

/** What the shapes of a carrier's hypotheses ask for: its total only, sums from each lot on, or also those of a ramp. */
export type Needs = "total" | "lots" | "ramps";

export function needsOf(shapes: readonly Shape[]): Needs {
  if (shapes.includes("ramp")) return "ramps";
  return shapes.every((shape) => shape === "whole") ? "total" : "lots";
}

/**
 * What is known of a carrier x before the ratios of variance are: how many pieces it touches, Σ x² and Σ x·column,
 * lot by lot (where the total is enough, all at place 0), and Σ x by cell. What lots and cells take off follows from
 * sums by cell alone, so that every further ratio costs a pass over cells, a tenth of one over pieces.
 */
export type CarrierSums = {
  needs: Needs;
  /** It touches pieces in lots `first` to `end` − 1 only. */
  first: number;
  end: number;
  pieces: Float64Array;
  squares: Float64Array;
  /** At place × columns + k. */
  products: Float64Array;
  cells: Float64Array;
};

export function carrierSums(
  { strata, lotOf, cellOf }: Design,
  { rows, x }: Sparse,
  columns: Columns,
  needs: Needs,
): CarrierSums {
  const places = needs === "total" ? 1 : strata.lots;
  const pieces = new Float64Array(places);
  const squares = new Float64Array(places);
  const products = new Float64Array(places * columns.size);
  const cells = new Float64Array(strata.cells);
  for (let r = 0; r < rows.length; r++) {
    const i = rows[r]!;
    const own = x === null ? 1 : x[r]!;
    const place = places === 1 ? 0 : lotOf[i]!;
    if (Math.abs(own) > 1e-9) pieces[place]!++;
    squares[place]! += own * own;
    cells[cellOf[i]!]! += own;
    addRow(columns, i, own, products, place * columns.size);
  }
  return {
    needs,
    first: lotOf[rows[0]!]!,
    end: lotOf[rows.at(-1)!]! + 1,
    pieces,
    squares,
    products,
    cells,
  };
}

/** Of a carrier whose pieces are those of two others of which only the total is needed, no piece twice. */
export function togetherWith(a: CarrierSums, b: CarrierSums): CarrierSums {
  return {
    needs: "total",
    first: Math.min(a.first, b.first),
    end: Math.max(a.end, b.end),
    pieces: added(a.pieces, b.pieces),
    squares: added(a.squares, b.squares),
    products: added(a.products, b.products),
    cells: added(a.cells, b.cells),
  };
}

function added(a: Float64Array, b: Float64Array): Float64Array {
  const out = new Float64Array(a.length);
  for (let i = 0; i < out.length; i++) out[i] = a[i]! + b[i]!;
  return out;
}

/** ⟨x,x⟩ and ⟨x,N⟩ of a carrier as suffix sums over lots, and the same for ramps. */
export type Information = {
  gls: Generalised;
  pieces: Float64Array;
  square: Float64Array;
  squareByLot: Float64Array;
  squareByLot2: Float64Array;
  /** ⟨x, column k⟩ from lot l on at l × columns + k. */
  products: Float64Array;
  productsByLot: Float64Array;
};

/** ⟨x,x⟩ = Σ x² − Σ_c x_c q_c and ⟨x,N_k⟩ = Σ x N_k − Σ_c N_kc q_c, with q_c as `takenOff` gives it. */
export function informationOf(sums: CarrierSums, gls: Generalised): Information {
  const { strata, columns, ratios } = gls;
  const { size } = columns;
  const lots = sums.needs === "total" ? 0 : strata.lots;
  const square = extended(sums.squares, lots + 1);
  const products = extended(sums.products, (lots + 1) * size);
  const off = cellsOf(strata);
  takenOff(strata, ratios, sums.cells, { out: off, first: sums.first, end: sums.end });
  for (let lot = sums.first; lot < sums.end; lot++) {
    const place = lots === 0 ? 0 : lot;
    const cells = { first: strata.lotCells[lot]!, end: strata.lotCells[lot + 1]! };
    square[place]! -= dotOver(cells, sums.cells, off);
    takeCellsOff(columns, cells, off, { out: products, at: place * size });
  }
  const pieces = extended(sums.pieces, lots + 1);
  if (lots === 0) return withoutRamp(gls, { pieces, square, products });
  const ramp = fromLotOn({ pieces, square, products }, size, sums.needs);
  // Written out, so that all have one shape for the compiler.
  return {
    gls,
    pieces,
    square,
    squareByLot: ramp.squareByLot,
    squareByLot2: ramp.squareByLot2,
    products,
    productsByLot: ramp.productsByLot,
  };
}

/**
 * Of two carriers of which only the total is needed, put together: V couples pieces of one lot, so all adds up but the
 * product of the two, and that is a sum over the cells of the one that touches few lots. All edges of a tool together
 * so cost what its pieces cost once.
 */
export function joined(
  a: Information,
  b: Information,
  { gls, few, many }: { gls: Generalised; few: CarrierSums; many: CarrierSums },
): Information {
  const { strata, ratios } = gls;
  const off = cellsOf(strata);
  takenOff(strata, ratios, few.cells, { out: off, first: few.first, end: few.end });
  const cells = { first: strata.lotCells[few.first]!, end: strata.lotCells[few.end]! };
  const square = added(a.square, b.square);
  square[0]! -= 2 * dotOver(cells, many.cells, off);
  const products = added(a.products, b.products);
  return withoutRamp(gls, { pieces: added(a.pieces, b.pieces), square, products });
}

/** One vector serves all carriers: only the cells just written are read. */
let keptCells = new Float64Array(0);
function cellsOf({ cells }: Strata): Float64Array {
  if (keptCells.length < cells) keptCells = new Float64Array(cells);
  return keptCells;
}

const NONE = new Float64Array(0);

function withoutRamp(
  gls: Generalised,
  { pieces, square, products }: Pick<Information, "pieces" | "square" | "products">,
): Information {
  return { gls, pieces, square, squareByLot: NONE, squareByLot2: NONE, products, productsByLot: NONE };
}

function extended(values: Float64Array, length: number): Float64Array {
  const out = new Float64Array(length);
  out.set(values);
  return out;
}

function dotOver({ first, end }: { first: number; end: number }, a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let c = first; c < end; c++) sum += a[c]! * b[c]!;
  return sum;
}

/** Turns sums by lot into sums from each lot on, and gives those for ramps beside. */
function fromLotOn(
  { pieces, square, products }: Pick<Information, "pieces" | "square" | "products">,
  size: number,
  needs: Needs,
): Pick<Information, "squareByLot" | "squareByLot2" | "productsByLot"> {
  const lots = pieces.length - 1;
  const isRamped = needs === "ramps";
  const squareByLot = isRamped ? new Float64Array(lots + 1) : NONE;
  const squareByLot2 = isRamped ? new Float64Array(lots + 1) : NONE;
  const productsByLot = isRamped ? new Float64Array((lots + 1) * size) : NONE;
  for (let lot = lots - 1; lot >= 0; lot--) {
    const at = lot * size;
    if (isRamped) {
      for (let k = at; k < at + size; k++)
        productsByLot[k] = productsByLot[k + size]! + (lot + 1) * products[k]!;
      squareByLot[lot] = squareByLot[lot + 1]! + (lot + 1) * square[lot]!;
      squareByLot2[lot] = squareByLot2[lot + 1]! + (lot + 1) * (lot + 1) * square[lot]!;
    }
    for (let k = at; k < at + size; k++) products[k]! += products[k + size]!;
    pieces[lot]! += pieces[lot + 1]!;
    square[lot]! += square[lot + 1]!;
  }
  return { squareByLot, squareByLot2, productsByLot };
}

/** By hypothesis: information on a shift in 1/sigma², 0 where there is too little, and the share that rests on comparing lots. */
export type Measured = { information: Float64Array; betweenLots: Float64Array };

const LEAST_SHARE = 0.02;
const LEAST_INFORMATION = 0.15;
const LEAST_PIECES_MOVED = 3;

/**
 * What the hypotheses of a carrier can be told by.
 *
 * @param inLots information of each where nothing but comparisons within lots is trusted
 * @param pieces of the design
 */
export function measure(
  hypotheses: readonly Hypothesis[],
  own: Information,
  { inLots, pieces }: { inLots: Float64Array; pieces: number },
): Measured {
  const measured = {
    information: new Float64Array(hypotheses.length),
    betweenLots: new Float64Array(hypotheses.length),
  };
  for (let h = 0; h < hypotheses.length; h++) {
    const { shape, from, type } = hypotheses[h]!;
    const moved = shape === "pulse" ? own.pieces[from]! - own.pieces[from + 1]! : own.pieces[from]!;
    if (moved < LEAST_PIECES_MOVED || (type === "step" && moved > pieces - LEAST_PIECES_MOVED)) continue;
    const total = squareOf(hypotheses[h]!, own);
    const information = total - explained(hypotheses[h]!, own);
    if (!(information > Math.max(LEAST_SHARE * total, LEAST_INFORMATION))) continue;
    measured.information[h] = information;
    measured.betweenLots[h] = Math.min(1, Math.max(0, 1 - Math.max(0, inLots[h]!) / information));
  }
  return measured;
}

/** ⟨x,x⟩ − ⟨x,N⟩⟨N,N⟩⁻¹⟨N,x⟩ of each hypothesis of a carrier. */
export function informationEach(hypotheses: readonly Hypothesis[], of: Information): Float64Array {
  return Float64Array.from(hypotheses, (one) => squareOf(one, of) - explained(one, of));
}

function squareOf({ shape, from, scale }: Hypothesis, of: Information): number {
  switch (shape) {
    case "ramp":
      return (
        (of.squareByLot2[from]! - 2 * from * of.squareByLot[from]! + from * from * of.square[from]!) /
        scale ** 2
      );
    case "pulse":
      return of.square[from]! - of.square[from + 1]!;
    default:
      return of.square[from]!;
  }
}

/** One vector serves all hypotheses: each is done with it before the next begins. */
let kept = new Float64Array(0);

/** ⟨x,N⟩⟨N,N⟩⁻¹⟨N,x⟩ */
function explained(
  { shape, from, scale }: Hypothesis,
  { gls, products, productsByLot }: Information,
): number {
  const { size } = gls.gram;
  if (kept.length < size) kept = new Float64Array(size);
  const u = kept;
  const at = from * size;
  for (let k = 0; k < size; k++) {
    const plain = products[at + k]!;
    if (shape === "ramp") u[k] = (productsByLot[at + k]! - from * plain) / scale;
    else u[k] = shape === "pulse" ? plain - products[at + size + k]! : plain;
  }
  solveLower(gls.gram, u);
  let sum = 0;
  for (let k = 0; k < size; k++) sum += u[k]! * u[k]!;
  return sum;
}
