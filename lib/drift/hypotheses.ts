import type { Design, Prepared } from "./design";
import { type ChangeKind, type ScannedSource, sourceKey } from "./measured-part";
import { type Levels, presentLevels } from "./piece-table";
import { REFERENCE_TEMPERATURE } from "./settings";
import { allRows, onEach, picked, rowsByLife, rowsSince, rowsWhere, type Sparse, touched } from "./sparse";

/**
 * A regressor before its shape in time is chosen: the rows a source touched, with 1 (or the age of the tool, or
 * the temperature) on each.
 */
export class Carrier {
  readonly source: ScannedSource | null;
  /** Only these features can move; by position in the prepared table. */
  readonly scope: readonly number[];
  /** Physics that fixes the pattern over features: the same length on each, or in proportion to its size. */
  readonly pattern: "same-length" | "by-size" | null;
  /** Carriers that have its pieces between them, no piece twice, so that its sums are theirs put together. */
  readonly parts: readonly number[] | null;
  private rows: readonly (Sparse | null)[] | null = null;

  constructor(
    { source, scope, pattern = null, parts = null }: CarrierOf,
    private readonly rowsOf: () => readonly (Sparse | null)[],
  ) {
    this.source = source;
    this.scope = scope;
    this.pattern = pattern;
    this.parts = parts;
  }

  /**
   * By design: the rows it touches and its value there (1 throughout when `x` is null); null for none. Found when
   * somebody asks: of few edges of a tool anybody does for all later ones piece by piece.
   */
  get on(): readonly (Sparse | null)[] {
    this.rows ??= this.rowsOf();
    return this.rows;
  }
}

type CarrierOf = Pick<Carrier, "source" | "scope"> & Partial<Pick<Carrier, "pattern" | "parts">>;

/** How a regressor runs over the lots of a part. */
export type Shape = "step" | "ramp" | "pulse" | "whole";

/**
 * One thing that may have happened: a carrier with a shape from lot `from` of the table on. A ramp grows by one a
 * lot and is scaled to 1 at the last lot.
 */
export type Hypothesis = {
  source: ScannedSource;
  carrier: number;
  shape: Shape;
  from: number;
  scale: number;
  type: ChangeKind;
  /**
   * What sets hypotheses of one source and type apart: "edge" is one edge of a tool, "since" it and those after;
   * "always" is wear that has been there all along.
   */
  variant: "" | "edge" | "since" | "always";
  /** Lot of the table in which it begins to show. */
  onset: number;
  /** Life of the tool, for the variants of a tool; else −1. */
  life: number;
};

/** `own` is what a feature may do by itself, whatever ran: a step of all its pieces at some lot. */
export type Hypotheses = { carriers: Carrier[]; all: Hypothesis[]; own: Hypothesis[] };

/** A change is looked for only after two lots and four pieces of the source. */
const LOTS_BEFORE = 2;
const PIECES_BEFORE = 4;
/** Lots a drift must have run for. */
const LOTS_OF_DRIFT = 3;
const LEAST_AGE_SPREAD = 0.05;

/** Everything that is tried on a table, source by source. */
export function hypothesesOn(prepared: Prepared): Hypotheses {
  const found: Hypotheses = { carriers: [], all: [], own: [] };
  if (prepared.features.length === 0) return found;
  addPieceSources(prepared, found);
  addLots(prepared, found);
  addTools(prepared, found);
  addGauges(prepared, found);
  addTemperature(prepared, found);
  return found;
}

type Add = Pick<Hypothesis, "shape" | "from" | "type"> & Partial<Hypothesis>;

function adder(
  found: Hypotheses,
  carrier: CarrierOf & { source: ScannedSource },
  rowsOf: () => readonly (Sparse | null)[],
): (one: Add) => void {
  const index = found.carriers.push(new Carrier(carrier, rowsOf)) - 1;
  return (one) =>
    found.all.push({
      source: carrier.source,
      carrier: index,
      scale: 1,
      variant: "",
      onset: one.from,
      life: -1,
      ...one,
    });
}

function everyFeature({ features }: Prepared): number[] {
  return [...features.keys()];
}

function addPieceSources(prepared: Prepared, found: Hypotheses): void {
  const { table, designs } = prepared;
  const last = table.lots - 1;
  const scope = everyFeature(prepared);
  for (const kind of ["fixture", "operator", "setup", "machine"] as const) {
    const levels = table.levels[kind];
    for (const [level, code] of levels.codes.entries()) {
      if (!levels.live[level]) continue;
      const lots = usableOnsets(table.lotOf, levels.of, level);
      if (lots.length === 0 && kind !== "fixture") continue;
      const add = adder(found, { source: { kind, id: code }, scope }, () =>
        onEach(
          designs,
          (design) => design[kind].of,
          (of) => rowsWhere(of, level),
        ),
      );
      const onsets = kind === "fixture" ? lots : allFrom(lots[0]!, last);
      for (const from of onsets) {
        add({ shape: "step", from, type: "step" });
        const lasts = last - from + 1;
        if ((kind === "fixture" || kind === "machine") && lasts >= LOTS_OF_DRIFT) {
          add({ shape: "ramp", from, type: "trend", scale: lasts });
        }
      }
      // It may have drifted all along.
      if (kind === "fixture" || kind === "machine") {
        add({ shape: "ramp", from: 1, onset: 0, type: "trend", scale: table.lots });
      }
    }
  }
  if (table.levels.machine.codes.length === 0) addProcess(prepared, found);
}

