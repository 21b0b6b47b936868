import { claim } from "../capability/claim";
import {
  type ClaimWords,
  ENGLISH_CLAIMS,
  GATE_REQUIREMENTS,
  type GateEvidence,
  type JudgedGate,
  judgeGates,
} from "../capability/gates";
import { gaugeStep } from "../capability/study";
import { judgedTolerance } from "../capability/tolerance";
import { computed, problem } from "../computed";
import { type Marks, marksFor, USUAL_MARKS, withUsualMarks } from "../format/marks";
import type { Language } from "../words/language";
import type { PlainStudy, StatedFeature } from "./content";

/** The sentences of a stated feature. */
export type Said = {
  claim: string;
  gates: PlainStudy["gates"];
  gaugeBasis: string | null;
  /** Nothing was left in the English in which it was signed. */
  isWhole: boolean;
};

/** How a signed sheet writes its figures: in English as they were signed, in German as German does. */
export function marksAsSigned(language: Language): Marks {
  return language === "en" ? USUAL_MARKS : marksFor({ decimal: "language", grouping: "language", language });
}

/**
 * What was signed of a feature, in the language of the reader.
 *
 * A statement holds its sentences in English, and its digest is of them. They follow from figures that it holds too, so
 * they are made once more from these: first in English, and where every one of them is the signed one letter by letter,
 * in the other language. A sentence of an older version of the program, or one that cannot be made again, stays as it
 * was signed.
 */
export function saidIn(feature: StatedFeature, words: ClaimWords): Said {
  const { study } = feature;
  const signed = { claim: study.claim, gates: study.gates, gaugeBasis: feature.gaugeBasis };
  if (words.claims === ENGLISH_CLAIMS.claims) return { ...signed, isWhole: true };
  const english = withUsualMarks(() => sentences(feature, feature.gaugeBasis, ENGLISH_CLAIMS));
  const isSame =
    english.claim === signed.claim &&
    english.gates.length === signed.gates.length &&
    english.gates.every((gate, i) => {
      const other = signed.gates[i]!;
      return gate.gate === other.gate && gate.passed === other.passed && gate.reason === other.reason;
    });
  if (!isSame) return { ...signed, isWhole: false };
  const basis = basisIn(feature.gaugeBasis, words);
  const made = sentences(feature, basis, words);
  return {
    claim: made.claim,
    gates: made.gates.map(({ gate, passed, reason }) => ({ gate, passed, reason })),
    gaugeBasis: basis,
    isWhole: feature.gaugeBasis === null || basis !== feature.gaugeBasis,
  };
}

function sentences(
  feature: StatedFeature,
  gaugeBasis: string | null,
  words: ClaimWords,
): { claim: string; gates: JudgedGate[] } {
  const { study } = feature;
  const gates = judgeGates({ ...evidenceOf(feature), gaugeBasis }, GATE_REQUIREMENTS, words);
  const { lowerBounds, confidence, problem: why, sigmaWithin, modelStudy } = study;
  const model = modelStudy?.fit.model ?? null;
  return {
    gates,
    claim: claim({ indices: study, lowerBounds, confidence, gates, problem: why, sigmaWithin, model, words }),
  };
}

/** What the gates looked at, from what a statement holds. */
function evidenceOf({
  study,
  subgroups,
  pieces,
  lots,
  unresolvedSignals,
  gaugeShare,
  resolution,
  plan,
}: StatedFeature): GateEvidence {
  const charted = study.gates.find(({ gate }) => gate === "stable")?.passed !== null;
  const { normality, modelStudy, count } = study;
  return {
    unresolvedSignals: charted ? unresolvedSignals : null,
    subgroups,
    pieces,
    lots,
    normality:
      normality !== null
        ? computed(normality)
        : problem(
            study.sdOverall === 0
              ? { code: "no-variation" }
              : { code: "too-few-readings", needed: count + 1, got: count },
          ),
    fit: modelStudy && { ...modelStudy.fit, count },
    gaugeShare,
    lagOne: lagOneOf(study),
    step: gaugeStep(normality?.step ?? null, resolution),
    sigma: study.sigmaWithin ?? study.sdOverall,
    tolerance: judgedTolerance("saidIn", plan),
  };
}

const LAG_ONE = /^Lag-1 autocorrelation (\u2212?[\d.]+) over (\d+) points?, p (below )?([\d.]+)/;

/** Less than any digit that is written. */
const A_HAIR = 1e-9;

/**
 * The autocorrelation is stated in its sentence alone, rounded. One that was beyond the bounds and is on them as written
 * lies a hair beyond, which is written alike.
 */
function lagOneOf({ gates }: PlainStudy): GateEvidence["lagOne"] {
  const gate = gates.find((each) => each.gate === "independent");
  const [, rText = "", count = "", below, pText = ""] = LAG_ONE.exec(gate?.reason ?? "") ?? [];
  if (rText === "") return problem({ code: "no-variation" });
  const r = Number(rText.replace("\u2212", "-"));
  const p = below === undefined ? Number(pText) : Number(pText) / 2;
  if (gate?.passed !== false) return computed({ r, p, count: Number(count) });
  const { autocorrelation, significance } = GATE_REQUIREMENTS;
  return computed({
    r: Math.sign(r) * Math.max(Math.abs(r), autocorrelation + A_HAIR),
    p: Math.min(p, significance - A_HAIR),
    count: Number(count),
  });
}

const BASES: readonly [RegExp, keyof ClaimWords["claims"]["basis"]][] = [
  [/^By the maximum permissible error of (.+); no crossed study of it is in force\.$/, "error"],
  [/^From crossed study (\d+) of (.+), made ([\d-]+) on this feature\.$/, "ofThis"],
  [
    /^From crossed study (\d+) of (.+), made ([\d-]+) on (.+) of (.+); none was made on this feature\.$/,
    "ofAnother",
  ],
  [/^From crossed study (\d+) of (.+), made ([\d-]+) on no feature of the control plan\.$/, "ofNone"],
];

/** Where a share is from, as signed, in another language; as it was signed where no pattern is known. */
function basisIn(basis: string | null, { claims: { basis: said } }: ClaimWords): string | null {
  if (basis === null) return null;
  for (const [pattern, name] of BASES) {
    const [, first = "", code = "", day = "", feature = "", part = ""] = pattern.exec(basis) ?? [];
    if (first === "") continue;
    switch (name) {
      case "error":
        return said.error(first);
      case "ofThis":
        return said.ofThis(Number(first), code, day);
      case "ofAnother":
        return said.ofAnother(Number(first), code, day, feature, part);
      case "ofNone":
        return said.ofNone(Number(first), code, day);
    }
  }
  return basis;
}
