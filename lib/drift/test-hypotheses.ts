import { bayesFactorAtZero } from "./bayes-factor";
import { type Columns, type Generalised, generalised, leave } from "./columns";
import type { Design } from "./design";
import type { Fit } from "./fit";
import type { Carrier, Hypotheses, Hypothesis } from "./hypotheses";
import {
  type CarrierSums,
  carrierSums,
  type Information,
  informationEach,
  informationOf,
  joined,
  type Measured,
  measure,
  type Needs,
  needsOf,
  togetherWith,
} from "./information";
import { SLAB } from "./settings";
import type { Sparse } from "./sparse";
import { weighted } from "./strata";

/**
 * Test statistics of every hypothesis on every feature of a table, stored hypothesis by hypothesis: entry
 * k × features + f; what features may do by themselves follows after all others. `t` is NaN where the data say nothing.
 */
export type Tests = {
  features: number;
  t: Float64Array;
  /** Information on the shift, in 1/sigma². */
  information: Float64Array;
  /** Log Bayes factor of a shift of the usual size where t is 0, from the information alone. */
  atZero: Float64Array;
  /** Share of the information that rests on comparing lots rather than on what runs within one. */
  betweenLots: Float64Array;
};

/**
 * For each hypothesis x:  I = ⟨x,x⟩ − ⟨x,N⟩⟨N,N⟩⁻¹⟨N,x⟩,  t = ⟨x,r⟩/√I,  with ⟨u,v⟩ = uᵀV⁻¹v and r the residual.
 *
 * V couples pieces of one lot only, so every product is a sum over lots. A step is a suffix sum of them and a
 * ramp a suffix sum of suffix sums: all onsets of a source cost one pass over its pieces. So do all edges of a tool,
 * for those from one on are that one and those from the next on.
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
    atZero: new Float64Array(all.length * features),
    betweenLots: new Float64Array(all.length * features),
  };
  const byCarrier = carriers.map((): number[] => []);
  for (const [k, { carrier }] of all.entries()) byCarrier[carrier]!.push(k);
  const asked = byCarrier.map((own) => ({
    at: Int32Array.from(own),
    hypotheses: own.map((k) => all[k]!),
    needs: needsOf(own.map((k) => all[k]!.shape)),
  }));
  const inScope: Uint8Array[] = [];
  for (const [c, { scope }] of carriers.entries()) {
    // Edges of a tool, and sources of a kind, follow each other with the very same scope.
    const isAsBefore = carriers[c - 1]?.scope === scope;
    inScope.push(isAsBefore ? inScope[c - 1]! : flagged(scope, features));
  }
  const onColumns = new Map<Columns, OnColumns>();
  for (const d of fit.prepared.designs.keys())
    testDesign(d, { fit, carriers, asked, inScope, tests }, onColumns);
  return tests;
}

function flagged(scope: readonly number[], features: number): Uint8Array {
  const flags = new Uint8Array(features);
  for (const f of scope) flags[f] = 1;
  return flags;
}

/** Hypotheses of one carrier, with their places among all. */
type Asked = { at: Int32Array; hypotheses: readonly Hypothesis[]; needs: Needs };

type Testing = {
  fit: Fit;
  carriers: readonly Carrier[];
  asked: readonly Asked[];
  /** By carrier: 1 for each feature in its scope. */
  inScope: readonly Uint8Array[];
  tests: Tests;
};

/** A carrier that touches a design: its pieces, or the places of carriers before it that have them between them. */
type Touching = { index: number; sparse: Sparse | null; parts: readonly number[] };

/** What is known of a carrier on some columns, before any feature is looked at; by class once a feature of it asks. */
type Known = { sums: CarrierSums; within: Information; inLots: Float64Array; classes: KnownInClass[] };
type KnownInClass = { information: Information; measured: Measured };

/**
 * Designs that differ only in their tools have columns in common, and all carriers but tools: what is known of these is
 * worked out once. Measured: a third of the time of all tests, with five tools to a part.
 */
type OnColumns = {
  columns: Columns;
  within: Generalised;
  classes: (Generalised | undefined)[];
  carriers: Map<number, { sparse: Sparse; known: Known }>;
};

/*
 * In small steps, for the sake of the compiler: as one function, the loops below took it longer to compile, several
 * times over, than to run.
 */
