/** How a shop runs: what the scan has to cope with. */
export type Layout = {
  parts: number;
  features: number;
  lots: number;
  pieces: readonly [number, number];
  fixtures: number;
  tools: number;
  /** Fixtures in a lot: all, a changing few, or one. */
  inLot: "all" | "some" | "one";
  /** The last fixture is always measured with a gauge of its own. */
  pinned?: boolean;
};

export const LAYOUTS = {
  rotate: { parts: 1, features: 40, lots: 30, pieces: [10, 16], fixtures: 4, tools: 6, inLot: "all" },
  unbalanced: { parts: 1, features: 50, lots: 36, pieces: [6, 20], fixtures: 5, tools: 8, inLot: "some" },
  onefix: { parts: 1, features: 36, lots: 40, pieces: [6, 12], fixtures: 3, tools: 6, inLot: "one" },
  twoparts: { parts: 2, features: 30, lots: 36, pieces: [8, 14], fixtures: 3, tools: 6, inLot: "some" },
  small: { parts: 1, features: 30, lots: 16, pieces: [5, 8], fixtures: 2, tools: 4, inLot: "all" },
  wide: { parts: 1, features: 110, lots: 24, pieces: [8, 14], fixtures: 4, tools: 12, inLot: "some" },
  confounded: {
    parts: 1,
    features: 40,
    lots: 30,
    pieces: [9, 15],
    fixtures: 3,
    tools: 6,
    inLot: "all",
    pinned: true,
  },
} as const satisfies Record<string, Layout>;

export type LayoutName = keyof typeof LAYOUTS;
export const LAYOUT_NAMES = Object.keys(LAYOUTS) as LayoutName[];

export const FAULTS = [
  "fixture_step",
  "fixture_drift",
  "fixture_spread",
  "tool_wear",
  "tool_wear_rate",
  "tool_offset",
  "gauge_step",
  "gauge_drift",
  "temperature",
  "operator_step",
  "lot_shift",
] as const;
export type Fault = (typeof FAULTS)[number];