function everyRow({ designs }: Prepared): Carrier["on"] {
  return onEach(designs, ({ rows }) => rows, allRows);
}

/** Where no machine is named the process itself is watched, under the name of the part. */
function addProcess(prepared: Prepared, found: Hypotheses): void {
  const { table } = prepared;
  const last = table.lots - 1;
  const everywhere = new Int32Array(table.pieces);
  const lots = usableOnsets(table.lotOf, everywhere, 0);
  if (lots.length === 0) return;
  const source: ScannedSource = { kind: "process", id: table.part };
  const add = adder(found, { source, scope: everyFeature(prepared) }, () => everyRow(prepared));
  for (const from of lots) {
    add({ shape: "step", from, type: "step" });
    const lasts = last - from + 1;
    if (lasts >= LOTS_OF_DRIFT) add({ shape: "ramp", from, type: "trend", scale: lasts });
  }
  add({ shape: "ramp", from: 1, onset: 0, type: "trend", scale: table.lots });
}

function addLots(prepared: Prepared, found: Hypotheses): void {
  const { table } = prepared;
  const carrierOfAll = new Carrier({ source: null, scope: everyFeature(prepared) }, () => everyRow(prepared));
  const carrier = found.carriers.push(carrierOfAll) - 1;
  for (const [lot, code] of table.lotCodes.entries()) {
    found.all.push({
      source: { kind: "lot", id: code },
      carrier,
      shape: "pulse",
      from: lot,
      scale: 1,
      type: "step",
      variant: "",
      onset: lot,
      life: -1,
    });
  }
  for (let from = 1; from < table.lots; from++) {
    found.own.push({
      source: { kind: "process", id: table.part },
      carrier,
      shape: "step",
      from,
      scale: 1,
      type: "step",
      variant: "",
      onset: from,
      life: -1,
    });
  }
}

function addTools(prepared: Prepared, found: Hypotheses): void {
  for (const source of distinctSources(prepared, "tool")) {
    const { table, designs } = prepared;
    const rowsOf = designs.map(({ tool }) => rowsWhere(tool.of, liveLevel(tool.levels, source.id)));
    const scope = scopeOf(designs, rowsOf);
    const lives = livesIn(designs, rowsOf);
    if (lives === null) addToolWithoutEdges(prepared, found, { source, scope, rowsOf });
    else addEdges(designs, found, { source, scope, rowsOf, lives });
    if (lives === null || lives.spread <= LEAST_AGE_SPREAD) continue;
    const add = adder(found, { source, scope, pattern: "same-length" }, () =>
      rowsOf.map(
        (sparse, d) => sparse && { rows: sparse.rows, x: picked(designs[d]!.tool.age, sparse.rows) },
      ),
    );
    add({ shape: "whole", from: 0, type: "trend", variant: "always" });
    for (let from = 1; from < table.lots - 1; from++) add({ shape: "step", from, type: "trend" });
  }
}

type OfTool = { source: ScannedSource; scope: readonly number[]; rowsOf: readonly (Sparse | null)[] };

function addEdges(
  designs: readonly Design[],
  found: Hypotheses,
  { source, scope, rowsOf, lives }: OfTool & { lives: Lives },
): void {
  const [first] = lives.numbers;
  if (lives.numbers.length < 2) return;
  const byLife = rowsOf.map((sparse, d) => sparse && rowsByLife(sparse.rows, designs[d]!.tool.life));
  let later: number[] = [];
  for (const life of lives.numbers) {
    const onset = lives.firstLot.get(life)!;
    const tryOn = (variant: "edge" | "since", parts?: number[]) => {
      const rowsIn = () =>
        variant === "edge"
          ? byLife.map((rows) => touched(Int32Array.from(rows?.get(life) ?? [])))
          : rowsOf.map((sparse, d) => touched(rowsSince(life, sparse, designs[d]!.tool.life)));
      const place = found.carriers.length;
      const add = adder(found, { source, scope, pattern: "same-length", parts: parts ?? null }, rowsIn);
      add({ shape: "whole", from: 0, type: "step", variant, onset, life });
      return place;
    };
    const edge = tryOn("edge");
    if (life === first) continue;
    // Those before it are that one and all from here on.
    const parts = [edge];
    later.push(tryOn("since", parts));
    later = parts;
  }
}

/** Without edge numbers a tool is a source like any other: it may step between lots. */
function addToolWithoutEdges(
  { table }: Prepared,
  found: Hypotheses,
  { source, scope, rowsOf }: OfTool,
): void {
  const column = table.tools.find((levels) => liveLevel(levels, source.id) >= 0);
  if (column === undefined) return;
  const add = adder(found, { source, scope, pattern: "same-length" }, () => rowsOf);
  for (const from of usableOnsets(table.lotOf, column.of, liveLevel(column, source.id))) {
    add({ shape: "step", from, type: "step" });
  }
}

