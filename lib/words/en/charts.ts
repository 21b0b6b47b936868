import type { FeatureKind } from "../../plan/feature-plan";

/** Names of charts and of kinds of features, as the trade says them. */
export const charts = {
  kinds: {
    "xbar-r": "means and ranges",
    "xbar-s": "means and standard deviations",
    "i-mr": "single readings and moving ranges",
  },
  of: (chart: string, size: number): string => `${chart} of ${size}`,
  counts: {
    p: "share of nonconforming pieces (p)",
    np: "number of nonconforming pieces (np)",
    c: "number of nonconformities (c)",
    u: "nonconformities per unit (u)",
  },
  among: (chart: string, size: number): string => `${chart} among ${size}`,
  on: (chart: string, size: number): string => `${chart} on ${size}`,
  varying: (chart: string): string => `${chart}, samples of varying size`,
  /** For a narrow column: what the upper chart shows. */
  short: { "xbar-r": "means, ranges", "xbar-s": "means, sd", "i-mr": "single readings" },
  features: {
    size: "size",
    position: "position",
    form: "form",
    orientation: "orientation",
    profile: "profile",
    runout: "runout",
    other: "other",
  } as Record<FeatureKind, string>,
  headStart: (size: string): string => `, head start ${size}`,
};
