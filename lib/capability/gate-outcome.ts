import { claims as english } from "../words/en/claims";
import { type Gate, standsInTheWay } from "./gates";
import type { IndexName } from "./indices";
import type { CapabilityStudy } from "./study";

/** What the outcome of a gate is called; shape and word always go together. */
export function gateOutcome(
  { passed }: Pick<Gate, "passed">,
  { outcomes } = english,
): { tone: "done" | "act" | "none"; word: string } {
  if (passed === null) return { tone: "none", word: outcomes.unknown };
  return passed ? { tone: "done", word: outcomes.passed } : { tone: "act", word: outcomes.failed };
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
  { mayBeCalled } = english,
): string {
  const isCapability = presentable(study) === "capability";
  // By a fitted model the index of a stable process is its capability, since there is no other.
  if (study.modelStudy !== null && isCapability) return mayBeCalled.capability;
  if (name.startsWith("P") || name === "Cpm") return mayBeCalled.performance;
  return isCapability ? mayBeCalled.capability : mayBeCalled.not;
}
