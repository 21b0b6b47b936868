import { gridStep } from "../capability/resolution";
import type { SourceKind } from "../measurements/series";
import { type Columns, columnsOf, type IndicatorGroup } from "./columns";
import type { MeasuredFeature } from "./measured-part";
import { middleOf } from "./middle";
import { isSame, Neighbours, successiveDifferences } from "./neighbours";
import { type Levels, type PieceTable, presentLevels } from "./piece-table";
import { LEAST_LOTS, LEAST_PIECES } from "./settings";
import { shortTermSigma } from "./short-term-sigma";
import type { Strata } from "./strata";
import type { ToolLife } from "./tool-life";
import { type CellPairs, cellPairs } from "./variance-ratios";

/** Levels of one kind of source on the rows of a design. */
export type LevelColumn = { levels: Levels; of: Int32Array };

/**
 * Features of a table that share their rows, tool and gauge: one set of regressors serves all of them.
 *
 * `rows` are rows of the table in its order; every other column is by position in `rows`. What designs of a table have
 * in common (all that follows from the rows, a gauge, static columns) is the very same object in each, so that what
 * follows from it is worked out once.
 */
export type Design = {
  rows: Int32Array;
  strata: Strata;
  lotOf: Int32Array;
  cellOf: Int32Array;
  cellLot: Int32Array;
  /** Level of the fixture of each cell, −1 where none is stated. */
  cellFixture: Int32Array;
  fixture: LevelColumn;
  machine: LevelColumn;
  operator: LevelColumn;
  setup: LevelColumn;
  gauge: LevelColumn;
  tool: LevelColumn & ToolLife;
  temperature: Float64Array;
  /** What has always been different: a constant, and each source against the first of its kind. */
  statics: StaticGroup[];
  columns: Columns;
  pairs: CellPairs;
  /** Positions in `features` of the prepared table. */
  features: number[];
};

/** Columns of the sources of one kind; those of the constant have none. */
export type StaticGroup = IndicatorGroup & { kind: SourceKind | null };

export type PreparedFeature = {
  feature: MeasuredFeature;
  /** Short-term sigma in the feature's unit. */
  sigma: number;
  /** Median of the window, in the unit. */
  middle: number;
  design: number;
  /** (value − middle) / sigma on the rows of the design. */
  z: Float64Array;
};

/** A table ready for the fit, and what had to be left out of it, with the reason. */
export type Prepared = {
  table: PieceTable;
  features: PreparedFeature[];
  designs: Design[];
  leftOut: { feature: string; reason: string }[];
};

/** Blunders beyond this many sigma carry no more weight than one at it. */
const FARTHEST = 25;
const MOST_EQUAL_NEIGHBOURS = 0.6;
/** A portable gauge may be set up anew every lot; only a setup used in this many lots has an offset of its own. */
const LEAST_LOTS_OF_SETUP = 3;

/** Standardises each feature of a table and groups features that share a design. */
export function prepare(table: PieceTable, lives: readonly ToolLife[]): Prepared {
  const leftOut: Prepared["leftOut"] = [];
  const found: {
    feature: MeasuredFeature;
    j: number;
    rows: Int32Array;
    sigma: number | null;
    step: number;
  }[] = [];
  const neighbours = new Neighbours(table);
  for (const [j, feature] of table.features.entries()) {
    const observed = neighbours.around(table.values[j]!);
    const { rows } = observed;
    const reason = tooLittle(table, rows);
    if (reason !== null) {
      leftOut.push({ feature: feature.name, reason });
      continue;
    }
    const step = feature.resolution ?? gridStep(sampleOf(table.values[j]!, rows)) ?? 0;
    const differences = successiveDifferences(table.values[j]!, observed);
    let equal = 0;
    for (let i = 0; i < differences.length; i++) if (differences[i] === 0) equal++;
    if (differences.length > 0 && equal > MOST_EQUAL_NEIGHBOURS * differences.length) {
      leftOut.push({
        feature: feature.name,
        reason: `${Math.round((100 * equal) / differences.length)} % of successive pieces read alike: the gauge resolves too little.`,
      });
      continue;
    }
    found.push({ feature, j, rows, sigma: shortTermSigma(differences, step), step });
  }
  const usual = usualSigma(found);
  const designs = new DesignGroups(table, lives);
  const features: PreparedFeature[] = [];
  for (const { feature, j, rows, sigma: own } of found) {
    const values = valuesOn(table.values[j]!, rows);
    const sigma = own ?? usual(feature);
    if (!(sigma > 0)) {
      leftOut.push({ feature: feature.name, reason: "Nothing varies: there is no scatter to compare with." });
      continue;
    }
    const middle = middleOf(values);
    const z = standardised(values, middle, sigma);
    const design = designs.of(rows, j, features.length);
    features.push({ feature, sigma, middle, design, z });
  }
  return { table, features, designs: designs.all, leftOut };
}

