import type { Slot } from "./calendar";
import { SHIFTS_A_WEEK, SHIFTS_MONDAY_TO_FRIDAY, WEEKS } from "./calendar";
import type { PartNumber } from "./feature";

export const PIECES_A_LOT = 10;

/** Pieces that follow one another in one fixture: a rational subgroup. */
export const PIECES_A_BLOCK = 5;

export type LineName = "A" | "B";

export type DemoLot = {
  code: string;
  part: PartNumber;
  line: LineName;
  machine: string;
  /** Counts the lots of its part from 0. */
  index: number;
  slot: Slot;
  /** Minutes from the start of the shift to the first piece, and from piece to piece. */
  startsAfter: number;
  every: number;
  /** Fixture of pieces 1 to 5 and of pieces 6 to 10. */
  fixtures: readonly [string, string];
  operator: string;
};

/** The foundry numbers castings by pattern: the first digit of a lot number tells the part. */
const FIRST_NUMBER: Record<PartNumber, number> = { "H-210": 21, "H-320": 2001, "BB-40": 4001, "BB-62": 6001 };
const MACHINE: Record<PartNumber, string> = {
  "H-210": "M-1",
  "H-320": "M-2",
  "BB-40": "M-3",
  "BB-62": "M-4",
};

/**
 * Every lot of the thirteen weeks, in order of shift. H-210 runs in every shift; H-320 joins it on line A
 * in every second shift from Monday to Friday; line B turns out both brackets in turn in the same days.
 */
export function demoLots(): DemoLot[] {
  const lots: DemoLot[] = [];
  const made = new Map<PartNumber, number>();

  function add(part: PartNumber, slot: Slot) {
    const index = made.get(part) ?? 0;
    made.set(part, index + 1);
    const line: LineName = part.startsWith("H-") ? "A" : "B";
    lots.push({
      code: lotCode(part, index),
      part,
      line,
      machine: MACHINE[part],
      index,
      slot,
      startsAfter: part === "H-320" ? 135 : 50,
      every: part === "H-210" ? 19 : 23,
      fixtures: fixturesOf(part, index),
      operator: operatorAt(line, slot),
    });
  }

  for (let week = 0; week < WEEKS; week++) {
    for (let shift = 0; shift < SHIFTS_A_WEEK; shift++) {
      const slot = { week, shift };
      add("H-210", slot);
      if (shift >= SHIFTS_MONDAY_TO_FRIDAY) continue;
      const even = (week * SHIFTS_MONDAY_TO_FRIDAY + shift) % 2 === 0;
      if (even) add("H-320", slot);
      add(even ? "BB-40" : "BB-62", slot);
    }
  }
  return lots;
}

export function lotCode(part: PartNumber, index: number): string {
  return `L-${String(FIRST_NUMBER[part] + index).padStart(4, "0")}`;
}

/** FX-2 stays on the second pallet of M-1; FX-1 and FX-3 take turns on the first, and also carry H-320. */
function fixturesOf(part: PartNumber, index: number): readonly [string, string] {
  if (part === "H-210") return [index % 2 === 0 ? "FX-1" : "FX-3", "FX-2"];
  if (part === "H-320") return index % 2 === 0 ? ["FX-1", "FX-3"] : ["FX-3", "FX-1"];
  return ["FX-4", "FX-4"];
}

/** Three people take turns on line A and two on line B, moving on by one shift every week. */
function operatorAt(line: LineName, { week, shift }: Slot): string {
  return line === "A" ? `OP-${1 + ((shift + week) % 3)}` : `OP-${4 + ((shift + week) % 2)}`;
}
