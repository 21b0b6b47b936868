import { measured, toleranceWords, withUnit } from "../format/numbers";
import type { Tolerance } from "../plan/feature-plan";

/** What a tolerance strip shows, as sentences for somebody who does not see it. */
export function stripWords({
  plan,
  unit,
  resolution,
  limits,
  means,
}: {
  plan: { tolerance: Tolerance };
  unit: string;
  resolution: number | null;
  limits: { lower: number; upper: number } | null;
  means: readonly number[];
}): string {
  const { tolerance } = plan;
  const shown = (value: number) => measured(value, { resolution, extra: 1 });
  const newest = means.at(-1);
  const sentences: string[] = [];
  if (newest === undefined) sentences.push("No subgroups yet.");
  else {
    const where = sideOf(newest, tolerance);
    sentences.push(`Newest mean ${withUnit(shown(newest), unit)}${where}.`);
  }
  const isStated = tolerance.lower !== null || tolerance.upper !== null;
  sentences.push(
    isStated ? `Tolerance ${toleranceWords(tolerance, { resolution, unit })}.` : "No tolerance is stated.",
  );
  if (limits)
    sentences.push(`Control limits ${withUnit(`${shown(limits.lower)} to ${shown(limits.upper)}`, unit)}.`);
  if (means.length > 1) {
    const range = `${shown(Math.min(...means))} and ${shown(Math.max(...means))}`;
    sentences.push(`The last ${means.length} means lie between ${withUnit(range, unit)}.`);
  }
  return sentences.join(" ");
}

function sideOf(value: number, { lower, upper }: Tolerance): string {
  if (upper !== null && value > upper) return ", above the tolerance";
  return lower !== null && value < lower ? ", below the tolerance" : "";
}
