import type { LagOne } from "../autocorrelation/lag-one";
import { InvalidInput, requireCount } from "../checks";
import type { Computed } from "../computed";
import { fixed, inDigits } from "../format/numbers";
import type { Tolerance } from "../plan/feature-plan";
import type { Normality } from "./normality";
import { counted, numberWords, percent, pWords } from "./words";

/** "normal" and "distribution" ask the same of two models: does the one behind the index stand for the readings? */
export const GATES = [
  "stable",
  "enough",
  "normal",
  "distribution",
  "gauge",
  "independent",
  "resolution",
] as const;
export type GateName = (typeof GATES)[number];

/** `passed` is null when nobody can tell yet; `reason` says why, with its numbers, in whole sentences. */
export type Gate = { gate: GateName; passed: boolean | null; reason: string };

/** A gate with the few words a claim quotes. */
export type JudgedGate = Gate & { short: string };

/**
 * Whether a gate keeps the word capability from being used: it failed, or nobody can tell whether it holds. A promise to
 * a customer rests on what is known. A step of the gauge that is not stated and cannot be seen in the readings is
 * the exception: it is then so fine that it does not show.
 */
export function standsInTheWay({ gate, passed }: Gate): boolean {
  return passed === false || (passed === null && gate !== "resolution");
}

/** What must hold before the word capability is used. A shop may set its own. */
export type GateRequirements = {
  subgroups: number;
  pieces: number;
  lots: number;
  /** A test that rejects at this level counts against the process. */
  significance: number;
  /** Share of the tolerance that the gauge may take: good up to the first, conditional up to the second. */
  gaugeGood: number;
  gaugeConditional: number;
  /** Lag-1 autocorrelation that is let pass even when a long series makes it significant. */
  autocorrelation: number;
  /** Step between readings, at most, in sigma and as a share of the tolerance. */
  stepInSigma: number;
  stepOfTolerance: number;
};

/**
 * Sources: 25 subgroups and 100 pieces, ISO 22514-2 and AIAG SPC; gauge shares of 10 % and 30 %, AIAG MSA;
 * a step of at most a tenth of the tolerance, AIAG MSA (all from memory). Three lots, 0.2 and one sigma:
 * common practice, no source.
 */
export const GATE_REQUIREMENTS: GateRequirements = {
  subgroups: 25,
  pieces: 100,
  lots: 3,
  significance: 0.05,
  gaugeGood: 0.1,
  gaugeConditional: 0.3,
  autocorrelation: 0.2,
  stepInSigma: 1,
  stepOfTolerance: 0.1,
};

/** How a fitted model stands for the readings. */
export type FitEvidence = {
  /** "a Weibull distribution". */
  words: string;
  A2: number;
  p: number;
  spreadOverGrid: { p: number } | null;
  count: number;
};

/** What the gates look at; null where something is not known. */
export type GateEvidence = {
  unresolvedSignals: number | null;
  subgroups: number;
  pieces: number;
  lots: number | null;
  normality: Computed<Normality>;
  /** The fitted model behind the index; null while it is the normal one. */
  fit: FitEvidence | null;
  /** Share of the tolerance that the gauge's variation takes (0.12 for 12 %). */
  gaugeShare: number | null;
  /** Where that share is from, as a sentence. */
  gaugeBasis?: string | null | undefined;
  lagOne: Computed<LagOne>;
  /** Step between possible readings and the sigma it is compared with, in the feature's unit. */
  step: number | null;
  sigma: number | null;
  tolerance: Tolerance;
};

/** The six gates of a study in their fixed order. */
export function judgeGates(evidence: GateEvidence, requirements: GateRequirements): JudgedGate[] {
  return [
    stable(evidence),
    enough(evidence, requirements),
    evidence.fit === null ? normal(evidence, requirements) : distribution(evidence.fit, requirements),
    gauge(evidence, requirements),
    independent(evidence, requirements),
    resolution(evidence, requirements),
  ];
}

/** A process with open signals has no single spread that an index could stand for. */
function stable({ unresolvedSignals }: GateEvidence): JudgedGate {
  if (unresolvedSignals === null) {
    return {
      gate: "stable",
      passed: null,
      reason: "Not charted yet: whether the process is stable is not known.",
      short: "stability not known",
    };
  }
  requireCount("judgeGates", "unresolvedSignals", unresolvedSignals, 0);
  if (unresolvedSignals === 0) {
    return { gate: "stable", passed: true, reason: "No unresolved signal on its chart.", short: "stable" };
  }
  const signals = counted(unresolvedSignals, "unresolved signal");
  return {
    gate: "stable",
    passed: false,
    reason: `${signals} on its chart: the process did not run as one process. Answer the signals, then study what remains.`,
    short: signals,
  };
}

