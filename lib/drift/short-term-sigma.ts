import { middleOf } from "./middle";

/** E min(|d|, 2.5 s)² for a normal d with standard deviation s, over s²/2: consistent for normal data. */
const WINSORISED = 1.93;
const CUT = 2.5;
const MAD_TO_SD = 0.6745;

/** Fewer differences than this say too little. */
export const LEAST_DIFFERENCES = 6;

/**
 * Scatter of single pieces made one after another, from the differences of successive ones; in the unit.
 *
 *   cut = 2.5 median |d| / 0.6745,     σ̂² = mean min(|d|, cut)² / 1.93
 *
 * Differences see nothing of drifts and steps, and the cut takes away the weight of blunders. Where the median
 * difference is no more than one step of the gauge, rounding makes the median useless: σ̂² = mean d² / 2. Never
 * below step/√6, the scatter that rounding alone leaves in a pair.
 *
 * @param differences their sizes
 * @param step of the gauge; 0 where it is not known
 * @returns null below six differences
 */
export function shortTermSigma(differences: Float64Array, step: number): number | null {
  if (differences.length < LEAST_DIFFERENCES) return null;
  const middle = middleOf(differences);
  const coarse = middle <= step;
  const cut = coarse ? Number.POSITIVE_INFINITY : (CUT * middle) / MAD_TO_SD;
  let sum = 0;
  for (let i = 0; i < differences.length; i++) sum += Math.min(differences[i]!, cut) ** 2;
  const variance = sum / differences.length / (coarse ? 2 : WINSORISED);
  return Math.sqrt(Math.max(variance, (step * step) / 6));
}
