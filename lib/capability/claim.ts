import type { Problem } from "../computed";
import { fixedAtLeast } from "../format/numbers";
import { type JudgedGate, standsInTheWay } from "./gates";
import type { IndexName, Indices } from "./indices";
import { indexWords, numberWords, percent } from "./words";

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
}: {
  indices: Indices;
  lowerBounds: Record<IndexName, number | null>;
  confidence: number;
  gates: readonly JudgedGate[];
  /** Why there are no indices; null when there are. */
  problem: Problem | null;
  /** Null where too few subgroups are complete, 0 where nothing varies within them. */
  sigmaWithin: number | null;
  /** "a Weibull distribution" where the indices rest on a fitted model; null for the normal one. */
  model?: string | null;
}): string {
  if (problem !== null) return withoutIndices(problem);

  const cpk = quoted("Cpk", { indices, lowerBounds, confidence });
  const ppk = quoted("Ppk", { indices, lowerBounds, confidence });
  const inTheWay = gates.filter(standsInTheWay);
  const open = gates.filter((gate) => gate.passed === null).map((gate) => gate.short);
  // A fitted model has one spread, that of all readings: its index of a stable process is the capability.
  const index = model === null ? cpk : `${ppk} by ${model}`;
  if (inTheWay.length > 0 || index === null) {
    const why = inTheWay.map((gate) => gate.short);
    if (index === null) {
      why.push(
        sigmaWithin === null
          ? "too few complete subgroups for a sigma within them"
          : "no variation within subgroups at this resolution",
      );
    }
    return `Not presentable as capability: ${why.join("; ")}. Performance ${model === null ? ppk : index}.`;
  }
  const quotedGates = gates.filter(
    (gate) =>
      gate.gate === "stable" || gate.gate === "enough" || gate.gate === "gauge" || MODEL_GATES.has(gate.gate),
  );
  const words = [
    ...[...quotedGates]
      .sort((a, b) => ORDER.indexOf(a.gate) - ORDER.indexOf(b.gate))
      .map((gate) => gate.short),
    ...open.filter((short) => !quotedGates.some((gate) => gate.short === short)),
  ];
  return `${index}, ${words.join(", ")}.`;
}

/** How much was measured comes first, then how it behaved. */
const ORDER = ["enough", "stable", "normal", "distribution", "gauge"];

const MODEL_GATES = new Set(["normal", "distribution"]);

function quoted(
  name: IndexName,
  {
    indices,
    lowerBounds,
    confidence,
  }: { indices: Indices; lowerBounds: Record<IndexName, number | null>; confidence: number },
): string | null {
  const index = indices[name];
  if (index === null) return null;
  const bound = lowerBounds[name];
  const atLeast =
    bound === null ? "" : `, at least ${fixedAtLeast(bound, 2)} with ${percent(confidence)} confidence`;
  return `${name} ${indexWords(index)}${atLeast}`;
}

function withoutIndices(problem: Problem): string {
  switch (problem.code) {
    case "no-tolerance":
      return "No index: the feature has no tolerance limit to be judged against.";
    case "not-positive":
      return `No index by this model: it starts at zero, and one reading is ${numberWords(problem.least).replace("-", "−")}. Choose another model.`;
    case "no-variation":
      return "No index: no variation at this resolution, all readings are alike. Measure with a finer step.";
    case "too-few-readings":
      return `No index yet: ${problem.got} of at least ${problem.needed} readings.`;
    default:
      return "No index yet.";
  }
}