function enough({ subgroups, pieces, lots }: GateEvidence, least: GateRequirements): JudgedGate {
  requireCount("judgeGates", "subgroups", subgroups, 0);
  requireCount("judgeGates", "pieces", pieces, 0);
  if (lots !== null) requireCount("judgeGates", "lots", lots, 0);
  const have = `${counted(subgroups, "subgroup")}, ${counted(pieces, "piece")}`;
  const short = [...(lots === null ? [] : [counted(lots, "lot")]), counted(pieces, "piece")].join(", ");
  const wanted = `${counted(least.subgroups, "subgroup")}, ${counted(least.pieces, "piece")} and ${counted(least.lots, "lot")}`;

  const tooFew = [
    ...(subgroups < least.subgroups ? [`${subgroups} of ${counted(least.subgroups, "subgroup")}`] : []),
    ...(pieces < least.pieces ? [`${pieces} of ${counted(least.pieces, "piece")}`] : []),
    ...(lots !== null && lots < least.lots ? [`${lots} of ${counted(least.lots, "lot")}`] : []),
  ];
  if (tooFew.length > 0) {
    return {
      gate: "enough",
      passed: false,
      reason: `Only ${tooFew.join(", ")}: too little to have met what the process meets in a year. Wait for ${wanted}.`,
      short: `only ${tooFew.join(", ")}`,
    };
  }
  if (lots === null) {
    return {
      gate: "enough",
      passed: null,
      reason: `${have}, but no lot is stated: whether they come from at least ${counted(least.lots, "lot")} is not known.`,
      short: `${short}, lots not stated`,
    };
  }
  return {
    gate: "enough",
    passed: true,
    reason: `${have} from ${counted(lots, "lot")}; ${wanted} are asked for.`,
    short,
  };
}

function normal({ normality }: GateEvidence, { significance }: GateRequirements): JudgedGate {
  if (!normality.ok) {
    const reason =
      normality.problem.code === "no-variation"
        ? "All readings are alike: there is no distribution to look at."
        : "Too few readings to say whether they are normal.";
    return { gate: "normal", passed: null, reason, short: "distribution not known" };
  }
  const { A2, p, count, spreadOverGrid, stepInSigma } = normality.value;
  const test = `Anderson-Darling A² ${fixed(A2, 3)}, ${pWords(p)}, ${counted(count, "reading")}`;
  if (p >= significance) {
    return {
      gate: "normal",
      passed: true,
      reason: `${test}: nothing speaks against a normal process.`,
      short: "normal",
    };
  }
  if (spreadOverGrid !== null && spreadOverGrid.p >= significance && stepInSigma !== null) {
    return {
      gate: "normal",
      passed: true,
      reason: `${test}, but readings step by ${inDigits(stepInSigma, 2)} sigma, and spread over their steps they fit (${pWords(spreadOverGrid.p)}): it is the grid, not the process.`,
      short: "normal but for its resolution",
    };
  }
  return {
    gate: "normal",
    passed: false,
    reason: `${test}: not normal. Look for mixed sources or a natural bound before choosing another model.`,
    short: `not normal (${pWords(p)})`,
  };
}

/** An index by a model says nothing while the model does not stand for the readings. */
function distribution(fit: FitEvidence, { significance }: GateRequirements): JudgedGate {
  const test = `Anderson-Darling A² ${fixed(fit.A2, 3)} against ${fit.words}, ${pWords(fit.p)}, ${counted(fit.count, "reading")}`;
  if (fit.p >= significance) {
    return {
      gate: "distribution",
      passed: true,
      reason: `${test}: nothing speaks against it.`,
      short: `fits ${fit.words}`,
    };
  }
  if (fit.spreadOverGrid !== null && fit.spreadOverGrid.p >= significance) {
    return {
      gate: "distribution",
      passed: true,
      reason: `${test}, but spread over the steps of the gauge the readings fit (${pWords(fit.spreadOverGrid.p)}): it is the grid, not the process.`,
      short: `fits ${fit.words} but for its resolution`,
    };
  }
  return {
    gate: "distribution",
    passed: false,
    reason: `${test}: it does not stand for these readings, and what it says beyond them is a guess. Look for mixed sources, then for another model.`,
    short: `does not fit ${fit.words} (${pWords(fit.p)})`,
  };
}

