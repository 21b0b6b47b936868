import type { Problem } from "../computed";
import { fixedAtLeast } from "../format/numbers";
import { type ClaimWords, ENGLISH_CLAIMS, type JudgedGate, standsInTheWay } from "./gates";
import type { IndexName, Indices } from "./indices";
import type { ModelName } from "./models/model";
import { indexWords, numberWords } from "./words";

/**
 * The sentence that may honestly be said to a customer.
 *
 * Capability is a promise about a stable process and is claimed only when no gate stands in its way; otherwise the
 * sentence speaks of performance, of what these pieces did, and says why. What is not known is named too.
 */
export function claim({
  indices,
  lowerBounds,
  confidence,
  gates,
  problem,
  sigmaWithin,
  model = null,
  words = ENGLISH_CLAIMS,
  lengthWords = numberWords,
}: {
  indices: Indices;
  lowerBounds: Record<IndexName, number | null>;
  confidence: number;
  gates: readonly JudgedGate[];
  /** Why there are no indices; null when there are. */
  problem: Problem | null;
  /** Null where too few subgroups are complete, 0 where nothing varies within them. */
  sigmaWithin: number | null;
  /** Where the indices rest on a fitted model; null for the normal one. */
  model?: ModelName | null | undefined;
  words?: ClaimWords | undefined;
  lengthWords?: ((length: number) => string) | undefined;
}): string {
  const { claim: said, models } = words.claims;
  if (problem !== null) return withoutIndices(problem, said, lengthWords);

  const cpk = quoted("Cpk", { indices, lowerBounds, confidence, said });
  const ppk = quoted("Ppk", { indices, lowerBounds, confidence, said });
  const inTheWay = gates.filter(standsInTheWay);
  const open = gates.filter((gate) => gate.passed === null).map((gate) => gate.short);
  // A fitted model has one spread, that of all readings: its index of a stable process is the capability.
  const index = model === null ? cpk : said.byModel(ppk ?? "", models[model]);
  if (inTheWay.length > 0 || index === null) {
    const why = inTheWay.map((gate) => gate.short);
    if (index === null) {
      why.push(sigmaWithin === null ? said.noSubgroups : said.noVariationWithin);
    }
    return said.notCapability(why.join("; "), (model === null ? ppk : index) ?? "");
  }
  const quotedGates = gates.filter(
    (gate) =>
      gate.gate === "stable" || gate.gate === "enough" || gate.gate === "gauge" || MODEL_GATES.has(gate.gate),
  );
  const why = [
    ...[...quotedGates]
      .sort((a, b) => ORDER.indexOf(a.gate) - ORDER.indexOf(b.gate))
      .map((gate) => gate.short),
    ...open.filter((short) => !quotedGates.some((gate) => gate.short === short)),
  ];
  return `${index}, ${why.join(", ")}.`;
}

/** How much was measured comes first, then how it behaved. */
const ORDER = ["enough", "stable", "normal", "distribution", "gauge"];

const MODEL_GATES = new Set(["normal", "distribution"]);

type Texts = ClaimWords["claims"]["claim"];

function quoted(
  name: IndexName,
  {
    indices,
    lowerBounds,
    confidence,
    said,
  }: {
    indices: Indices;
    lowerBounds: Record<IndexName, number | null>;
    confidence: number;
    said: Texts;
  },
): string | null {
  const index = indices[name];
  if (index === null) return null;
  const bound = lowerBounds[name];
  const atLeast = bound === null ? "" : said.atLeast(fixedAtLeast(bound, 2), confidence);
  return `${said.index(name, indexWords(index))}${atLeast}`;
}

function withoutIndices(problem: Problem, said: Texts, lengthWords: (length: number) => string): string {
  switch (problem.code) {
    case "no-tolerance":
      return said.noTolerance;
    case "not-positive":
      return said.notPositive(lengthWords(problem.least));
    case "no-variation":
      return said.noVariation;
    case "too-few-readings":
      return said.fewReadings(problem.got, problem.needed);
    default:
      return said.notYet;
  }
}
