import { counted } from "../../format/numbers";

/** Everyday shortages, where a figure would stand. */
export const problems = {
  figures: {
    "capability index": "capability index",
    "fraction outside": "fraction outside",
    "picture of the distribution": "picture of the distribution",
    "shares of the variation": "shares of the variation",
    test: "test",
    "control limits": "control limits",
    "comparison of lots": "comparison of lots",
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
