import { counted } from "../../format/numbers";

/** Where people read and write what to do on a signal. */
export const reactionPlans = {
  title: "Reaction plans",
  of: (owner: string): string => `Reaction plan: ${owner}`,
  purpose:
    "What a person at the line does on a signal, step by step. An alarm keeps the version under which it was raised.",
  none: "No features yet",
  noneWhy:
    "Once the control plan has features, each has a plan here: the usual one of its kind until somebody writes another.",
  ofPart: (version: number): string => `The part's plan, version ${version}`,
  noneOfPart: "No plan of the part: each feature has the usual one of its kind",
  caption: (part: string): string => `Reaction plans of ${part}`,
  heads: { feature: "Feature", plan: "Plan", steps: "Steps" },
  plans: {
    default: "the usual plan of its kind",
    feature: (version: number): string => `the feature's own plan, version ${version}`,
    part: (version: number): string => `the part's own plan, version ${version}`,
  },
  inForce: (plan: string): string => `In force: ${plan}.`,
  becomesOwn: " What you save here becomes a plan of its own and takes its place.",
  mayNot: "An engineer can change it.",
  versions: "Versions",
  version: (version: number): string => `Version ${version}, {by}, {when}`,
  withReason: (version: number): string => `Version ${version}, {by}, {when}: {reason}`,
  somebody: "somebody",
  takenBack: "The plan was taken back.",
  verifiedBy: (count: number): string => `Verified by ${counted(count, "good subgroup")} in a row.`,
  /** Strings alone, for the browser. */
  form: {
    steps: "Steps, one a line, in the order in which to take them",
    stepsHint:
      "What a person does at the line at 02:40: first measure again, then contain, then look for the cause.",
    verify: "Good subgroups in a row that show that an action worked",
    reason: "Why it changes",
    saving: "Saving …",
    next: "Save as the next version",
    own: "Save as a plan of its own",
    takeBack: "Take this plan back",
  },
  faults: {
    noStep: "Write at least one step, or take the plan back.",
    manySteps: (most: number): string => `At most ${most} steps: a person at the line has minutes.`,
    longStep: (most: number): string => `A step has at most ${most} characters.`,
    verify: "Write a whole number from 1 to 50.",
    verifyLeast: "At least 1.",
    verifyMost: "At most 50.",
    long: (most: number): string => `At most ${most} characters.`,
    incomplete: "This form was not complete. Reload the page and try again.",
  },
  answers: {
    takenBack: "Saved. The plan is taken back; alarms raised under it keep it.",
    saved: (version: number): string => `Saved. Version ${version} holds for alarms raised from now on.`,
  },
};
