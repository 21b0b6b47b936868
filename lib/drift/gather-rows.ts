import { isAlike } from "../measurements/alike";
import type { LotWindow } from "./lots";
import { type MeasuredFeature, type MeasuredPart, PIECE_KINDS, type PieceKind } from "./measured-part";

/** Rows (pieces) with what holds for the whole piece, and where each feature's measurements went. */
export type RowBlock = {
  lot: number[];
  takenAt: number[];
  temperature: number[];
  ids: Record<PieceKind, number[]>;
  /** Measurement at[k] of the feature's series stands on row rows[k]. */
  features: { feature: MeasuredFeature; at: Int32Array; rows: Int32Array }[];
};

type OpenBlock = RowBlock & { rowOf: Map<number, number> };

/** A file may name another operator for the odd measurement of a piece; beyond this it is another setting. */
const TOLERATED_CONFLICTS = 0.01;

/**
 * Brings the measurements of a part's features together piece by piece.
 *
 * A piece is known by its lot and serial, and by how often the feature was measured on it before; without a
 * serial the k-th measurement of a fixture in a lot is taken to be the same piece for every feature.
 */
export function gatherRows(part: MeasuredPart, window: LotWindow): RowBlock[] {
  const blocks: OpenBlock[] = [];
  for (const feature of part.features) {
    const twin = twinOf(feature, blocks);
    if (twin !== null) {
      twin.block.features.push({ feature, at: twin.like.at, rows: twin.like.rows });
      continue;
    }
    const { at, keys, lots } = pieceKeys(feature, window);
    if (at.length === 0) continue;
    let block = blocks.find((candidate) => agrees(candidate, feature, at, keys));
    if (block === undefined) {
      block = openBlock();
      blocks.push(block);
    }
    place(block, feature, { at, keys, lots });
  }
  return blocks;
}

/** What says on which piece a measurement was taken, and what holds for that piece. */
const PIECE_COLUMNS = ["lot", "piece", "takenAt", "partTemp", ...PIECE_KINDS] as const;

/** Most features are measured on the very pieces of the one before; they need not be laid out anew. */
function twinOf(
  { series }: MeasuredFeature,
  blocks: readonly OpenBlock[],
): { block: OpenBlock; like: RowBlock["features"][number] } | null {
  if (!isComplete(series.value)) return null;
  for (const block of blocks) {
    const like = block.features.at(-1);
    if (like === undefined || !isComplete(like.feature.series.value)) continue;
    const other = like.feature.series;
    if (PIECE_COLUMNS.every((column) => isAlike(series[column], other[column]))) return { block, like };
  }
  return null;
}

function isComplete(values: Float64Array): boolean {
  for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i])) return false;
  return true;
}

function openBlock(): OpenBlock {
  const ids = Object.fromEntries(PIECE_KINDS.map((kind) => [kind, [] as number[]]));
  return {
    lot: [],
    takenAt: [],
    temperature: [],
    ids: ids as Record<PieceKind, number[]>,
    features: [],
    rowOf: new Map(),
  };
}

function pieceKeys({ series }: MeasuredFeature, window: LotWindow) {
  const at: number[] = [];
  const keys: number[] = [];
  const lots: number[] = [];
  const seen = new Map<number, number>();
  for (let i = 0; i < series.count; i++) {
    const lot = window.byTime === null ? window.indexOf(series.lot[i]!) : window.byTime(series.takenAt[i]!);
    if (lot < 0 || !Number.isFinite(series.value[i])) continue;
    const piece = series.piece[i]!;
    // Lots number at most a few hundred, ids stay below 2³²: the key is a whole number below 2⁵³.
    const base =
      piece !== 0 ? lot * 2 ** 33 + piece : lot * 2 ** 33 + 2 ** 32 + (series.fixture[i]! % 2 ** 20);
    const before = seen.get(base) ?? 0;
    seen.set(base, before + 1);
    at.push(i);
    keys.push(before === 0 ? base : -(base * 1024 + Math.min(before, 1023)));
    lots.push(lot);
  }
  return { at, keys, lots };
}

function agrees(
  block: OpenBlock,
  { series }: MeasuredFeature,
  at: readonly number[],
  keys: readonly number[],
): boolean {
  let conflicts = 0;
  for (let k = 0; k < keys.length; k++) {
    const row = block.rowOf.get(keys[k]!);
    if (row === undefined) continue;
    for (const kind of PIECE_KINDS) {
      const known = block.ids[kind][row]!;
      const here = series[kind][at[k]!]!;
      if (known !== 0 && here !== 0 && known !== here) {
        conflicts++;
        break;
      }
    }
  }
  return conflicts <= TOLERATED_CONFLICTS * keys.length;
}

function place(
  block: OpenBlock,
  feature: MeasuredFeature,
  { at, keys, lots }: { at: readonly number[]; keys: readonly number[]; lots: readonly number[] },
): void {
  const { series } = feature;
  const rows = new Int32Array(at.length);
  for (let k = 0; k < at.length; k++) {
    const i = at[k]!;
    let row = block.rowOf.get(keys[k]!);
    if (row === undefined) {
      row = block.lot.push(lots[k]!) - 1;
      block.rowOf.set(keys[k]!, row);
      block.takenAt.push(series.takenAt[i]!);
      block.temperature.push(series.partTemp[i]!);
      for (const kind of PIECE_KINDS) block.ids[kind].push(series[kind][i]!);
    } else {
      for (const kind of PIECE_KINDS) {
        if (block.ids[kind][row] === 0) block.ids[kind][row] = series[kind][i]!;
      }
      if (Number.isNaN(block.temperature[row])) block.temperature[row] = series.partTemp[i]!;
    }
    rows[k] = row;
  }
  block.features.push({ feature, at: Int32Array.from(at), rows });
}
