import type { LimitsVersion } from "../plan/feature-plan";
import type { FormedSubgroups } from "../subgroups/form-subgroups";
import type { Excursion, Progress, Signal } from "./progress";

/**
 * The control chart of a whole history, as parallel columns: point i is subgroup i.
 *
 * `at` is the moment of its last reading, `spread` the range, standard deviation or moving range (NaN
 * where it has none), `size` the readings behind it or, for a count, its sample in usual ones, `limits` the position in `versions` that judged it (−1 before there are any).
 */
export type Points = {
  count: number;
  at: Float64Array;
  size: Float64Array;
  mean: Float64Array;
  spread: Float64Array;
  excluded: Uint8Array;
  limits: Int16Array;
};

export type Evaluation = {
  /** Values as charted, in the order of the measurements. */
  values: Float64Array;
  /** Members of each subgroup. `formed.count` may exceed `points.count` by one subgroup that still grows. */
  formed: FormedSubgroups;
  points: Points;
  /** The limits that judged: the frozen versions, or one trial version, or none. */
  versions: readonly LimitsVersion[];
  signals: Signal[];
  /** All excursions in order; the last one may still be running. */
  excursions: Excursion[];
  progress: Progress;
  /** Where they were wanted: what `progress` was at earlier places, oldest first. */
  waypoints: Progress[];
};
