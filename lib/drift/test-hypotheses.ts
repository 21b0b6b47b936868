import { solveLower } from "./cholesky";
import { addProducts, type Generalised, generalised, leave } from "./columns";
import type { Design } from "./design";
import type { Fit } from "./fit";
import type { Carrier, Hypotheses, Hypothesis, Shape, Sparse } from "./hypotheses";
import { lotStart, weighted, weightedLots } from "./strata";

/**
 * Test statistics of every hypothesis on every feature of a table, stored hypothesis by hypothesis: entry
 * k × features + f; what features may do by themselves follows after all others. `t` is NaN where the data say nothing.
 */
export type Tests = {
  features: number;
  t: Float64Array;
  /** Information on the shift, in 1/sigma². */
  information: Float64Array;
  /** Share of the information that rests on comparing lots rather than on what runs within one. */
  betweenLots: Float64Array;
};

const LEAST_SHARE = 0.02;
const LEAST_INFORMATION = 0.15;
const LEAST_PIECES_MOVED = 3;

/**
 * For each hypothesis x:  I = ⟨x,x⟩ − ⟨x,N⟩⟨N,N⟩⁻¹⟨N,x⟩,  t = ⟨x,r⟩/√I,  with ⟨u,v⟩ = uᵀV⁻¹v and r the residual.
 *
 * V couples pieces of one lot only, so every product is a sum over lots. A step is a suffix sum of them and a
 * ramp a suffix sum of suffix sums: all onsets of a source cost one pass over its pieces.
 *
 * Not estimable where I is below 2 % of ⟨x,x⟩ (the static columns already say it) or below 0.15, or where fewer
 * than three pieces would have moved, or stayed.
 */
export function testHypotheses(fit: Fit, hypotheses: Hypotheses): Tests {
  const { carriers } = hypotheses;
  const all = [...hypotheses.all, ...hypotheses.own];
  const features = fit.prepared.features.length;
  const tests: Tests = {
    features,
    t: new Float64Array(all.length * features).fill(Number.NaN),
    information: new Float64Array(all.length * features),
    betweenLots: new Float64Array(all.length * features),
  };
  const byCarrier = carriers.map((): number[] => []);
  for (const [k, { carrier }] of all.entries()) byCarrier[carrier]!.push(k);
  const asked = byCarrier.map((own) => ({
    at: Int32Array.from(own),
    hypotheses: own.map((k) => all[k]!),
    needs: needsOf(own.map((k) => all[k]!.shape)),
  }));
  const inScope = carriers.map(({ scope }) => new Set(scope));
  for (const d of fit.prepared.designs.keys()) testDesign(d, { fit, carriers, asked, inScope, tests });
  return tests;
}

/** Hypotheses of one carrier, with their places among all. */
type Asked = { at: Int32Array; hypotheses: readonly Hypothesis[]; needs: Needs };

/** What the shapes of a carrier's hypotheses ask for: its total only, sums from each lot on, or also those of a ramp. */
type Needs = "total" | "lots" | "ramps";

function needsOf(shapes: readonly Shape[]): Needs {
  if (shapes.includes("ramp")) return "ramps";
  return shapes.every((shape) => shape === "whole") ? "total" : "lots";
}

type Testing = {
  fit: Fit;
  carriers: readonly Carrier[];
  asked: readonly Asked[];
  inScope: readonly ReadonlySet<number>[];
  tests: Tests;
};

/*
 * In small steps, for the sake of the compiler: as one function, the loops below took it longer to compile, several
 * times over, than to run.
 */
function testDesign(d: number, testing: Testing): void {
  const { fit, asked, inScope, tests } = testing;
  const design = fit.prepared.designs[d]!;
  const { strata } = design;
  const touching = touchingCarriers(d, testing);
  if (touching.length === 0) return;
  const cell = fit.classes[0]?.cell ?? 0;
  const within = generalised(strata, fit.columns[d]!, { lot: Number.POSITIVE_INFINITY, cell });
  const inLots = touching.map(({ index, sparse }) =>
    informationOf(design, sparse, within, asked[index]!.needs),
  );
  for (const [klass, ratios] of fit.classes.entries()) {
    const members = design.features.filter((f) => fit.classOf[f] === klass);
    if (members.length === 0) continue;
    const gls = generalised(strata, fit.columns[d]!, ratios);
    const vectors = members.map((f) => weightedResidual(gls, fit.values[f]!));
    for (const [c, { index, sparse }] of touching.entries()) {
      const own = asked[index]!;
      const information = informationOf(design, sparse, gls, own.needs);
      const measured = own.hypotheses.map((one) => measure(one, information, inLots[c]!, strata.pieces));
      for (const [m, f] of members.entries()) {
        if (inScope[index]!.has(f))
          enter(tests, f, own, measured, lotSums(design, sparse, vectors[m]!, own.needs));
      }
    }
  }
}

