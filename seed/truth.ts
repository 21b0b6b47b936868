import type { SourceKind } from "../lib/measurements/series";
import type { PartNumber } from "./demo/feature";

/*
 * What was planted in the demo, as data. The generator reads it, the lesson page shows it (what it says of each stands
 * in lib/words, by its id), and the tests look for it in the rows. All amounts are in mm and hold for every endsAt,
 * because lots and shifts are counted back from it.
 */

export type FeatureRef = { part: PartNumber; feature: string };

export type PlantedFault = {
  id: "worn-locator" | "boring-bar-wear" | "gauge-jump" | "bad-casting-lot" | "hot-weekend";
  /** Null for what is no source of a measurement: castings and weather. */
  source: { kind: SourceKind; code: string } | null;
  /** First lot touched, and the first lot that is right again (null: still going on when the story stops). */
  since: string;
  until: string | null;
  /** Features that respond, each with its shift in mm at the fault's fullest; null where it depends on temperature and length. */
  moved: (FeatureRef & { shift: number | null })[];
  /** Features of the same source or part that do not respond. */
  untouched: FeatureRef[];
};

const onH210 = (feature: string): FeatureRef => ({ part: "H-210", feature });
const onH320 = (feature: string): FeatureRef => ({ part: "H-320", feature });
const onBB40 = (feature: string): FeatureRef => ({ part: "BB-40", feature });
const onBB62 = (feature: string): FeatureRef => ({ part: "BB-62", feature });

/** Shift of a piece in FX-2 = `step` + `perLot` × lots since the first one; 0.021 mm in L-0241, the last lot. */
export const LOCATOR = {
  fixture: "FX-2",
  part: "H-210",
  firstLot: 210,
  lastLot: 220,
  step: 0.001,
  perLot: 0.002,
  located: [
    "Input bore depth",
    "Output bore height above base",
    "Idler bore height above base",
    "Distance from mounting face to output bearing seat, square to the parting line",
    "Output bore position",
    "Parting face height",
    "Dowel hole position",
  ],
  moved: [
    "Input bore depth",
    "Output bore height above base",
    "Idler bore height above base",
    "Distance from mounting face to output bearing seat, square to the parting line",
    "Output bore position",
  ],
  /**
   * The first to meet its upper tolerance: after L-0241 its mean lies 38.000 + 0.021 + 0.021 and the limit is
   * 38.060, so 0.018 mm are left: 9 lots of 5 pieces in FX-2.
   */
  firstToMeetTolerance: { feature: "Input bore depth", piecesLeft: 45 },
} as const;

/** Wear over a full life of 90 pieces, before and from the change at which the supplier changed. Bores get smaller. */
export const BORING_BAR = {
  tool: "T-114",
  part: "H-320",
  firstLot: 71,
  wearBefore: 0.002,
  wearAfter: 0.009,
  bores: ["Input bearing bore diameter", "Output bearing bore diameter", "Pinion bore diameter"],
} as const;

/** Every reading of GA-2 between the two shifts (counted from Monday early of week 0, Monday to Friday). */
export const GAUGE = {
  gauge: "GA-2",
  shift: 0.006,
  from: { week: 7, shift: 6 },
  until: { week: 8, shift: 12 },
} as const;

/** One lot of castings with a shifted core and a hard skin. */
export const CASTING = {
  part: "BB-40",
  lot: 42,
  shifts: {
    "Bearing bore diameter": -0.007,
    "Bearing bore depth": 0.013,
    "Bore height above foot": 0.016,
    "Foot width": -0.026,
    "Foot thickness": 0.024,
    "Foot flatness": 0.01,
    "Left bolt hole position": 0.045,
    "Right bolt hole position": 0.042,
    "Snap ring groove width": -0.025,
    "Bore roundness": 0.0022,
  } as Record<string, number>,
} as const;

/** Kelvin above the usual part temperature, in straight lines between these instants (week 2, hours since its Monday 00:00). */
export const HEAT = {
  week: 2,
  course: [
    { hour: 4 * 24 + 10, kelvin: 0 },
    { hour: 4 * 24 + 20, kelvin: 9.5 },
    { hour: 5 * 24 + 22, kelvin: 9.5 },
    { hour: 7 * 24 + 6, kelvin: 7 },
    { hour: 7 * 24 + 20, kelvin: 0 },
  ],
} as const;

