import type { LagOne } from "../autocorrelation/lag-one";
import { InvalidInput, requireCount } from "../checks";
import type { Computed } from "../computed";
import { type FigureWords, fixed, inDigits } from "../format/numbers";
import type { Tolerance } from "../plan/feature-plan";
import { claims } from "../words/en/claims";
import { figures } from "../words/en/figures";
import type { ModelName } from "./models/model";
import type { Normality } from "./normality";
import { numberWords, percent, pWords } from "./words";

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
  model: ModelName;
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
  /** Where that share is from, as a sentence of the same language. */
  gaugeBasis?: string | null | undefined;
  lagOne: Computed<Pick<LagOne, "r" | "p" | "count">>;
  /** Step between possible readings and the sigma it is compared with, in the feature's unit. */
  step: number | null;
  /** How a page writes a length; a bare figure when absent, as in what is signed. */
  lengthWords?: ((length: number) => string) | undefined;
  sigma: number | null;
  tolerance: Tolerance;
};

/** What the sentences of a study are made of. */
export type ClaimWords = { claims: typeof claims; figures: FigureWords };

/** As in what is stored and signed, and on the command line. */
export const ENGLISH_CLAIMS: ClaimWords = { claims, figures };

type Judged = (evidence: GateEvidence, requirements: GateRequirements, words: ClaimWords) => JudgedGate;

/** The six gates of a study in their fixed order. */
export function judgeGates(
  evidence: GateEvidence,
  requirements: GateRequirements,
  words: ClaimWords = ENGLISH_CLAIMS,
): JudgedGate[] {
  const shape = evidence.fit === null ? normal : distribution;
  return [stable, enough, shape, gauge, independent, resolution].map((judge) =>
    judge(evidence, requirements, words),
  );
}

/** A process with open signals has no single spread that an index could stand for. */
const stable: Judged = ({ unresolvedSignals }, _, { claims: { stable: said } }) => {
  if (unresolvedSignals === null) return { gate: "stable", passed: null, ...said.unknown };
  requireCount("judgeGates", "unresolvedSignals", unresolvedSignals, 0);
  return unresolvedSignals === 0
    ? { gate: "stable", passed: true, ...said.passed }
    : { gate: "stable", passed: false, ...said.failed(unresolvedSignals) };
};

const enough: Judged = ({ subgroups, pieces, lots }, least, { claims: { enough: said } }) => {
  requireCount("judgeGates", "subgroups", subgroups, 0);
  requireCount("judgeGates", "pieces", pieces, 0);
  if (lots !== null) requireCount("judgeGates", "lots", lots, 0);
  const amount = { subgroups, pieces, lots };
  const isTooLittle =
    subgroups < least.subgroups || pieces < least.pieces || (lots !== null && lots < least.lots);
  if (isTooLittle) return { gate: "enough", passed: false, ...said.failed(amount, least) };
  return lots === null
    ? { gate: "enough", passed: null, ...said.unknown(amount, least) }
    : { gate: "enough", passed: true, ...said.passed(amount, least) };
};

const normal: Judged = ({ normality }, { significance }, { claims: { normal: said }, figures: written }) => {
  if (!normality.ok) {
    const isAlike = normality.problem.code === "no-variation";
    return { gate: "normal", passed: null, ...(isAlike ? said.alike : said.few) };
  }
  const { p, count, spreadOverGrid, stepInSigma } = normality.value;
  const A2 = fixed(normality.value.A2, 3);
  const pText = pWords(p, written);
  if (p >= significance) return { gate: "normal", passed: true, ...said.passed(A2, pText, count) };
  if (spreadOverGrid !== null && spreadOverGrid.p >= significance && stepInSigma !== null) {
    const steps = inDigits(stepInSigma, 2);
    const spread = pWords(spreadOverGrid.p, written);
    return { gate: "normal", passed: true, ...said.grid(A2, pText, count, steps, spread) };
  }
  return { gate: "normal", passed: false, ...said.failed(A2, pText, count) };
};

/** An index by a model says nothing while the model does not stand for the readings. */
const distribution: Judged = ({ fit }, { significance }, { claims: texts, figures: written }) => {
  if (fit === null) throw new InvalidInput("judgeGates", "fit", fit, "a fitted model");
  const { distribution: said, models } = texts;
  const about = [fixed(fit.A2, 3), pWords(fit.p, written), fit.count, models[fit.model]] as const;
  if (fit.p >= significance) return { gate: "distribution", passed: true, ...said.passed(...about) };
  if (fit.spreadOverGrid !== null && fit.spreadOverGrid.p >= significance) {
    const spread = pWords(fit.spreadOverGrid.p, written);
    return { gate: "distribution", passed: true, ...said.grid(...about, spread) };
  }
  return { gate: "distribution", passed: false, ...said.failed(...about) };
};

const gauge: Judged = (evidence, limits, words) => {
  const judged = gaugeAlone(evidence, limits, words);
  return evidence.gaugeBasis ? { ...judged, reason: `${judged.reason} ${evidence.gaugeBasis}` } : judged;
};

const gaugeAlone: Judged = ({ gaugeShare }, limits, { claims: { gauge: said } }) => {
  if (gaugeShare === null) return { gate: "gauge", passed: null, ...said.unknown };
  if (!(Number.isFinite(gaugeShare) && gaugeShare >= 0)) {
    throw new InvalidInput("judgeGates", "gaugeShare", gaugeShare, "a share of the tolerance, 0 or more");
  }
  const share = percent(gaugeShare);
  if (gaugeShare <= limits.gaugeGood) return { gate: "gauge", passed: true, ...said.good(share) };
  return gaugeShare <= limits.gaugeConditional
    ? { gate: "gauge", passed: true, ...said.usable(share, percent(limits.gaugeGood)) }
    : { gate: "gauge", passed: false, ...said.failed(share, percent(limits.gaugeConditional)) };
};

const independent: Judged = ({ lagOne }, limits, { claims: { independent: said }, figures: written }) => {
  if (!lagOne.ok) return { gate: "independent", passed: null, ...said.unknown };
  const { r, p, count } = lagOne.value;
  const seen = [fixed(r, 2), count, pWords(p, written)] as const;
  if (p >= limits.significance || Math.abs(r) <= limits.autocorrelation)
    return { gate: "independent", passed: true, ...said.passed(...seen) };
  return { gate: "independent", passed: false, ...(r > 0 ? said.alike(...seen) : said.swinging(...seen)) };
};

const resolution: Judged = (
  { step, sigma, tolerance, lengthWords = numberWords },
  limits,
  { claims: { resolution: said } },
) => {
  if (step === null || sigma === null) return { gate: "resolution", passed: null, ...said.unknown };
  if (sigma === 0) return { gate: "resolution", passed: false, ...said.none(lengthWords(step)) };
  const { lower, upper } = tolerance;
  const share = lower === null || upper === null ? null : step / (upper - lower);
  const steps = [
    lengthWords(step),
    inDigits(step / sigma, 2),
    share === null ? null : percent(share),
  ] as const;
  if (step / sigma > limits.stepInSigma || (share !== null && share > limits.stepOfTolerance)) {
    const most = [numberWords(limits.stepInSigma), percent(limits.stepOfTolerance)] as const;
    return { gate: "resolution", passed: false, ...said.failed(...steps, ...most) };
  }
  return { gate: "resolution", passed: true, ...said.passed(...steps) };
};