/** The values themselves where all rows are asked for. */
function valuesOn(values: Float64Array, rows: Int32Array): Float64Array {
  if (rows.length === values.length) return values;
  const out = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) out[i] = values[rows[i]!]!;
  return out;
}

function standardised(values: Float64Array, middle: number, sigma: number): Float64Array {
  const out = new Float64Array(values.length);
  for (let i = 0; i < out.length; i++) {
    out[i] = Math.max(-FARTHEST, Math.min(FARTHEST, (values[i]! - middle) / sigma));
  }
  return out;
}

function tooLittle({ lotOf }: PieceTable, rows: Int32Array): string | null {
  let lots = 0;
  for (let i = 0; i < rows.length; i++) if (i === 0 || lotOf[rows[i]!] !== lotOf[rows[i - 1]!]) lots++;
  if (rows.length >= LEAST_PIECES && lots >= LEAST_LOTS) return null;
  return `${rows.length} pieces in ${lots} lots; the scan needs ${LEAST_PIECES} pieces and ${LEAST_LOTS} lots.`;
}

/** The grid shows in a few hundred readings. */
function sampleOf(values: Float64Array, rows: Int32Array): Float64Array {
  const stride = Math.max(1, Math.floor(rows.length / 400));
  const sample: number[] = [];
  for (let i = 0; i < rows.length; i += stride) sample.push(values[rows[i]!]!);
  return Float64Array.from(sample);
}

/** For a feature with too few differences: the usual sigma of the part as a share of tolerance, or as it is. */
function usualSigma(
  found: readonly { feature: MeasuredFeature; sigma: number | null }[],
): (feature: MeasuredFeature) => number {
  const known = found.filter((one) => one.sigma !== null) as { feature: MeasuredFeature; sigma: number }[];
  if (known.length === 0) return () => 0;
  const plain = middleOf(known.map(({ sigma }) => sigma));
  const shares = known.flatMap(({ feature, sigma }) => {
    const width = toleranceWidth(feature);
    return width === null ? [] : [sigma / width];
  });
  const share = shares.length === 0 ? null : middleOf(shares);
  return (feature) => {
    const width = toleranceWidth(feature);
    return share === null || width === null ? plain : share * width;
  };
}

export function toleranceWidth({ lower, upper }: MeasuredFeature): number | null {
  return lower === null || upper === null || !(upper > lower) ? null : upper - lower;
}

class DesignGroups {
  readonly all: Design[] = [];
  private readonly known = new Map<string, number[]>();

  constructor(
    private readonly table: PieceTable,
    private readonly lives: readonly ToolLife[],
  ) {}

  /** The design of feature j of the table, which is number `position` of those kept. */
  of(rows: Int32Array, j: number, position: number): number {
    const { toolOf, gaugeOf } = this.table;
    const key = `${toolOf[j]}|${gaugeOf[j]}|${rows.length}`;
    const candidates = this.known.get(key) ?? [];
    for (const candidate of candidates) {
      const design = this.all[candidate]!;
      if (isSame(design.rows, rows)) {
        design.features.push(position);
        return candidate;
      }
    }
    const onSameRows = this.all.filter((other) => isSame(other.rows, rows));
    const own = { tool: toolOf[j]!, gauge: gaugeOf[j]!, life: this.lives[toolOf[j]!]! };
    const design = designOn(this.table, onSameRows[0] ?? rowsOf(this.table, rows), own, onSameRows);
    design.features.push(position);
    const index = this.all.push(design) - 1;
    this.known.set(key, [...candidates, index]);
    return index;
  }
}

type OfRows = Pick<
  Design,
  | "rows"
  | "strata"
  | "lotOf"
  | "cellOf"
  | "cellLot"
  | "cellFixture"
  | "fixture"
  | "machine"
  | "operator"
  | "setup"
  | "temperature"
  | "pairs"
>;

/** What follows from the rows alone. */
function rowsOf(table: PieceTable, rows: Int32Array): OfRows {
  const column = (levels: Levels): LevelColumn => ({ levels, of: levelsOn(levels.of, rows) });
  const lotOf = levelsOn(table.lotOf, rows);
  const fixture = column(table.levels.fixture);
  const strata = stratify(lotOf, fixture.of, table.lots);
  return {
    rows,
    ...strata,
    lotOf,
    fixture,
    machine: column(table.levels.machine),
    operator: column(table.levels.operator),
    setup: column(table.levels.setup),
    temperature: valuesOn(table.temperature, rows),
    pairs: cellPairs(strata),
  };
}