/** Single wrong readings: a burr, a chip under the probe, a slip. Lot by its index, piece from 1, shift in mm. */
export const BLUNDERS: (FeatureRef & { lot: number; piece: number; shift: number })[] = [
  { ...onH210("Parting face height"), lot: 58, piece: 3, shift: 0.074 },
  { ...onH210("Seal groove width"), lot: 97, piece: 8, shift: -0.09 },
  { ...onH210("Dowel hole position"), lot: 141, piece: 2, shift: 0.051 },
  { ...onH320("Flange to bearing seat depth"), lot: 49, piece: 6, shift: 0.058 },
  { ...onBB40("Foot width"), lot: 63, piece: 9, shift: -0.11 },
  { ...onBB62("Bolt hole diameter"), lot: 30, piece: 4, shift: 0.14 },
];

/** FX-3 has always held these a little higher. No drift, and nothing to flag. */
export const STANDING_OFFSET = {
  fixture: "FX-3",
  part: "H-210",
  shifts: {
    "Idler bore height above base": 0.002,
    "Parting face height": 0.0025,
    "Dowel hole position": 0.0018,
  } as Record<string, number>,
} as const;

const BENCH_ON_BB40 = [
  "Bearing bore diameter",
  "Bearing bore depth",
  "Foot width",
  "Foot length",
  "Foot thickness",
  "Bolt hole diameter",
  "Snap ring groove width",
  "Snap ring groove diameter",
].map(onBB40);
const BENCH_ON_BB62 = [
  "Bearing bore diameter",
  "Bearing bore depth",
  "Foot width",
  "Foot length",
  "Grease port diameter",
  "Bolt hole diameter",
  "Grease port depth",
  "Side lug width",
].map(onBB62);
const GEOMETRY_ON_BRACKETS = [
  "Foot flatness",
  "Bore parallelism to foot",
  "Left bolt hole position",
  "Right bolt hole position",
];

export const PLANTED_FAULTS: PlantedFault[] = [
  {
    id: "worn-locator",
    source: { kind: "fixture", code: "FX-2" },
    since: "L-0231",
    until: null,
    moved: LOCATOR.moved.map((feature) => ({ ...onH210(feature), shift: 0.021 })),
    untouched: ["Parting face height", "Dowel hole position"].map(onH210),
  },
  {
    id: "boring-bar-wear",
    source: { kind: "tool", code: "T-114" },
    since: "L-2072",
    until: null,
    moved: BORING_BAR.bores.map((feature) => ({ ...onH320(feature), shift: -BORING_BAR.wearAfter })),
    untouched: ["Shaft centre distance", "Overall length", "Flange to bearing seat depth"].map(onH320),
  },
  {
    id: "gauge-jump",
    source: { kind: "gauge", code: "GA-2" },
    since: "L-6056",
    until: "L-4067",
    moved: [...BENCH_ON_BB40, ...BENCH_ON_BB62].map((ref) => ({ ...ref, shift: GAUGE.shift })),
    untouched: [...GEOMETRY_ON_BRACKETS.map(onBB40), ...GEOMETRY_ON_BRACKETS.map(onBB62)],
  },
  {
    id: "bad-casting-lot",
    source: null,
    since: "L-4043",
    until: "L-4044",
    moved: Object.entries(CASTING.shifts).map(([feature, shift]) => ({ ...onBB40(feature), shift })),
    untouched: [
      "Foot length",
      "Bore parallelism to foot",
      "Bolt hole diameter",
      "Snap ring groove diameter",
    ].map(onBB40),
  },
  {
    id: "hot-weekend",
    source: null,
    since: "L-0068",
    until: "L-0074",
    moved: [
      ...["Parting face height", "Output bore height above base", "Output bore diameter"].map(onH210),
      ...["Overall length", "Pinion bore diameter"].map(onH320),
    ].map((ref) => ({ ...ref, shift: null })),
    untouched: [
      ...["Input bore diameter", "Input to output centre distance"].map(onH210),
      ...["Shaft centre distance", "Input bearing bore diameter", "Output bearing bore diameter"].map(onH320),
    ],
  },
];
