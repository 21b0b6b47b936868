import type { PartNumber } from "./feature";
import { PIECES_A_LOT } from "./lots";

export type DemoTool = {
  code: string;
  notes: string;
  part: PartNumber;
  /** Lots that one edge cuts, and the index of the first lot that begins with a new edge. */
  life: number;
  firstChange: number;
};

export const TOOLS: DemoTool[] = [
  { code: "T-101", notes: "Face mill 125 mm", part: "H-210", life: 26, firstChange: 12 },
  {
    code: "T-104",
    notes: "Finishing boring bar, bores 52 to 80 mm",
    part: "H-210",
    life: 20,
    firstChange: 7,
  },
  { code: "T-107", notes: "Drill and groove tool", part: "H-210", life: 31, firstChange: 19 },
  { code: "T-110", notes: "Reamer 12 mm", part: "H-210", life: 40, firstChange: 23 },
  { code: "T-112", notes: "Face mill 100 mm, aluminium", part: "H-320", life: 22, firstChange: 15 },
  {
    code: "T-114",
    notes: "Boring bar, bores 47 to 90 mm, aluminium",
    part: "H-320",
    life: 9,
    firstChange: 8,
  },
  { code: "T-118", notes: "Drill and slot mill, aluminium", part: "H-320", life: 18, firstChange: 6 },
  { code: "T-121", notes: "Boring head 52 mm", part: "BB-40", life: 14, firstChange: 9 },
  { code: "T-123", notes: "Face mill 80 mm", part: "BB-40", life: 21, firstChange: 16 },
  { code: "T-126", notes: "Drill 11 mm", part: "BB-40", life: 17, firstChange: 4 },
  { code: "T-130", notes: "Boring head 72 mm", part: "BB-62", life: 14, firstChange: 5 },
  { code: "T-133", notes: "Drill and mill set", part: "BB-62", life: 19, firstChange: 11 },
];

/** Which edge cuts a lot, and how much of a full life it has behind it at a piece (0 to 9). */
export function edgeOf(tool: DemoTool, lot: { index: number }, piece: number): { edge: number; age: number } {
  const since = lot.index - tool.firstChange;
  const edge = Math.floor(since / tool.life);
  const lotsBehind = since - edge * tool.life;
  return { edge: edge + 2, age: (lotsBehind + piece / PIECES_A_LOT) / tool.life };
}

/** Whether the lot begins with a new edge. */
export function beginsWithNewEdge(tool: DemoTool, lot: { index: number }): boolean {
  return lot.index >= tool.firstChange && (lot.index - tool.firstChange) % tool.life === 0;
}
