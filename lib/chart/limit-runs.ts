import { type ControlLimits, limitsForSize } from "../limits/limits-for-size";
import type { LimitsVersion } from "../plan/feature-plan";

/** Neighbouring subgroups that share their limits: one step of the limit lines. */
export type LimitRun = {
  /** First and last subgroup. */
  from: number;
  to: number;
  /** Position in `versions`. */
  version: number;
  size: number;
  location: ControlLimits;
  spread: ControlLimits | null;
};

/** Neighbouring subgroups that were judged by one version. */
export type Phase = { from: number; to: number; version: number };

type Judged = { limits: ArrayLike<number>; size: ArrayLike<number> };

/**
 * The limit lines as steps: anew with every version, and with every change of the subgroup size, since the
 * limits of a mean of four are wider than those of five.
 *
 * Subgroups that no limits judged (−1) leave a gap; a version whose sigma is 0 draws none.
 *
 * @param window first and last subgroup, both inside
 */
export function limitRuns(
  { limits, size }: Judged,
  { versions, window }: { versions: readonly LimitsVersion[]; window: { from: number; to: number } },
): LimitRun[] {
  const runs: LimitRun[] = [];
  for (let k = window.from; k <= window.to; k++) {
    const at = limits[k]!;
    const version = versions[at];
    if (!version || version.sigma <= 0) continue;
    const last = runs.at(-1);
    if (last && last.to === k - 1 && last.version === at && last.size === size[k]) {
      last.to = k;
      continue;
    }
    runs.push({ from: k, to: k, version: at, size: size[k]!, ...limitsForSize(version, size[k]!) });
  }
  return runs;
}

/** Runs of one version, without regard to the subgroup size. Subgroups without limits are in none. */
export function phasesOf({ limits }: Pick<Judged, "limits">, window: { from: number; to: number }): Phase[] {
  const phases: Phase[] = [];
  for (let k = window.from; k <= window.to; k++) {
    const version = limits[k]!;
    if (version < 0) continue;
    const last = phases.at(-1);
    if (last && last.to === k - 1 && last.version === version) last.to = k;
    else phases.push({ from: k, to: k, version });
  }
  return phases;
}