function gauge(evidence: GateEvidence, limits: GateRequirements): JudgedGate {
  const judged = gaugeAlone(evidence, limits);
  return evidence.gaugeBasis ? { ...judged, reason: `${judged.reason} ${evidence.gaugeBasis}` } : judged;
}

function gaugeAlone({ gaugeShare }: GateEvidence, limits: GateRequirements): JudgedGate {
  if (gaugeShare === null) {
    return {
      gate: "gauge",
      passed: null,
      reason: "No gauge study: how much of the spread is the gauge's own is not known.",
      short: "gauge not studied",
    };
  }
  if (!(Number.isFinite(gaugeShare) && gaugeShare >= 0)) {
    throw new InvalidInput("judgeGates", "gaugeShare", gaugeShare, "a share of the tolerance, 0 or more");
  }
  const takes = `The gauge takes ${percent(gaugeShare)} of the tolerance`;
  const took = `gauge takes ${percent(gaugeShare)} of tolerance`;
  if (gaugeShare <= limits.gaugeGood) {
    return { gate: "gauge", passed: true, reason: `${takes}: good.`, short: took };
  }
  if (gaugeShare <= limits.gaugeConditional) {
    return {
      gate: "gauge",
      passed: true,
      reason: `${takes}, more than ${percent(limits.gaugeGood)}: usable, and part of the spread shown is its own.`,
      short: took,
    };
  }
  return {
    gate: "gauge",
    passed: false,
    reason: `${takes}, more than ${percent(limits.gaugeConditional)}: the index says as much about the gauge as about the process.`,
    short: took,
  };
}

function independent({ lagOne }: GateEvidence, limits: GateRequirements): JudgedGate {
  if (!lagOne.ok) {
    return {
      gate: "independent",
      passed: null,
      reason: "Too few points, or no variation: whether neighbours resemble each other is not known.",
      short: "independence not known",
    };
  }
  const { r, p, count } = lagOne.value;
  const seen = `Lag-1 autocorrelation ${fixed(r, 2)} over ${counted(count, "point")}, ${pWords(p)}`;
  if (p >= limits.significance || Math.abs(r) <= limits.autocorrelation) {
    return {
      gate: "independent",
      passed: true,
      reason: `${seen}: neighbours tell nothing of weight about each other.`,
      short: "independent",
    };
  }
  const cause =
    r > 0
      ? "neighbours resemble each other, so these pieces say less than their number, and run rules fire too often"
      : "neighbours swing against each other, as after over-adjusting";
  return {
    gate: "independent",
    passed: false,
    reason: `${seen}: ${cause}.`,
    short: `autocorrelation ${fixed(r, 2)}`,
  };
}

function resolution({ step, sigma, tolerance }: GateEvidence, limits: GateRequirements): JudgedGate {
  if (step === null || sigma === null) {
    return {
      gate: "resolution",
      passed: null,
      reason: "The step between possible readings is not stated and cannot be seen in them.",
      short: "resolution not known",
    };
  }
  if (sigma === 0) {
    return {
      gate: "resolution",
      passed: false,
      reason: `No variation at this resolution: the gauge steps by ${numberWords(step)}. Measure with a finer one.`,
      short: "no variation at this resolution",
    };
  }
  const { lower, upper } = tolerance;
  const share = lower === null || upper === null ? null : step / (upper - lower);
  const steps = `Readings step by ${numberWords(step)}, ${inDigits(step / sigma, 2)} sigma`;
  const ofTolerance = share === null ? "" : ` and ${percent(share)} of the tolerance`;
  if (step / sigma > limits.stepInSigma || (share !== null && share > limits.stepOfTolerance)) {
    return {
      gate: "resolution",
      passed: false,
      reason: `${steps}${ofTolerance}: too coarse; at most ${numberWords(limits.stepInSigma)} sigma and ${percent(limits.stepOfTolerance)} of the tolerance are asked for.`,
      short: `resolution ${inDigits(step / sigma, 2)} sigma`,
    };
  }
  return {
    gate: "resolution",
    passed: true,
    reason: `${steps}${ofTolerance}: fine enough.`,
    short: "resolution fine enough",
  };
}
