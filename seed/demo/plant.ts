import type { SourceKind } from "../../lib/measurements/series";
import { BORING_BAR, GAUGE } from "../truth";
import { BB_40, BB_62 } from "./brackets";
import type { Calendar, Slot } from "./calendar";
import { WEEKS } from "./calendar";
import { ALUMINIUM, CAST_IRON, type DemoFeature, type PartNumber } from "./feature";
import { H_210, H_320 } from "./housings";
import { type DemoLot, demoLots, type LineName } from "./lots";
import { beginsWithNewEdge, TOOLS } from "./tools";

export const PLANT_NAME = "Baler drive works (demo)";

export type DemoPart = {
  number: PartNumber;
  revision: string;
  name: string;
  line: LineName;
  material: string;
  /** Per kelvin. */
  expansion: number;
};

export const PARTS: DemoPart[] = [
  {
    number: "H-210",
    revision: "C",
    name: "Gearbox housing",
    line: "A",
    material: "grey cast iron",
    expansion: CAST_IRON,
  },
  {
    number: "H-320",
    revision: "B",
    name: "Light gearbox housing",
    line: "A",
    material: "cast aluminium",
    expansion: ALUMINIUM,
  },
  {
    number: "BB-40",
    revision: "A",
    name: "Bearing bracket 52",
    line: "B",
    material: "grey cast iron",
    expansion: CAST_IRON,
  },
  {
    number: "BB-62",
    revision: "D",
    name: "Bearing bracket 72",
    line: "B",
    material: "grey cast iron",
    expansion: CAST_IRON,
  },
];

export const FEATURES: DemoFeature[] = [...H_210, ...H_320, ...BB_40, ...BB_62];

export type DemoSource = { kind: SourceKind; code: string; notes: string };

export const GAUGES = ["GA-1", "GA-2", "GA-3"] as const;

/** The portable arm GA-3 is set up anew every Monday: one setup a week. */
export function setupOfWeek(week: number): string {
  return `SU-${String(week + 1).padStart(2, "0")}`;
}

export const SOURCES: DemoSource[] = [
  { kind: "fixture", code: "FX-1", notes: "H-210 and H-320, first pallet" },
  { kind: "fixture", code: "FX-2", notes: "H-210, second pallet of M-1; locates seven features on two pins" },
  { kind: "fixture", code: "FX-3", notes: "H-210 and H-320, first pallet" },
  { kind: "fixture", code: "FX-4", notes: "Both brackets" },
  ...TOOLS.map(({ code, notes }) => ({ kind: "tool" as const, code, notes })),
  { kind: "machine", code: "M-1", notes: "Machining centre, two pallets, H-210" },
  { kind: "machine", code: "M-2", notes: "Machining centre, H-320" },
  { kind: "machine", code: "M-3", notes: "Machining centre, BB-40" },
  { kind: "machine", code: "M-4", notes: "Machining centre, BB-62" },
  { kind: "gauge", code: "GA-1", notes: "Coordinate measuring machine beside the lines" },
  { kind: "gauge", code: "GA-2", notes: "Bench station of line B, set with a master ring" },
  { kind: "gauge", code: "GA-3", notes: "Portable measuring arm, set up every Monday" },
  ...["OP-1", "OP-2", "OP-3", "OP-4", "OP-5"].map((code) => ({ kind: "operator" as const, code, notes: "" })),
  ...Array.from({ length: WEEKS }, (_, week) => ({
    kind: "setup" as const,
    code: setupOfWeek(week),
    notes: "GA-3",
  })),
];

export type DemoSourceEvent = {
  source: { kind: SourceKind; code: string };
  at: number;
  kind: "changed" | "repaired" | "adjusted" | "calibrated" | "moved";
  note: string;
};

/** What the shop logged, in time order. Nothing was logged at FX-2 when its pin began to wear. */
export function sourceEvents(calendar: Calendar): DemoSourceEvent[] {
  const logged: [SourceKind, string, Slot, DemoSourceEvent["kind"], string][] = [
    ["fixture", "FX-2", { week: 0, shift: 0 }, "adjusted", "Requalified with the master housing"],
    ["machine", "M-3", { week: 3, shift: 3 }, "repaired", "Coolant pump renewed"],
    [
      "gauge",
      "GA-1",
      { week: 4, shift: 0 },
      "calibrated",
      "Interim check with the step gauge, no correction",
    ],
    ["fixture", "FX-1", { week: 6, shift: 9 }, "repaired", "Clamp seal renewed"],
    ["gauge", "GA-2", GAUGE.from, "calibrated", "Calibration, new master ring entered"],
    [
      "gauge",
      "GA-2",
      GAUGE.until,
      "adjusted",
      "Value of the master ring corrected after a comparison with GA-1",
    ],
    ["machine", "M-1", { week: 10, shift: 0 }, "adjusted", "Spindle lubrication serviced"],
    [
      "gauge",
      "GA-1",
      { week: 11, shift: 0 },
      "calibrated",
      "Interim check with the step gauge, no correction",
    ],
  ];
  const setups = Array.from({ length: WEEKS }, (_, week) => ({
    source: { kind: "gauge" as const, code: "GA-3" },
    at: calendar.at({ week, shift: 0 }, -25),
    kind: "moved" as const,
    note: `Set up anew: ${setupOfWeek(week)}`,
  }));

  const events = [
    ...logged.map(([kind, code, slot, event, note]) => ({
      source: { kind, code },
      at: calendar.at(slot, -15),
      kind: event,
      note,
    })),
    ...setups,
    ...demoLots().flatMap((lot) => toolChanges(lot, calendar)),
  ];
  return events.sort((a, b) => a.at - b.at);
}

function toolChanges(lot: DemoLot, calendar: Calendar): DemoSourceEvent[] {
  return TOOLS.filter((tool) => tool.part === lot.part && beginsWithNewEdge(tool, lot)).map((tool) => ({
    source: { kind: "tool", code: tool.code },
    at: calendar.at(lot.slot, lot.startsAfter - 10),
    kind: "changed",
    note:
      tool.code === BORING_BAR.tool && lot.index === BORING_BAR.firstLot
        ? "New edge; inserts from a second supplier from here on"
        : "New edge",
  }));
}
