import type { ChartPoint } from "../../../lib/chart/feature-chart";
import type { LimitRun } from "../../../lib/chart/limit-runs";
import type { RibbonKind, RibbonRun } from "../../../lib/chart/ribbons";
import type { Span } from "../../../lib/chart/scale";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import type { Pattern } from "../../../lib/evaluation/patterns";
import type { ChartKind } from "../../../lib/plan/feature-plan";
import type { Words } from "../../../lib/words/words";

/** What the chart says in the browser; strings alone. */
export type ChartWords = Words["features"]["chart"];

/** A phase with the words that stand over it. */
export type PhaseView = { from: number; to: number; label: string };

/** One thin row under the chart. */
export type RibbonView = { kind: RibbonKind; runs: RibbonRun[]; events: EventView[] };

/** A tool change, repair or calibration: `place` among the subgroups, half a place before the next one. */
export type EventView = { place: number; label: string; title: string };

/** Everything that the chart component draws; times are words already, in the plant's zone. */
export type ChartView = {
  unit: string;
  chart: ChartKind;
  /** Decimals of readings; means and limits show one more. */
  places: number;
  window: ShownWindow;
  /** Subgroups in the whole history. */
  count: number;
  points: (ChartPoint & { when: string; day: string; cause: string | null })[];
  runs: LimitRun[];
  phases: PhaseView[];
  patterns: Pattern[];
  ribbons: RibbonView[];
  /** Codes behind the ids that appear, by kind; pieces by their serial. */
  names: Record<RibbonKind | "piece", Record<number, string>>;
  marker: { place: number; label: string } | null;
  baseline: ShownWindow | null;
  /** On which limits and most points can be read, and which hold every point; the same where that can be read. */
  domains: { location: Span; spread: Span };
  wholeDomains: { location: Span; spread: Span };
  lanes: { location: number; spread: number };
  isReduced: boolean;
};

/** People count from 1. */
export function numberOf(subgroup: number): number {
  return subgroup + 1;
}
