export const CHART_KINDS = ["xbar-r", "xbar-s", "i-mr"] as const;
export type ChartKind = (typeof CHART_KINDS)[number];

export const FEATURE_KINDS = [
  "size",
  "position",
  "form",
  "orientation",
  "profile",
  "runout",
  "other",
] as const;
export type FeatureKind = (typeof FEATURE_KINDS)[number];

/** "none" where neither file nor drawing states a unit; such values are never converted. */
export const UNITS = ["mm", "in", "deg", "none"] as const;
export type KnownUnit = (typeof UNITS)[number];

/** Absolute limits in the feature's unit; null where the drawing gives none. */
export type Tolerance = { lower: number | null; upper: number | null };

/**
 * Reduction to the reference temperature of 20 °C (ISO 1): the length that expands, in mm, and the
 * expansion coefficient of the part's material per kelvin.
 */
export type TemperatureReduction = { length: number; expansion: number };

/**
 * A chart with a memory that watches beside the feature's own, for small lasting shifts. EWMA: λ and L, with
 * exact limits. CUSUM: k, h and head start in sigma of the plotted point.
 */
export type MemoryChart =
  | { kind: "ewma"; smoothing: number; width: number }
  | { kind: "cusum"; reference: number; decisionInterval: number; headStart: number };

/**
 * p: share of nonconforming pieces; np: their number; c: nonconformities in a constant amount of product;
 * u: nonconformities per unit of it.
 */
export const ATTRIBUTE_CHARTS = ["p", "np", "c", "u"] as const;
export type AttributeChart = (typeof ATTRIBUTE_CHARTS)[number];

/**
 * Values are counts, each found on `size` pieces (p, np) or units (c, u). On a p or u chart a count may say itself on how
 * many it was found; where `size` is null, every one does.
 */
export type CountPlan = { chart: AttributeChart; size: number | null };

/** How one feature is charted and judged. */
export type FeaturePlan = {
  chart: ChartKind;
  subgroupSize: number;
  /** Slugs of the rule set in force, as in lib/rules. */
  rules: readonly string[];
  tolerance: Tolerance;
  target: number | null;
  /** A limit that physics sets, such as 0 for form and position; no index is taken against it. */
  naturalBound: number | null;
  /** Null when the value is charted as measured. */
  reduction: TemperatureReduction | null;
  /** Null or absent for none. */
  alsoWatch?: MemoryChart | null;
  /** Null or absent for measured values; counts stand singly, on the chart "i-mr" without its moving ranges. */
  counts?: CountPlan | null;
};

/**
 * Frozen control limits. `sigma` is the within-subgroup sigma of single readings, or of counts, each found on what the
 * plan says (`usualSample` in counts.ts).
 *
 * `betweenLots` is there where lot-to-lot variation is taken as part of the process: then a subgroup is a lot,
 * and its mean has the variance betweenLots² + sigma²/n.
 */
export type LimitsVersion = {
  version: number;
  /** First instant (UTC ms) it judges; a subgroup belongs to the version in force at its last reading. */
  effectiveFrom: number;
  chart: ChartKind;
  centre: number;
  sigma: number;
  betweenLots?: number;
  estimator: string;
};

/** Subgroups whose last reading lies in [from, to] count neither for limits nor for rules. */
export type Exclusion = { from: number; to: number; cause: string };
