import type { LimitsVersion } from "../plan/feature-plan";
import type { Progress } from "./progress";
import { type EvaluationSetup, TRIAL_SUBGROUPS } from "./setup";

/**
 * The limits that judge whatever comes next; null while trial limits still change with every subgroup. None where the
 * first subgroups gave none, being all alike for instance: they stay the first, and no later one changes that.
 */
export function settledLimits(
  { limits, recent }: Progress,
  { versions }: EvaluationSetup,
): readonly LimitsVersion[] | null {
  if (versions.length > 0) return versions;
  if (recent.length < TRIAL_SUBGROUPS) return null;
  return limits ? [limits] : [];
}
