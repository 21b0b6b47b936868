import type { MeasurementSeries, SourceKind } from "../measurements/series";
import type { FeatureKind } from "../plan/feature-plan";

/** One feature with its measurements in time order, as the scan takes it. */
export type MeasuredFeature = {
  name: string;
  kind: FeatureKind;
  nominal: number | null;
  lower: number | null;
  upper: number | null;
  /** "mm", "in", "deg" or "none". */
  unit: string;
  /** Step of the gauge in the unit; null where it is to be read off the measurements. */
  resolution: number | null;
  /**
   * Where the part's fixtures locate it: how far the feature moves, in its unit, when the part is displaced by one
   * unit along each locating direction, in the same order for all features of the part. Not needed; with it a worn
   * locator is seen earlier.
   */
  locators?: readonly number[];
  series: MeasurementSeries;
};

export type MeasuredPart = { part: string; features: readonly MeasuredFeature[] };

/** What a source or a lot is called: "FX-2", "T-114/3" (edge 3 of tool T-114), "L-0231". */
export type CodeOf = (kind: SourceKind | "lot", id: number) => string;

/** Kinds of source that hold for a whole piece; tool and gauge belong to the single measurement. */
export const PIECE_KINDS = ["fixture", "machine", "operator", "setup"] as const;
export type PieceKind = (typeof PIECE_KINDS)[number];

export const EVENT_KINDS = ["changed", "repaired", "adjusted", "calibrated", "moved"] as const;
export type EventKind = (typeof EVENT_KINDS)[number];

/**
 * Something a person did to a source: from then on it is judged anew, and what was before no longer counts
 * against it. `source` is the code without an edge number.
 */
export type SourceEvent = { kind: SourceKind; source: string; at: number; event: EventKind };

/** Kinds of what a flag can name: the sources of a measurement, its lot, and the temperature of the part. */
export type ScannedKind = SourceKind | "lot" | "temperature" | "process";

/** What a flag names. A tool is its position, without the edge. */
export type ScannedSource = { kind: ScannedKind; id: string };

export function sourceKey({ kind, id }: ScannedSource): string {
  return `${kind}|${id}`;
}

/** How a source went wrong: a step, a drift (or a tool's wear), or more scatter. */
export type ChangeKind = "step" | "trend" | "spread";