function levelsOn(of: Int32Array, rows: Int32Array): Int32Array {
  const out = new Int32Array(rows.length);
  for (let i = 0; i < out.length; i++) out[i] = of[rows[i]!]!;
  return out;
}

function designOn(
  table: PieceTable,
  ofRows: OfRows,
  { tool, gauge, life }: { tool: number; gauge: number; life: ToolLife },
  onSameRows: readonly Design[],
): Design {
  const { rows } = ofRows;
  const [levels, toolLevels] = [table.gauges[gauge]!, table.tools[tool]!];
  const gaugeColumn = onSameRows.find((other) => other.gauge.levels === levels)?.gauge ?? {
    levels,
    of: levelsOn(levels.of, rows),
  };
  const toolColumn = {
    levels: toolLevels,
    of: levelsOn(toolLevels.of, rows),
    life: levelsOn(life.life, rows),
    age: valuesOn(life.age, rows),
    edgeOf: life.edgeOf,
    longest: life.longest,
  };
  const own = staticGroups({ ...ofRows, gauge: gaugeColumn, tool: toolColumn });
  const known = onSameRows.find(({ statics }) => isSameGroups(statics, own));
  // Written out, so that all designs have one shape for the compiler, which reads them everywhere.
  return {
    rows,
    strata: ofRows.strata,
    lotOf: ofRows.lotOf,
    cellOf: ofRows.cellOf,
    cellLot: ofRows.cellLot,
    cellFixture: ofRows.cellFixture,
    fixture: ofRows.fixture,
    machine: ofRows.machine,
    operator: ofRows.operator,
    setup: ofRows.setup,
    gauge: gaugeColumn,
    tool: toolColumn,
    temperature: ofRows.temperature,
    statics: known?.statics ?? own,
    columns: known?.columns ?? columnsOf(ofRows.strata, own, []),
    pairs: ofRows.pairs,
    features: [],
  };
}

function isSameGroups(a: readonly StaticGroup[], b: readonly StaticGroup[]): boolean {
  return a.length === b.length && a.every(({ kind, of }, g) => kind === b[g]!.kind && isSame(of, b[g]!.of));
}

function stratify(lotOf: Int32Array, fixtureOf: Int32Array, lots: number) {
  const cellStart: number[] = [];
  const cellLot: number[] = [];
  const cellFixture: number[] = [];
  const cellOf = new Int32Array(lotOf.length);
  for (let i = 0; i < lotOf.length; i++) {
    if (i === 0 || lotOf[i] !== lotOf[i - 1] || fixtureOf[i] !== fixtureOf[i - 1]) {
      cellStart.push(i);
      cellLot.push(lotOf[i]!);
      cellFixture.push(fixtureOf[i]!);
    }
    cellOf[i] = cellStart.length - 1;
  }
  const cells = cellStart.length;
  const lotCells = new Int32Array(lots + 1);
  for (const lot of cellLot) lotCells[lot + 1]!++;
  for (let lot = 0; lot < lots; lot++) lotCells[lot + 1]! += lotCells[lot]!;
  const strata: Strata = {
    pieces: lotOf.length,
    lots,
    cells,
    cellStart: Int32Array.from([...cellStart, lotOf.length]),
    lotCells,
  };
  return { strata, cellOf, cellLot: Int32Array.from(cellLot), cellFixture: Int32Array.from(cellFixture) };
}

function staticGroups(design: Omit<Design, "statics" | "columns" | "features">): StaticGroup[] {
  const groups: StaticGroup[] = [{ kind: null, of: new Int32Array(design.rows.length), count: 1 }];
  for (const kind of ["fixture", "operator", "machine", "setup", "gauge", "tool"] as const) {
    const { levels, of } = design[kind];
    const present = presentLevels(levels, of);
    const own =
      kind === "setup"
        ? present.filter((level) => lotsOf(design, of, level) >= LEAST_LOTS_OF_SETUP)
        : present;
    const hasOthers = own.length < present.length || of.includes(-1);
    const columns = hasOthers ? own : own.slice(1);
    if (columns.length > 0) groups.push({ kind, ...indicatorsOf(of, columns) });
  }
  return groups;
}

/** One indicator column for each of the levels given. */
export function indicatorsOf(of: Int32Array, levels: readonly number[]): IndicatorGroup {
  // By level, and one place more for −1.
  const place = new Int32Array(2 + levels.reduce((a, b) => Math.max(a, b), -1)).fill(-1);
  for (const [column, level] of levels.entries()) place[level + 1] = column;
  return { of: of.map((level) => place[level + 1] ?? -1), count: levels.length };
}

function lotsOf({ lotOf }: Pick<Design, "lotOf">, of: Int32Array, level: number): number {
  const lots = new Set<number>();
  for (let i = 0; i < of.length; i++) if (of[i] === level) lots.add(lotOf[i]!);
  return lots.size;
}
