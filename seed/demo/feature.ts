import type { ChartKind, FeatureKind, FeaturePlan, KnownUnit } from "../../lib/plan/feature-plan";

/** Grey cast iron and aluminium, per kelvin (handbook values, from memory). */
export const CAST_IRON = 10.5e-6;
export const ALUMINIUM = 23e-6;

export const PLAIN_RULES = ["beyond-3s", "nine-one-side"] as const;
export const KEY_RULES = ["beyond-3s", "two-of-three-2s", "nine-one-side", "six-trend"] as const;
/** Values near a natural bound are skewed, and patterns within the limits say little there. */
export const BOUNDED_RULES = ["beyond-3s"] as const;

export type PartNumber = "H-210" | "H-320" | "BB-40" | "BB-62";

/** How the story makes the values; none of it is known to the product. In the feature's unit. */
export type Process = {
  mean: number;
  /** Standard deviation from piece to piece. */
  sigma: number;
  /**
   * normal: about the mean. offset: twice the distance from a point `mean / 2` away, as a position is.
   * skewed: lognormal with that median, as a form deviation often is.
   */
  shape: "normal" | "offset" | "skewed";
  /** Share of a piece's deviation that the next piece inherits. */
  carry: number;
};

export type DemoFeature = {
  part: PartNumber;
  name: string;
  kind: FeatureKind;
  unit: KnownUnit;
  /** Null where the drawing gives only a limit. */
  nominal: number | null;
  resolution: number;
  key: boolean;
  plan: FeaturePlan;
  tool: string;
  gauge: string;
  process: Process;
};

/** The columns of a feature table; absent means the everyday value. */
export type FeatureLine = {
  kind: FeatureKind;
  unit?: KnownUnit;
  /** Nominal, or 0 for a feature with a natural bound. */
  nominal: number;
  /** Tolerance as deviations from the nominal. */
  lower?: number;
  upper?: number;
  /** Mean of the process as a deviation from the nominal. */
  off?: number;
  sigma: number;
  tool: string;
  gauge: string;
  key?: boolean;
  chart?: ChartKind;
  subgroupSize?: number;
  resolution?: number;
  /** Reduce to 20 °C with this expansion coefficient. */
  reduce?: number;
  carry?: number;
};

export function featureTable(part: PartNumber, lines: Record<string, FeatureLine>): DemoFeature[] {
  return Object.entries(lines).map(([name, line]) => demoFeature(part, name, line));
}

function demoFeature(part: PartNumber, name: string, line: FeatureLine): DemoFeature {
  const { kind, nominal, off = 0, unit = "mm", resolution = 0.001 } = line;
  const bounded = isBounded(kind);
  const limit = (deviation: number | undefined) =>
    deviation === undefined ? null : Number((nominal + deviation).toFixed(6));
  const tolerance = { lower: limit(line.lower), upper: limit(line.upper) };
  const twoSided = tolerance.lower !== null && tolerance.upper !== null;
  const plainRules = line.key ? KEY_RULES : PLAIN_RULES;

  return {
    part,
    name,
    kind,
    unit,
    nominal: bounded || !twoSided ? null : nominal,
    resolution,
    key: line.key ?? false,
    plan: {
      chart: line.chart ?? "xbar-r",
      subgroupSize: line.subgroupSize ?? 5,
      rules: bounded ? BOUNDED_RULES : plainRules,
      tolerance,
      target: null,
      naturalBound: bounded ? 0 : null,
      reduction: line.reduce === undefined ? null : { length: nominal, expansion: line.reduce },
    },
    tool: line.tool,
    gauge: line.gauge,
    process: { mean: nominal + off, sigma: line.sigma, shape: shapeOf(kind), carry: line.carry ?? 0 },
  };
}

/** Kinds whose values physics keeps at or above 0. */
function isBounded(kind: FeatureKind): boolean {
  return kind !== "size" && kind !== "other";
}

function shapeOf(kind: FeatureKind): Process["shape"] {
  if (kind === "position" || kind === "orientation") return "offset";
  return isBounded(kind) ? "skewed" : "normal";
}
