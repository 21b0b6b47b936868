import { type Gate, type GateName, standsInTheWay } from "./gates";
import type { IndexName } from "./indices";
import type { CapabilityStudy } from "./study";

/** What each gate asks, in the word that stands beside its shape. */
export const GATE_WORDS: Record<GateName, string> = {
  stable: "stable",
  enough: "enough",
  normal: "normal",
  distribution: "distribution",
  gauge: "gauge",
  independent: "independent",
  resolution: "resolution",
};

/** What the outcome of a gate is called; shape and word always go together. */
export function gateOutcome({ passed }: Pick<Gate, "passed">): {
  tone: "done" | "act" | "none";
  word: string;
} {
  if (passed === null) return { tone: "none", word: "not known" };
  return passed ? { tone: "done", word: "passed" } : { tone: "act", word: "failed" };
}

/** capability: no gate stands in the way · performance: an index of what these pieces did · none: no index at all. */
export type Presentable = "capability" | "performance" | "none";

export function presentable({
  problem,
  gates,
  Cpk,
  modelStudy,
}: Pick<CapabilityStudy, "problem" | "gates" | "Cpk"> & { modelStudy: unknown }): Presentable {
  if (problem !== null) return "none";
  const hasIndex = modelStudy !== null || Cpk !== null;
  return hasIndex && !gates.some(standsInTheWay) ? "capability" : "performance";
}

/** What an index may be called before a customer. Those of all readings never promise more than these pieces did. */
export function indexMayBeCalled(
  name: IndexName,
  study: Parameters<typeof presentable>[0],
): "capability" | "performance" | "not presentable" {
  const isCapability = presentable(study) === "capability";
  // By a fitted model the index of a stable process is its capability, since there is no other.
  if (study.modelStudy !== null && isCapability) return "capability";
  if (name.startsWith("P") || name === "Cpm") return "performance";
  return isCapability ? "capability" : "not presentable";
}
