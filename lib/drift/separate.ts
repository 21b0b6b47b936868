import type { Design } from "./design";
import { type ScannedSource, sourceKey } from "./measured-part";
import type { Finding, Rival } from "./scan";
import type { TableScan } from "./scan-table";

/** How many pieces ran on each pair of levels of two kinds of source, since the change and before it. */
export type CrossTable = {
  rows: ScannedSource[];
  columns: ScannedSource[];
  since: number[][];
  before: number[][];
};

/**
 * The run that would tell two sources apart. "pair": `pieces` pieces on these two together, a pair that has not
 * been seen since the change. "check-piece": neither can be swapped; measure a known piece with another gauge.
 */
export type SuggestedRun =
  | { run: "pair"; sources: [ScannedSource, ScannedSource]; pieces: number }
  | { run: "check-piece"; gauge: ScannedSource | null; pieces: number };

export type Separation = { table: CrossTable | null; suggested: SuggestedRun };

const LEAST_PIECES = 5;
/** A shift is told with three standard errors. */
const CLEARNESS = 3;
const MOST_PIECES = 30;

/** What it costs to bring a piece to another source of the kind; the smaller the easier. Common practice, no source. */
const COST: Partial<Record<ScannedSource["kind"], number>> = {
  gauge: 1,
  operator: 2,
  setup: 2,
  tool: 3,
  fixture: 4,
  machine: 5,
};

/**
 * How to separate the source found from one that ran on the same pieces.
 *
 * The cross table of the two kinds shows which pairs were never made since the change; the cheapest missing pair
 * that holds one of the two and not the other is the run to make. Pieces: at least five, and so many that the shift
 * is three of its standard errors, (3/δ)² with δ in sigma.
 */
export function separate(finding: Finding, rival: Rival): Separation {
  const pieces = piecesFor(finding.effect);
  const place = finding.candidate.places[0];
  const scan = place === undefined ? undefined : finding.scans[place.table];
  if (place === undefined || scan === undefined || finding.kind === "spread") {
    return { table: null, suggested: { run: "check-piece", gauge: null, pieces } };
  }
  const hypothesis = scan.hypotheses.all[place.k]!;
  const [f] = scan.hypotheses.carriers[hypothesis.carrier]!.scope;
  const design = scan.prepared.designs[scan.prepared.features[f!]!.design]!;
  const table = crossTable(design, finding.source, rival.source, hypothesis.onset);
  const pair = table === null ? null : missingPair(table, finding.source, rival.source);
  if (pair !== null) return { table, suggested: { run: "pair", sources: pair, pieces } };
  return {
    table,
    suggested: { run: "check-piece", gauge: anotherGauge(scan, [finding.source, rival.source]), pieces },
  };
}

function piecesFor(effect: number | null): number {
  const needed = effect === null || effect === 0 ? MOST_PIECES : Math.ceil((CLEARNESS / effect) ** 2);
  return Math.min(MOST_PIECES, Math.max(LEAST_PIECES, needed));
}

function levelsOf(design: Design, { kind }: ScannedSource) {
  switch (kind) {
    case "lot":
    case "temperature":
    case "process":
      return null;
    default:
      return design[kind];
  }
}

function crossTable(design: Design, a: ScannedSource, b: ScannedSource, onset: number): CrossTable | null {
  const [first, second] = [levelsOf(design, a), levelsOf(design, b)];
  if (first === null || second === null) return null;
  const codes = (column: NonNullable<typeof first>) => [...new Set(column.levels.codes)].sort();
  const rows = codes(first);
  const columns = codes(second);
  const empty = () => rows.map(() => columns.map(() => 0));
  const table = { since: empty(), before: empty() };
  for (let i = 0; i < design.rows.length; i++) {
    const row = rows.indexOf(first.levels.codes[first.of[i]!] ?? "");
    const column = columns.indexOf(second.levels.codes[second.of[i]!] ?? "");
    if (row < 0 || column < 0) continue;
    table[design.lotOf[i]! >= onset ? "since" : "before"][row]![column]!++;
  }
  return {
    rows: rows.map((id) => ({ kind: a.kind, id })),
    columns: columns.map((id) => ({ kind: b.kind, id })),
    ...table,
  };
}

function missingPair(
  { rows, columns, since }: CrossTable,
  a: ScannedSource,
  b: ScannedSource,
): [ScannedSource, ScannedSource] | null {
  const row = rows.findIndex((one) => sourceKey(one) === sourceKey(a));
  const column = columns.findIndex((one) => sourceKey(one) === sourceKey(b));
  const uses = (r: number, c: number) => since[r]?.[c] ?? 0;
  const choices: { pair: [ScannedSource, ScannedSource]; cost: number; seen: number; use: number }[] = [];
  for (const [c, other] of columns.entries()) {
    if (c === column) continue;
    const use = since.reduce((sum, counts) => sum + counts[c]!, 0);
    choices.push({ pair: [a, other], cost: COST[b.kind] ?? 9, seen: uses(row, c), use });
  }
  for (const [r, other] of rows.entries()) {
    if (r === row) continue;
    const use = since[r]!.reduce((sum, count) => sum + count, 0);
    choices.push({ pair: [other, b], cost: COST[a.kind] ?? 9, seen: uses(r, column), use });
  }
  choices.sort((x, y) => x.seen - y.seen || x.cost - y.cost || y.use - x.use);
  return choices[0]?.pair ?? null;
}

function anotherGauge({ prepared }: TableScan, known: readonly ScannedSource[]): ScannedSource | null {
  for (const { codes } of prepared.table.gauges) {
    for (const id of codes) {
      const gauge: ScannedSource = { kind: "gauge", id };
      if (!known.some((one) => sourceKey(one) === sourceKey(gauge))) return gauge;
    }
  }
  return null;
}