function addGauges(prepared: Prepared, found: Hypotheses): void {
  const { table, designs } = prepared;
  const last = table.lots - 1;
  for (const source of distinctSources(prepared, "gauge")) {
    const on = onEach(
      designs,
      ({ gauge }) => gauge,
      ({ of, levels }) => rowsWhere(of, liveLevel(levels, source.id)),
    );
    const scope = scopeOf(designs, on);
    const add = adder(found, { source, scope, pattern: "same-length" }, () => on);
    for (let from = 1; from <= last; from++) {
      add({ shape: "step", from, type: "step" });
      const lasts = last - from + 1;
      if (lasts >= LOTS_OF_DRIFT) add({ shape: "ramp", from, type: "trend", scale: lasts });
    }
  }
}

function addTemperature(prepared: Prepared, found: Hypotheses): void {
  const { table, features } = prepared;
  const scope = [...features.keys()].filter((f) => {
    const { kind, nominal } = features[f]!.feature;
    return kind === "size" && nominal !== null && nominal !== 0;
  });
  if (scope.length === 0 || table.temperature.every((t) => Number.isNaN(t) || t === REFERENCE_TEMPERATURE))
    return;
  const source: ScannedSource = { kind: "temperature", id: "part_temp_c" };
  const add = adder(found, { source, scope, pattern: "by-size" }, () =>
    onEach(
      prepared.designs,
      ({ temperature }) => temperature,
      (temperature) => {
        const rows = Int32Array.from(temperature.keys()).filter((i) => !Number.isNaN(temperature[i]));
        return { rows, x: picked(temperature, rows).map((t) => t - REFERENCE_TEMPERATURE) };
      },
    ),
  );
  for (let from = 0; from < table.lots - 1; from++) add({ shape: "step", from, type: "trend" });
}

/** Lots of a source from its third on, once four of its pieces lie before. */
function usableOnsets(lotOf: Int32Array, of: Int32Array, level: number): number[] {
  // Rows come lot by lot.
  const lots: { lot: number; pieces: number }[] = [];
  let last = -1;
  for (let i = 0; i < of.length; i++) {
    if (of[i] !== level) continue;
    if (lotOf[i] !== last) {
      last = lotOf[i]!;
      lots.push({ lot: last, pieces: 0 });
    }
    lots[lots.length - 1]!.pieces++;
  }
  const onsets: number[] = [];
  let before = 0;
  for (const [place, { lot, pieces }] of lots.entries()) {
    if (place >= LOTS_BEFORE && before >= PIECES_BEFORE) onsets.push(lot);
    before += pieces;
  }
  return onsets;
}

function allFrom(first: number, last: number): number[] {
  return Array.from({ length: last - first + 1 }, (_, i) => first + i);
}

/** The latest level of a code: what was before an event is history. −1 where it has none. */
export function liveLevel({ codes, live }: Levels, id: string): number {
  return codes.findIndex((code, level) => code === id && live[level] === true);
}

function scopeOf(designs: readonly Design[], on: readonly (Sparse | null)[]): number[] {
  return designs.flatMap(({ features }, d) => (on[d] === null ? [] : features)).sort((a, b) => a - b);
}

function distinctSources({ designs }: Prepared, kind: "tool" | "gauge"): ScannedSource[] {
  const sources = new Map<string, ScannedSource>();
  for (const design of designs) {
    const { levels, of } = design[kind];
    for (const level of presentLevels(levels, of)) {
      const source = { kind, id: levels.codes[level]! };
      if (levels.live[level]) sources.set(sourceKey(source), source);
    }
  }
  return [...sources.values()].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}

/** Edges of a tool: numbered lives, the lot each was first used in, and how much ages differ. */
type Lives = { numbers: number[]; firstLot: Map<number, number>; spread: number };

function livesIn(designs: readonly Design[], rowsOf: readonly (Sparse | null)[]): Lives | null {
  const firstLot = new Map<number, number>();
  let ages: Float64Array = new Float64Array(0);
  for (const [d, sparse] of rowsOf.entries()) {
    if (sparse === null) continue;
    const { tool, lotOf } = designs[d]!;
    for (const i of sparse.rows) {
      const life = tool.life[i]!;
      if (life < 0) continue;
      const known = firstLot.get(life);
      if (known === undefined || lotOf[i]! < known) firstLot.set(life, lotOf[i]!);
    }
    if (sparse.rows.length > ages.length) ages = picked(tool.age, sparse.rows);
  }
  if (firstLot.size === 0) return null;
  const centre = ages.reduce((a, b) => a + b, 0) / ages.length;
  const spread = Math.sqrt(ages.reduce((sum, age) => sum + (age - centre) ** 2, 0) / ages.length);
  return { numbers: [...firstLot.keys()].sort((a, b) => a - b), firstLot, spread };
}
