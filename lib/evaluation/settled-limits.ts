import type { LimitsVersion } from "../plan/feature-plan";
import type { Progress } from "./progress";
import { type EvaluationSetup, TRIAL_SUBGROUPS } from "./setup";

/** The limits that judge whatever comes next; null while trial limits still change with every subgroup. */
export function settledLimits(
  { limits, recent }: Progress,
  { versions }: EvaluationSetup,
): readonly LimitsVersion[] | null {
  if (versions.length > 0) return versions;
  return limits && recent.length >= TRIAL_SUBGROUPS ? [limits] : null;
}
