import { isAlike } from "../measurements/alike";
import type { SourceKind } from "../measurements/series";
import { gatherRows, type RowBlock } from "./gather-rows";
import { formLots } from "./lots";
import type { CodeOf, MeasuredFeature, MeasuredPart, PieceKind, SourceEvent } from "./measured-part";
import { inGroups, risingOrder } from "./order";
import { readToolCode } from "./tool-code";

/**
 * Which level of a kind of source each row has, −1 where it is not stated.
 *
 * A source whose history an event split has one level before the event and another after it, both with its
 * code; only the latest is `live`, that is, watched for change.
 */
export type Levels = { codes: string[]; live: boolean[]; of: Int32Array };

/** The levels that occur on some rows, in order. */
export function presentLevels({ codes }: Levels, of: Int32Array): number[] {
  const isIn = new Uint8Array(codes.length);
  for (let i = 0; i < of.length; i++) if (of[i]! >= 0) isIn[of[i]!] = 1;
  return codes.flatMap((_, level) => (isIn[level] === 1 ? [level] : []));
}

/** Levels of tools, with what tells one edge of a tool from the next: equal marks are the same edge. */
export type ToolLevels = Levels & { mark: Int32Array };

/** A mark is edge number × this + logged changes, so that both read off it. */
export const CHANGES_PER_EDGE = 4096;

/**
 * The pieces of one part, sorted by lot, then fixture, then time, with every feature measured on them.
 *
 * `values[j][i]` is feature j on row i, NaN where it was not measured. Features whose measurements name
 * different fixtures, machines or operators for the same piece stand in tables of their own.
 */
export type PieceTable = {
  part: string;
  features: MeasuredFeature[];
  pieces: number;
  lots: number;
  lotCodes: string[];
  /** Time of the first measurement of each lot. */
  lotAt: Float64Array;
  lotOf: Int32Array;
  takenAt: Float64Array;
  /** Rows in the order in which they were measured. */
  inTime: Int32Array;
  temperature: Float64Array;
  levels: Record<PieceKind, Levels>;
  /** Column of each feature. */
  toolOf: number[];
  tools: ToolLevels[];
  gaugeOf: number[];
  gauges: Levels[];
  values: Float64Array[];
};

/**
 * Lays a part's measurements out for the scan: its last `windowLots` lots.
 *
 * @returns one table for each set of features that share fixture, machine and operator piece by piece
 */
export function pieceTables(
  part: MeasuredPart,
  { codeOf, events, windowLots }: { codeOf: CodeOf; events: readonly SourceEvent[]; windowLots: number },
): PieceTable[] {
  const window = formLots(part, { codeOf, windowLots });
  return gatherRows(part, window).map((block) =>
    tableOf(part.part, block, window.codes, levelMaker(codeOf, events)),
  );
}

function tableOf(
  part: string,
  block: RowBlock,
  lotCodes: readonly string[],
  makeLevels: LevelMaker,
): PieceTable {
  const used = [...new Set(block.lot)].sort((a, b) => a - b);
  const place = new Map(used.map((lot, index) => [lot, index]));
  const lotPlace = Int32Array.from(block.lot, (lot) => place.get(lot)!);
  const fixtures = [...new Set(block.ids.fixture)].sort((a, b) => a - b);
  const fixturePlace = new Map(fixtures.map((id, index) => [id, index]));
  const byFixture = inGroups(
    risingOrder(block.takenAt),
    block.ids.fixture.map((id) => fixturePlace.get(id)!),
    fixtures.length,
  );
  // By lot, then fixture, then time.
  const order = inGroups(byFixture, lotPlace, used.length);
  const rowAt = new Int32Array(order.length);
  for (let i = 0; i < order.length; i++) rowAt[order[i]!] = i;
  const sorted = (column: readonly number[]) => {
    const out = new Float64Array(order.length);
    for (let i = 0; i < out.length; i++) out[i] = column[order[i]!]!;
    return out;
  };
  const lotOf = Int32Array.from(order, (row) => lotPlace[row]!);
  const takenAt = sorted(block.takenAt);
  const lotAt = new Float64Array(used.length).fill(Number.POSITIVE_INFINITY);
  for (let i = 0; i < order.length; i++) lotAt[lotOf[i]!] = Math.min(lotAt[lotOf[i]!]!, takenAt[i]!);

  const clock: Clock = { takenAt, inTime: risingOrder(takenAt) };
  const tools = new DistinctColumns(order.length);
  const gauges = new DistinctColumns(order.length);
  const values: Float64Array[] = [];
  const toolOf: number[] = [];
  const gaugeOf: number[] = [];
  let places: Places = { at: NO_ROWS, rows: NO_ROWS, to: NO_ROWS };
  for (const { feature, at, rows } of block.features) {
    // Features that were measured on the same pieces have `at` and `rows` in common.
    if (places.at !== at || places.rows !== rows) places = { at, rows, to: rows.map((row) => rowAt[row]!) };
    values.push(laidOut(feature.series.value, places, new Float64Array(order.length).fill(Number.NaN)));
    toolOf.push(tools.add(feature.series.tool, places));
    gaugeOf.push(gauges.add(feature.series.gauge, places));
  }
  return {
    part,
    features: block.features.map(({ feature }) => feature),
    pieces: order.length,
    lots: used.length,
    lotCodes: used.map((lot) => lotCodes[lot]!),
    lotAt,
    lotOf,
    takenAt,
    inTime: clock.inTime,
    temperature: sorted(block.temperature),
    levels: {
      fixture: makeLevels.piece("fixture", sorted(block.ids.fixture), clock),
      machine: makeLevels.piece("machine", sorted(block.ids.machine), clock),
      operator: makeLevels.piece("operator", sorted(block.ids.operator), clock),
      setup: makeLevels.piece("setup", sorted(block.ids.setup), clock),
    },
    toolOf,
    tools: tools.columns.map((ids) => makeLevels.tool(ids, clock)),
    gaugeOf,
    gauges: gauges.columns.map((ids) => makeLevels.piece("gauge", ids, clock)),
    values,
  };
}

