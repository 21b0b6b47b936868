import type { MemoryState } from "../charts/memory-chart";
import type { Side } from "../charts/weighted-point";
import type { Origin } from "../measurements/series";
import type { LimitsVersion } from "../plan/feature-plan";
import type { JudgingState } from "../rules/judge";
import type { FormingState } from "../subgroups/form-subgroups";

/**
 * The chart a signal is on: the means (or single readings), or their ranges, deviations, moving ranges, or the
 * chart with a memory that watches beside them.
 */
export type ChartPart = "location" | "spread" | "memory";

/** A run rule that fired: `at` and `members` count subgroups of the feature from 0. */
export type Signal = {
  chart: ChartPart;
  rule: string;
  at: number;
  atTime: number;
  members: number[];
  direction: "up" | "down" | "either";
};

export type ExcursionRule = Pick<Signal, "chart" | "rule" | "direction">;

/** Signals that belong together: from the first one until several subgroups in a row gave none. */
export type Excursion = {
  firstAt: number;
  latestAt: number;
  /** What fired, each once, in order of first appearance. */
  rules: ExcursionRule[];
  /** Subgroups without a signal since the latest one; at QUIET_SUBGROUPS it has returned to normal. */
  quiet: number;
};

/** Size (of a count: its sample in usual ones), mean and standard deviation of one judged subgroup; a triple, since every feature stores dozens. */
export type RecentSubgroup = [size: number, mean: number, sd: number];

/**
 * To be raised whenever what is remembered, or the judging itself, changes: state stored by an older version
 * is then computed anew instead of being gone on from.
 */
export const PROGRESS_FORMAT = 7;

/**
 * Everything the evaluation must remember to go on from the last measurement. Plain data that survives
 * JSON unchanged, so that a stored series and a newly arrived reading take the same path.
 */
export type Progress = {
  format: typeof PROGRESS_FORMAT;
  readings: number;
  lastAt: number | null;
  /** Lot and sources of the last measurement. */
  latest: Origin | null;
  forming: FormingState;
  /** Charted values of the measurements in `forming.waiting`. */
  waiting: number[];
  /** The newest labelled subgroup while it can still grow. */
  newest: { number: number; values: number[]; at: number; judged: boolean } | null;
  judged: number;
  /** In force for the latest subgroup; null before there are any limits. Version 0 are trial limits. */
  limits: LimitsVersion | null;
  /** Reading before this one on a chart of single readings; null at the start of a phase. */
  previous: number | null;
  location: JudgingState;
  spread: JudgingState;
  /** Of the chart with a memory, and where it signalled last; null before its first point of a phase. */
  memory: { state: MemoryState; signalled: { at: number; side: Side } | null } | null;
  excursion: Excursion | null;
  signals: number;
  /** The latest subgroups that count, oldest first. */
  recent: RecentSubgroup[];
};
