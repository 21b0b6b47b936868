import { counted } from "../../format/numbers";

/** Everyday shortages, where a figure would stand. */
export const problems = {
  figures: {
    capabilityIndex: "capability index",
    fractionOutside: "fraction outside",
    picture: "picture of the distribution",
    shares: "shares of the variation",
    test: "test",
    controlLimits: "control limits",
    lots: "comparison of lots",
  },
  readings: (figure: string, got: number, needed: number) =>
    `No ${figure} yet: ${got} of at least ${counted(needed, "measurement")}. They come with further measurements; nothing needs to be repaired.`,
  subgroups: (figure: string, got: number, needed: number) =>
    `No ${figure} yet: ${got} of at least ${counted(needed, "subgroup")}. They come with further subgroups; nothing needs to be repaired.`,
  noVariation: (figure: string) =>
    `No ${figure}: all measurements are alike. The gauge may resolve too little to see the process vary; look at its resolution in the control plan.`,
  notPositive: (figure: string, least: number) =>
    `No ${figure}: this model starts at zero, and one measurement is ${least}. Choose another model, or look at that measurement.`,
  noTolerance: (figure: string) =>
    `No ${figure}: the control plan states no tolerance for this feature. An engineer can enter it there.`,
  oneSided: (figure: string, missing: "lower" | "upper") =>
    `No ${figure}: the drawing gives no ${missing} tolerance limit, so only the other side can be judged.`,
};