/** V⁻¹ times what the static columns leave of a feature. */
function weightedResidual(gls: Generalised, value: Float64Array): Float64Array {
  const residual = new Float64Array(value.length);
  leave(gls, value, residual);
  const out = new Float64Array(value.length);
  weighted(gls.strata, gls.ratios, residual, out);
  return out;
}

type Measured = { information: number; betweenLots: number };

function enter(
  { features, t, information, betweenLots }: Tests,
  f: number,
  { at, hypotheses }: Asked,
  measured: readonly Measured[],
  sums: LotSums,
): void {
  for (let h = 0; h < at.length; h++) {
    const known = measured[h]!;
    if (known.information === 0) continue;
    const place = at[h]! * features + f;
    information[place] = known.information;
    betweenLots[place] = known.betweenLots;
    t[place] = shaped(hypotheses[h]!, sums) / Math.sqrt(known.information);
  }
}

function touchingCarriers(d: number, { fit, carriers, asked, inScope }: Testing) {
  const design = fit.prepared.designs[d]!;
  return carriers.flatMap((carrier, index) => {
    if (asked[index]!.at.length === 0 || !design.features.some((f) => inScope[index]!.has(f))) return [];
    const sparse = carrier.on[d];
    return sparse && sparse.rows.length > 0 ? [{ index, sparse }] : [];
  });
}

/** Suffix sums over lots of Σ x·v, and of the same times (lot + 1). */
type LotSums = { plain: Float64Array; byLot: Float64Array };

function lotSums({ strata, lotOf }: Design, { rows, x }: Sparse, v: Float64Array, needs: Needs): LotSums {
  if (needs === "total") return { plain: Float64Array.of(totalOf(rows, x, v)), byLot: NO_SUMS };
  const plain = new Float64Array(strata.lots + 1);
  const byLot = needs === "ramps" ? new Float64Array(strata.lots + 1) : NO_SUMS;
  if (x === null) addByLot(plain, lotOf, rows, v);
  else for (let r = 0; r < rows.length; r++) plain[lotOf[rows[r]!]!]! += x[r]! * v[rows[r]!]!;
  for (let lot = strata.lots - 1; lot >= 0; lot--) {
    if (needs === "ramps") byLot[lot] = byLot[lot + 1]! + (lot + 1) * plain[lot]!;
    plain[lot]! += plain[lot + 1]!;
  }
  return { plain, byLot };
}

const NO_SUMS = new Float64Array(0);

function totalOf(rows: Int32Array, x: Float64Array | null, v: Float64Array): number {
  let sum = 0;
  if (x === null) for (let r = 0; r < rows.length; r++) sum += v[rows[r]!]!;
  else for (let r = 0; r < rows.length; r++) sum += x[r]! * v[rows[r]!]!;
  return sum;
}

function addByLot(plain: Float64Array, lotOf: Int32Array, rows: Int32Array, v: Float64Array): void {
  for (let r = 0; r < rows.length; r++) {
    const i = rows[r]!;
    plain[lotOf[i]!]! += v[i]!;
  }
}

/** Σ x·v of a hypothesis, from the suffix sums of its carrier. */
function shaped({ shape, from, scale }: Hypothesis, { plain, byLot }: LotSums): number {
  switch (shape) {
    case "ramp":
      return (byLot[from]! - from * plain[from]!) / scale;
    case "pulse":
      return plain[from]! - plain[from + 1]!;
    default:
      return plain[from]!;
  }
}

/** ⟨x,x⟩ and ⟨x,N⟩ of a carrier as suffix sums over lots, and the pieces it touches. */
type InformationOf = {
  gls: Generalised;
  pieces: Float64Array;
  square: Float64Array;
  squareByLot: Float64Array;
  squareByLot2: Float64Array;
  /** ⟨x, column k⟩ from lot l on at l × columns + k. */
  products: Float64Array;
  productsByLot: Float64Array;
};

