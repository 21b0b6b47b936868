import { counted, percent } from "../../capability/words";

type Amount = { subgroups: number; pieces: number; lots: number | null };
type Least = { subgroups: number; pieces: number; lots: number };

const missing = ({ subgroups, pieces, lots }: Amount, least: Least): string =>
  [
    ...(subgroups < least.subgroups ? [`${subgroups} of ${counted(least.subgroups, "subgroup")}`] : []),
    ...(pieces < least.pieces ? [`${pieces} of ${counted(least.pieces, "piece")}`] : []),
    ...(lots !== null && lots < least.lots ? [`${lots} of ${counted(least.lots, "lot")}`] : []),
  ].join(", ");
const have = ({ subgroups, pieces }: Amount): string =>
  `${counted(subgroups, "subgroup")}, ${counted(pieces, "piece")}`;
const wanted = (least: Least): string =>
  `${counted(least.subgroups, "subgroup")}, ${counted(least.pieces, "piece")} and ${counted(least.lots, "lot")}`;
const shortly = ({ pieces, lots }: Amount): string =>
  [...(lots === null ? [] : [counted(lots, "lot")]), counted(pieces, "piece")].join(", ");
const tested = (A2: string, p: string): string => `Anderson-Darling A² ${A2}, ${p}`;
const readings = (count: number): string => counted(count, "reading");

/**
 * What may be said of a study: the reason of each gate with the few words a claim quotes of it, and the claim. Figures
 * come written. A signed statement holds these sentences in English (lib/statement/said-in.ts).
 */
