import { counted, whole } from "../../format/numbers";

/** What a chart takes for granted, and what p says. */
export const assumptions = {
  title: "What it takes for granted",
  standings: { yes: "holds", no: "fails", open: "not known" },
  p: (figure: string): string => `p = ${figure}`,
  pBelow: (figure: string): string => `p below ${figure}`,
  enough: {
    name: "Limits rest on enough subgroups",
    none: "There are no limits yet.",
    frozen: (least: number): string => `Frozen ones need at least ${least}.`,
    trial: (count: number, least: number): string =>
      `${counted(count, "subgroup")} so far; ${least} are needed, and these limits are trial limits until somebody freezes them.`,
  },
  tooFewPoints: "Too few points to tell, or no variation.",
  independent: {
    name: "Points are independent of their neighbours",
    figures: (r: string, count: number, p: string): string =>
      `Correlation of neighbours r = ${r} in ${whole(count)} points, ${p} (NIST/SEMATECH e-Handbook 1.3.5.12).`,
  },
  normal: {
    readings: "Readings are normal",
    means: "Means are normal",
    figures: (A2: string, p: string): string => `Anderson-Darling A² = ${A2}, ${p}.`,
    single: " Limits of single readings lean on it.",
    ofMeans: " Limits of means lean on it little; rules within the limits more.",
  },
  counts: {
    name: (law: "binomial" | "Poisson"): string => `Counts scatter as ${law} ones do`,
    tooFew: "Too few counts to tell.",
    figures: (ratio: string, law: "binomial" | "Poisson", p: string): string =>
      `Their variance is ${ratio} times that of a ${law} distribution, ${p}.`,
    clusters: " Faults come in clusters, or the rate moves from sample to sample.",
    alike: " Samples are more alike than chance makes them: are they counted independently?",
  },
};