/** Measurement at[k] of a series stands on row to[k] of the table. */
type Places = { at: Int32Array; rows: Int32Array; to: Int32Array };

const NO_ROWS = new Int32Array(0);

function laidOut(from: ArrayLike<number>, { at, to }: Places, out: Float64Array): Float64Array {
  for (let k = 0; k < to.length; k++) out[to[k]!] = from[at[k]!]!;
  return out;
}

/** Most features of a part share their tool and gauge columns; each distinct one is kept once. */
class DistinctColumns {
  readonly columns: Float64Array[] = [];
  /** What each was laid out from the first time: the same on the same places is the same column. */
  private readonly laidOut: { ids: Uint32Array; places: Places }[] = [];

  constructor(private readonly length: number) {}

  add(ids: Uint32Array, places: Places): number {
    const before = this.laidOut.findIndex((one) => one.places === places && isAlike(one.ids, ids));
    if (before !== -1) return before;
    const column = laidOut(ids, places, new Float64Array(this.length));
    const known = this.columns.findIndex((other) => isAlike(other, column));
    if (known !== -1) return known;
    this.laidOut.push({ ids, places });
    return this.columns.push(column) - 1;
  }
}

/** When each row was measured, and the rows in that order. */
type Clock = { takenAt: Float64Array; inTime: Int32Array };

type LevelMaker = {
  piece(kind: SourceKind, ids: Float64Array, clock: Clock): Levels;
  tool(ids: Float64Array, clock: Clock): ToolLevels;
};

function levelMaker(codeOf: CodeOf, events: readonly SourceEvent[]): LevelMaker {
  return {
    piece(kind, ids, clock) {
      const codes = new Map<number, string>();
      const codeAt = (id: number) => {
        let code = codes.get(id);
        if (code === undefined) {
          code = codeOf(kind, id);
          codes.set(id, code);
        }
        return code;
      };
      return splitLevels(
        Array.from(ids, (id) => (id === 0 ? null : codeAt(id))),
        clock,
        splitsOf(events, kind),
      );
    },
    tool(ids, clock) {
      const read = new Map<number, ReturnType<typeof readToolCode>>();
      const toolAt = (id: number) => {
        let tool = read.get(id);
        if (tool === undefined) {
          tool = readToolCode(codeOf("tool", id));
          read.set(id, tool);
        }
        return tool;
      };
      const levels = splitLevels(
        Array.from(ids, (id) => (id === 0 ? null : toolAt(id).position)),
        clock,
        splitsOf(events, "tool", (event) => event !== "changed"),
      );
      const changes = splitsOf(events, "tool", (event) => event === "changed");
      return { ...levels, mark: marksOf(levels, ids, clock.takenAt, (id) => toolAt(id).edge, changes) };
    },
  };
}

function splitsOf(
  events: readonly SourceEvent[],
  kind: SourceKind,
  counts: (event: SourceEvent["event"]) => boolean = () => true,
): Map<string, number[]> {
  const splits = new Map<string, number[]>();
  for (const { source, at, kind: of, event } of events) {
    if (of === kind && counts(event)) splits.set(source, [...(splits.get(source) ?? []), at]);
  }
  for (const times of splits.values()) times.sort((a, b) => a - b);
  return splits;
}

/** How many events lie at or before a time. */
function eventsBefore(times: readonly number[] | undefined, at: number): number {
  return times === undefined ? 0 : times.filter((time) => time <= at).length;
}

function splitLevels(
  codes: readonly (string | null)[],
  { takenAt, inTime }: Clock,
  splits: ReadonlyMap<string, number[]>,
): Levels {
  /** By code, the level of each stretch between events. */
  const found = new Map<string, number[]>();
  const levels: Levels = { codes: [], live: [], of: new Int32Array(codes.length).fill(-1) };
  for (const i of inTime) {
    const code = codes[i];
    if (code === null || code === undefined) continue;
    const times = splits.get(code);
    const epoch = eventsBefore(times, takenAt[i]!);
    let stretches = found.get(code);
    if (stretches === undefined) {
      stretches = [];
      found.set(code, stretches);
    }
    let level = stretches[epoch];
    if (level === undefined) {
      level = levels.codes.push(code) - 1;
      // Since an event behind the last measurement nothing is known of it yet.
      levels.live.push(epoch === (times?.length ?? 0));
      stretches[epoch] = level;
    }
    levels.of[i] = level;
  }
  return levels;
}

/**
 * Marks by which one edge of a tool is told from the next: the edge number as written, and how many changes
 * were logged before. −1 where neither says anything.
 */
function marksOf(
  levels: Levels,
  ids: Float64Array,
  takenAt: Float64Array,
  edgeAt: (id: number) => number | null,
  changes: ReadonlyMap<string, number[]>,
): Int32Array {
  const marks = new Int32Array(ids.length).fill(-1);
  for (let i = 0; i < ids.length; i++) {
    const level = levels.of[i]!;
    if (level < 0) continue;
    const edge = edgeAt(ids[i]!);
    const times = changes.get(levels.codes[level]!);
    if (edge === null && times === undefined) continue;
    marks[i] = (edge ?? 0) * CHANGES_PER_EDGE + eventsBefore(times, takenAt[i]!);
  }
  return marks;
}