function testDesign(d: number, testing: Testing, onColumns: Map<Columns, OnColumns>): void {
  const { fit, asked, inScope, tests } = testing;
  const design = fit.prepared.designs[d]!;
  const { strata } = design;
  const touching = touchingCarriers(d, testing);
  if (touching.length === 0) return;
  const columns = fit.columns[d]!;
  const on = onColumns.get(columns) ?? newColumns(fit, d);
  onColumns.set(columns, on);
  const v = new Float64Array(strata.pieces);
  const known: Known[] = [];
  for (const one of touching) known.push(knownOf(one, { design, asked, on, before: known }));
  for (const [klass, ratios] of fit.classes.entries()) {
    const members = design.features.filter((f) => fit.classOf[f] === klass);
    if (members.length === 0) continue;
    on.classes[klass] ??= generalised(strata, columns, ratios);
    const gls = on.classes[klass];
    const lotSums = emptyLotSums(touching, { asked, lots: strata.lots, count: members.length });
    for (const [m, f] of members.entries())
      sumByLot(design, touching, { v: weightedResidual(gls, fit.values[f]!, v), into: lotSums, m });
    for (const [c, one] of touching.entries()) {
      const own = asked[one.index]!;
      const { measured } = inClass(one, klass, { gls, own, known, of: known[c]! });
      enter(tests, own, { members, scope: inScope[one.index]!, measured, sums: lotSums[c]! });
    }
  }
}

function newColumns(fit: Fit, d: number): OnColumns {
  const columns = fit.columns[d]!;
  const { strata } = fit.prepared.designs[d]!;
  const cell = fit.classes[0]?.cell ?? 0;
  const within = generalised(strata, columns, { lot: Number.POSITIVE_INFINITY, cell });
  return { columns, within, classes: [], carriers: new Map() };
}

function knownOf(
  { index, sparse, parts }: Touching,
  {
    design,
    asked,
    on,
    before,
  }: { design: Design; asked: readonly Asked[]; on: OnColumns; before: readonly Known[] },
): Known {
  const shared = on.carriers.get(index);
  if (sparse !== null && shared?.sparse === sparse) return shared.known;
  const { needs, hypotheses } = asked[index]!;
  const sums =
    sparse === null
      ? parts.map((part) => before[part]!.sums).reduce(togetherWith)
      : carrierSums(design, sparse, on.columns, needs);
  const within =
    sparse === null
      ? putTogether(parts, { gls: on.within, known: before, of: ({ within }) => within })
      : informationOf(sums, on.within);
  const known = { sums, within, inLots: informationEach(hypotheses, within), classes: [] };
  if (sparse !== null) on.carriers.set(index, { sparse, known });
  return known;
}

/** Of a carrier with the pieces of one other, or of two. */
function putTogether(
  [first, second]: readonly number[],
  { gls, known, of }: { gls: Generalised; known: readonly Known[]; of: (known: Known) => Information },
): Information {
  const few = known[first!]!;
  if (second === undefined) return of(few);
  const many = known[second]!;
  return joined(of(few), of(many), { gls, few: few.sums, many: many.sums });
}

function inClass(
  { sparse, parts }: Touching,
  klass: number,
  { gls, own, known, of }: { gls: Generalised; own: Asked; known: readonly Known[]; of: Known },
): KnownInClass {
  const found = of.classes[klass];
  if (found !== undefined) return found;
  const information =
    sparse === null
      ? putTogether(parts, { gls, known, of: ({ classes }) => classes[klass]!.information })
      : informationOf(of.sums, gls);
  const pieces = gls.strata.pieces;
  const made = { information, measured: measure(own.hypotheses, information, { inLots: of.inLots, pieces }) };
  of.classes[klass] = made;
  return made;
}

/** Those that are put together come last, each after its parts: a later edge is looked at before those from it on. */
function touchingCarriers(d: number, { fit, carriers, asked, inScope }: Testing): Touching[] {
  const { features } = fit.prepared.designs[d]!;
  const found: Touching[] = [];
  // By carrier, −1 for those that do not touch it.
  const places = new Int32Array(carriers.length).fill(-1);
  let last: Uint8Array | null = null;
  let isLastIn = false;
  const isAsked = (index: number) => {
    if (asked[index]!.at.length === 0) return false;
    const scope = inScope[index]!;
    if (scope !== last) {
      last = scope;
      isLastIn = features.some((f) => scope[f] === 1);
    }
    return isLastIn;
  };
  for (const [index, carrier] of carriers.entries()) {
    if (carrier.parts !== null || !isAsked(index)) continue;
    const sparse = carrier.on[d];
    if (!sparse || sparse.rows.length === 0) continue;
    places[index] = found.push({ index, sparse, parts: [] }) - 1;
  }
  for (let index = carriers.length - 1; index >= 0; index--) {
    const among = carriers[index]!.parts;
    if (among === null || !isAsked(index)) continue;
    const parts = among.map((part) => places[part]!).filter((place) => place >= 0);
    if (parts.length > 0) places[index] = found.push({ index, sparse: null, parts }) - 1;
  }
  return found;
}

/** V⁻¹ times what the static columns leave of a feature. */
function weightedResidual(gls: Generalised, value: Float64Array, out: Float64Array): Float64Array {
  leave(gls, value, out);
  weighted(gls.strata, gls.ratios, out, out);
  return out;
}