/** V couples pieces of a lot only, so V⁻¹x of a lot's pieces does not ask what x is in others. */
function informationOf(
  { strata, lotOf }: Design,
  { rows, x }: Sparse,
  gls: Generalised,
  needs: Needs,
): InformationOf {
  const lots = needs === "total" ? 0 : strata.lots;
  const isRamped = needs === "ramps";
  const { size } = gls.columns;
  const square = new Float64Array(lots + 1);
  const squareByLot = new Float64Array(lots + 1);
  const squareByLot2 = new Float64Array(lots + 1);
  const pieces = new Float64Array(lots + 1);
  const products = new Float64Array((lots + 1) * size);
  const productsByLot = new Float64Array(isRamped ? (lots + 1) * size : 0);
  const first = lotOf[rows[0]!]!;
  const end = lotOf[rows.at(-1)!]! + 1;
  const { u: dense, out: weights } = scratchPair(strata.pieces);
  dense.fill(0, lotStart(strata, first), lotStart(strata, end));
  for (let r = 0; r < rows.length; r++) {
    const i = rows[r]!;
    dense[i] = x === null ? 1 : x[r]!;
    if (Math.abs(dense[i]!) > 1e-9) pieces[lots === 0 ? 0 : lotOf[i]!]!++;
  }
  weightedLots(strata, gls.ratios, { u: dense, out: weights, first, end });
  for (let r = 0; r < rows.length; r++) {
    const i = rows[r]!;
    square[lots === 0 ? 0 : lotOf[i]!]! += dense[i]! * weights[i]!;
  }
  if (needs === "total") {
    const range = { from: lotStart(strata, first), to: lotStart(strata, end) };
    addProducts(gls.columns, weights, { out: products, at: 0, ...range });
  }
  for (let lot = lots - 1; lot >= 0; lot--) {
    const at = lot * size;
    if (pieces[lot]! > 0) {
      const range = { from: lotStart(strata, lot), to: lotStart(strata, lot + 1) };
      addProducts(gls.columns, weights, { out: products, at, ...range });
    }
    if (isRamped) {
      for (let k = at; k < at + size; k++)
        productsByLot[k] = productsByLot[k + size]! + (lot + 1) * products[k]!;
    }
    for (let k = at; k < at + size; k++) products[k]! += products[k + size]!;
    pieces[lot]! += pieces[lot + 1]!;
    squareByLot[lot] = squareByLot[lot + 1]! + (lot + 1) * square[lot]!;
    squareByLot2[lot] = squareByLot2[lot + 1]! + (lot + 1) * (lot + 1) * square[lot]!;
    square[lot]! += square[lot + 1]!;
  }
  return { gls, pieces, square, squareByLot, squareByLot2, products, productsByLot };
}

/** One pair of vectors serves all carriers: each is done with it before the next begins. */
let pair = { u: new Float64Array(0), out: new Float64Array(0) };
function scratchPair(length: number): typeof pair {
  if (pair.u.length < length) pair = { u: new Float64Array(length), out: new Float64Array(length) };
  return pair;
}

const NOTHING = { information: 0, betweenLots: 0 };

function measure(
  hypothesis: Hypothesis,
  own: InformationOf,
  inLots: InformationOf,
  pieces: number,
): Measured {
  const { shape, from, type } = hypothesis;
  const moved = shape === "pulse" ? own.pieces[from]! - own.pieces[from + 1]! : own.pieces[from]!;
  if (moved < LEAST_PIECES_MOVED || (type === "step" && moved > pieces - LEAST_PIECES_MOVED)) return NOTHING;
  const total = squareOf(hypothesis, own);
  const information = total - explained(hypothesis, own);
  if (!(information > Math.max(LEAST_SHARE * total, LEAST_INFORMATION))) return NOTHING;
  const withinLots = Math.max(0, squareOf(hypothesis, inLots) - explained(hypothesis, inLots));
  return { information, betweenLots: Math.min(1, Math.max(0, 1 - withinLots / information)) };
}

function squareOf({ shape, from, scale }: Hypothesis, of: InformationOf): number {
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

/** ⟨x,N⟩⟨N,N⟩⁻¹⟨N,x⟩ */
function explained(
  { shape, from, scale }: Hypothesis,
  { gls, products, productsByLot }: InformationOf,
): number {
  const size = gls.gram.size;
  const u = scratch(size);
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

/** One vector is enough for all hypotheses: each is done with it before the next begins. */
let kept = new Float64Array(0);
function scratch(size: number): Float64Array {
  if (kept.length < size) kept = new Float64Array(size);
  return kept;
}

/** The regressor of a hypothesis on the rows of a design; null where it touches none. */
export function regressorOn(
  designs: readonly Design[],
  d: number,
  carrier: Carrier,
  hypothesis: Hypothesis,
): Float64Array | null {
  const sparse = carrier.on[d];
  const design = designs[d]!;
  if (!sparse) return null;
  const { shape, from, scale } = hypothesis;
  const out = new Float64Array(design.rows.length);
  for (let r = 0; r < sparse.rows.length; r++) {
    const i = sparse.rows[r]!;
    const lot = design.lotOf[i]!;
    const value = sparse.x === null ? 1 : sparse.x[r]!;
    if (shape === "pulse") out[i] = lot === from ? value : 0;
    else if (shape === "ramp") out[i] = lot < from ? 0 : (value * (lot - from + 1)) / scale;
    else out[i] = lot < from ? 0 : value;
  }
  return out;
}