export const claims = {
  models: {
    normal: "a normal distribution",
    lognormal: "a lognormal distribution",
    weibull: "a Weibull distribution",
    rayleigh: "a Rayleigh distribution",
    "folded-normal": "a folded normal distribution",
    "box-cox": "a normal distribution after Box and Cox",
  },
  gates: {
    stable: "stable",
    enough: "enough",
    normal: "normal",
    distribution: "distribution",
    gauge: "gauge",
    independent: "independent",
    resolution: "resolution",
  },
  outcomes: { passed: "passed", failed: "failed", unknown: "not known" },
  stable: {
    unknown: {
      reason: "Not charted yet: whether the process is stable is not known.",
      short: "stability not known",
    },
    passed: { reason: "No unresolved signal on its chart.", short: "stable" },
    failed: (signals: number) => ({
      reason: `${counted(signals, "unresolved signal")} on its chart: the process did not run as one process. Answer the signals, then study what remains.`,
      short: counted(signals, "unresolved signal"),
    }),
  },
  enough: {
    failed: (amount: Amount, least: Least) => ({
      reason: `Only ${missing(amount, least)}: too little to have met what the process meets in a year. Wait for ${wanted(least)}.`,
      short: `only ${missing(amount, least)}`,
    }),
    unknown: (amount: Amount, least: Least) => ({
      reason: `${have(amount)}, but no lot is stated: whether they come from at least ${counted(least.lots, "lot")} is not known.`,
      short: `${shortly(amount)}, lots not stated`,
    }),
    passed: (amount: Amount, least: Least) => ({
      reason: `${have(amount)} from ${counted(amount.lots ?? 0, "lot")}; ${wanted(least)} are asked for.`,
      short: shortly(amount),
    }),
  },
  normal: {
    alike: {
      reason: "All readings are alike: there is no distribution to look at.",
      short: "distribution not known",
    },
    few: {
      reason: "Too few readings to say whether they are normal.",
      short: "distribution not known",
    },
    passed: (A2: string, p: string, count: number) => ({
      reason: `${tested(A2, p)}, ${readings(count)}: nothing speaks against a normal process.`,
      short: "normal",
    }),
    grid: (A2: string, p: string, count: number, steps: string, spread: string) => ({
      reason: `${tested(A2, p)}, ${readings(count)}, but readings step by ${steps} sigma, and spread over their steps they fit (${spread}): it is the grid, not the process.`,
      short: "normal but for its resolution",
    }),
    failed: (A2: string, p: string, count: number) => ({
      reason: `${tested(A2, p)}, ${readings(count)}: not normal. Look for mixed sources or a natural bound before choosing another model.`,
      short: `not normal (${p})`,
    }),
  },
  distribution: {
    passed: (A2: string, p: string, count: number, model: string) => ({
      reason: `Anderson-Darling A² ${A2} against ${model}, ${p}, ${readings(count)}: nothing speaks against it.`,
      short: `fits ${model}`,
    }),
    grid: (A2: string, p: string, count: number, model: string, spread: string) => ({
      reason: `Anderson-Darling A² ${A2} against ${model}, ${p}, ${readings(count)}, but spread over the steps of the gauge the readings fit (${spread}): it is the grid, not the process.`,
      short: `fits ${model} but for its resolution`,
    }),
    failed: (A2: string, p: string, count: number, model: string) => ({
      reason: `Anderson-Darling A² ${A2} against ${model}, ${p}, ${readings(count)}: it does not stand for these readings, and what it says beyond them is a guess. Look for mixed sources, then for another model.`,
      short: `does not fit ${model} (${p})`,
    }),
  },
  gauge: {
    unknown: {
      reason: "No gauge study: how much of the spread is the gauge's own is not known.",
      short: "gauge not studied",
    },
    good: (share: string) => ({
      reason: `The gauge takes ${share} of the tolerance: good.`,
      short: `gauge takes ${share} of tolerance`,
    }),
    usable: (share: string, good: string) => ({
      reason: `The gauge takes ${share} of the tolerance, more than ${good}: usable, and part of the spread shown is its own.`,
      short: `gauge takes ${share} of tolerance`,
    }),
    failed: (share: string, most: string) => ({
      reason: `The gauge takes ${share} of the tolerance, more than ${most}: the index says as much about the gauge as about the process.`,
      short: `gauge takes ${share} of tolerance`,
    }),
  },
  basis: {
    error: (code: string): string =>
      `By the maximum permissible error of ${code}; no crossed study of it is in force.`,
    ofThis: (study: number, code: string, day: string): string =>
      `From crossed study ${study} of ${code}, made ${day} on this feature.`,
    ofAnother: (study: number, code: string, day: string, feature: string, part: string): string =>
      `From crossed study ${study} of ${code}, made ${day} on ${feature} of ${part}; none was made on this feature.`,
    ofNone: (study: number, code: string, day: string): string =>
      `From crossed study ${study} of ${code}, made ${day} on no feature of the control plan.`,
    typed: "As typed above.",
  },
  independent: {
    unknown: {
      reason: "Too few points, or no variation: whether neighbours resemble each other is not known.",
      short: "independence not known",
    },
    passed: (r: string, points: number, p: string) => ({
      reason: `Lag-1 autocorrelation ${r} over ${counted(points, "point")}, ${p}: neighbours tell nothing of weight about each other.`,
      short: "independent",
    }),
    alike: (r: string, points: number, p: string) => ({
      reason: `Lag-1 autocorrelation ${r} over ${counted(points, "point")}, ${p}: neighbours resemble each other, so these pieces say less than their number, and run rules fire too often.`,
      short: `autocorrelation ${r}`,
    }),
    swinging: (r: string, points: number, p: string) => ({
      reason: `Lag-1 autocorrelation ${r} over ${counted(points, "point")}, ${p}: neighbours swing against each other, as after over-adjusting.`,
      short: `autocorrelation ${r}`,
    }),
  },
  resolution: {
    unknown: {
      reason: "The step between possible readings is not stated and cannot be seen in them.",
      short: "resolution not known",
    },
    none: (step: string) => ({
      reason: `No variation at this resolution: the gauge steps by ${step}. Measure with a finer one.`,
      short: "no variation at this resolution",
    }),
    failed: (step: string, sigmas: string, share: string | null, mostSigmas: string, mostShare: string) => ({
      reason: `Readings step by ${step}, ${sigmas} sigma${share === null ? "" : ` and ${share} of the tolerance`}: too coarse; at most ${mostSigmas} sigma and ${mostShare} of the tolerance are asked for.`,
      short: `resolution ${sigmas} sigma`,
    }),
    passed: (step: string, sigmas: string, share: string | null) => ({
      reason: `Readings step by ${step}, ${sigmas} sigma${share === null ? "" : ` and ${share} of the tolerance`}: fine enough.`,
      short: "resolution fine enough",
    }),
  },
  claim: {
    index: (name: string, index: string): string => `${name} ${index}`,
    atLeast: (bound: string, confidence: number): string =>
      `, at least ${bound} with ${percent(confidence)} confidence`,
    byModel: (index: string, model: string): string => `${index} by ${model}`,
    notCapability: (why: string, performance: string): string =>
      `Not presentable as capability: ${why}. Performance ${performance}.`,
    noSubgroups: "too few complete subgroups for a sigma within them",
    noVariationWithin: "no variation within subgroups at this resolution",
    noTolerance: "No index: the feature has no tolerance limit to be judged against.",
    notPositive: (least: string): string =>
      `No index by this model: it starts at zero, and one reading is ${least}. Choose another model.`,
    noVariation:
      "No index: no variation at this resolution, all readings are alike. Measure with a finer step.",
    fewReadings: (got: number, needed: number): string =>
      `No index yet: ${got} of at least ${needed} readings.`,
    notYet: "No index yet.",
  },
  presentable: {
    capability: "Presentable as capability",
    performance: "Performance only",
    none: "No index",
  },
  mayBeCalled: {
    capability: "capability",
    performance: "performance",
    not: "not presentable",
    none: "no index",
  },
  test: {
    few: "Too few readings for a test of normality.",
    normalProcess: "a normal process",
    fits: (A2: string, p: string, model: string): string =>
      `${tested(A2, p)}: nothing speaks against ${model}.`,
    grid: (A2: string, p: string, spread: string): string =>
      `${tested(A2, p)}; spread over the steps of the gauge ${spread}: the steps are seen, not the process.`,
    unlikely: (A2: string, p: string, model: string): string =>
      `${tested(A2, p)}: ${model} would hardly give these readings.`,
  },
  estimators: {
    "mean-range": "mean range over d₂",
    "weighted-range": "ranges weighted by what each says (unequal subgroups)",
    "mean-sd": "mean standard deviation over c₄",
    "pooled-sd": "pooled standard deviation (unequal subgroups)",
    "mean-moving-range": "mean moving range of neighbours over d₂",
    "median-moving-range": "median moving range of neighbours",
  },
  cautions: {
    acceptance:
      "Capability is no acceptance of product and no proof of safety or airworthiness. Pieces are accepted by the drawing, the customer's requirements and the shop's nonconformance procedure, under its qualified people.",
    window:
      "An index speaks of the readings in its window. It holds for the next ones as long as the process stays as it was: that is what the chart watches.",
    bound: (confidence: string): string =>
      `The lower bound covers the chance in which pieces were measured, at ${confidence} confidence. It does not cover a wrong gauge, a wrong datum or readings that were never taken.`,
    spread:
      "The spread shown is that of the process and the gauge together; a better gauge would show the same pieces with higher indices.",
    tails:
      "Fractions by a fitted curve far below what could be counted are a calculation on an assumed shape, not something anybody has seen.",
  },
};
