import type { Exclusion, FeaturePlan, KnownUnit, LimitsVersion } from "../plan/feature-plan";

/** Everything that decides how a feature's measurements are judged. */
export type EvaluationSetup = {
  plan: FeaturePlan;
  unit: KnownUnit;
  /** Frozen versions in ascending order of `effectiveFrom`; empty while only trial limits exist. */
  versions: readonly LimitsVersion[];
  exclusions: readonly Exclusion[];
};

/** Trial limits rest on the first subgroups up to this number (ISO 7870-2 recommends 25; from memory). */
export const TRIAL_SUBGROUPS = 25;

/** Fewer subgroups than this do not carry final limits (ISO 7870-2; from memory). */
export const LEAST_FOR_FINAL = 20;

/** An excursion has returned to normal after this many subgroups without a signal. Common practice, no source. */
export const QUIET_SUBGROUPS = 3;

/** Version number of limits that nobody has frozen. */
export const TRIAL_VERSION = 0;

/** The version in force at a moment; the first one also judges what came before it. Null when there is none. */
export function versionAt(versions: readonly LimitsVersion[], at: number): LimitsVersion | null {
  let inForce = versions[0] ?? null;
  for (const version of versions) if (version.effectiveFrom <= at) inForce = version;
  return inForce;
}

export function isExcluded(exclusions: readonly Exclusion[], at: number): boolean {
  return exclusions.some((exclusion) => exclusion.from <= at && at <= exclusion.to);
}