/** Hypothesis by hypothesis, as tests are stored: feature by feature the memory would be gone through in leaps. */
function enter(
  { features, t, information, atZero, betweenLots }: Tests,
  { at, hypotheses }: Asked,
  {
    members,
    scope,
    measured,
    sums,
  }: { members: readonly number[]; scope: Uint8Array; measured: Measured; sums: LotSums },
): void {
  for (let h = 0; h < at.length; h++) {
    const known = measured.information[h]!;
    if (known === 0) continue;
    const root = Math.sqrt(known);
    const zero = bayesFactorAtZero(known * SLAB);
    for (let m = 0; m < members.length; m++) {
      if (scope[members[m]!] === 0) continue;
      const place = at[h]! * features + members[m]!;
      information[place] = known;
      atZero[place] = zero;
      betweenLots[place] = measured.betweenLots[h]!;
      t[place] = shaped(hypotheses[h]!, sums, m) / root;
    }
  }
}

/**
 * By feature m, suffix sums over lots of Σ x·v, and of the same times (lot + 1), from m × length on; where the total is
 * enough, length is 1.
 */
type LotSums = { length: number; plain: Float64Array; byLot: Float64Array };

const NO_SUMS = new Float64Array(0);

function emptyLotSums(
  touching: readonly Touching[],
  { asked, lots, count }: { asked: readonly Asked[]; lots: number; count: number },
): LotSums[] {
  return touching.map(({ index }) => {
    const { needs } = asked[index]!;
    const length = needs === "total" ? 1 : lots + 1;
    return {
      length,
      plain: new Float64Array(count * length),
      byLot: needs === "ramps" ? new Float64Array(count * length) : NO_SUMS,
    };
  });
}

function sumByLot(
  { lotOf }: Design,
  touching: readonly Touching[],
  { v, into, m }: { v: Float64Array; into: readonly LotSums[]; m: number },
): void {
  for (let c = 0; c < touching.length; c++) {
    const { sparse, parts } = touching[c]!;
    const { length, plain, byLot } = into[c]!;
    const at = m * length;
    if (sparse === null) plain[at] = totalOfParts(parts, into, m);
    else if (length === 1) plain[at] = totalOf(sparse.rows, sparse.x, v);
    else {
      if (sparse.x === null) addByLot(plain, at, { lotOf, rows: sparse.rows, v });
      else addShares(plain, at, { lotOf, rows: sparse.rows, x: sparse.x, v });
      fromLotOn(plain, byLot, { at, lots: length - 1 });
    }
  }
}

function totalOfParts(parts: readonly number[], sums: readonly LotSums[], m: number): number {
  let sum = 0;
  for (const part of parts) sum += sums[part]!.plain[m]!;
  return sum;
}

function fromLotOn(
  plain: Float64Array,
  byLot: Float64Array,
  { at, lots }: { at: number; lots: number },
): void {
  const isRamped = byLot.length > 0;
  for (let lot = lots - 1; lot >= 0; lot--) {
    if (isRamped) byLot[at + lot] = byLot[at + lot + 1]! + (lot + 1) * plain[at + lot]!;
    plain[at + lot]! += plain[at + lot + 1]!;
  }
}

function totalOf(rows: Int32Array, x: Float64Array | null, v: Float64Array): number {
  let sum = 0;
  if (x === null) for (let r = 0; r < rows.length; r++) sum += v[rows[r]!]!;
  else for (let r = 0; r < rows.length; r++) sum += x[r]! * v[rows[r]!]!;
  return sum;
}

function addByLot(
  plain: Float64Array,
  at: number,
  { lotOf, rows, v }: { lotOf: Int32Array; rows: Int32Array; v: Float64Array },
): void {
  // Rows come lot by lot: a sum is written once a lot, for each would have to wait for the one before.
  let lot = -1;
  let sum = 0;
  for (let r = 0; r < rows.length; r++) {
    const i = rows[r]!;
    if (lotOf[i]! !== lot) {
      if (lot >= 0) plain[at + lot]! = sum;
      lot = lotOf[i]!;
      sum = 0;
    }
    sum += v[i]!;
  }
  if (lot >= 0) plain[at + lot]! = sum;
}

function addShares(
  plain: Float64Array,
  at: number,
  { lotOf, rows, x, v }: { lotOf: Int32Array; rows: Int32Array; x: Float64Array; v: Float64Array },
): void {
  for (let r = 0; r < rows.length; r++) {
    const i = rows[r]!;
    plain[at + lotOf[i]!]! += x[r]! * v[i]!;
  }
}

/** Σ x·v of a hypothesis, from the suffix sums of its carrier. */
function shaped({ shape, from, scale }: Hypothesis, { length, plain, byLot }: LotSums, m: number): number {
  const at = m * length + from;
  switch (shape) {
    case "ramp":
      return (byLot[at]! - from * plain[at]!) / scale;
    case "pulse":
      return plain[at]! - plain[at + 1]!;
    default:
      return plain[at]!;
  }
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
