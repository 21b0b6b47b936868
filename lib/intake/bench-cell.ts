import { measured, toleranceWords, withUnit } from "../format/numbers";
import { typedNumber } from "../format/typed-number";
import type { KnownUnit } from "../plan/feature-plan";

export type BenchFeature = {
  id: number;
  name: string;
  unit: KnownUnit;
  resolution: number | null;
  lower: number | null;
  upper: number | null;
};

/**
 * What a typed cell comes to, said at once: nothing typed, a value within its tolerance, a value outside it (which
 * is stored all the same: it was measured), or no number (which keeps the sheet from being stored).
 */
export type BenchCell =
  | { kind: "empty" }
  | { kind: "value"; value: number }
  | { kind: "outside"; value: number; words: string }
  | { kind: "fault"; words: string };

export function readBenchCell(text: string, feature: BenchFeature): BenchCell {
  const value = typedNumber(text);
  if (value === null) return { kind: "empty" };
  if (value === undefined)
    return { kind: "fault", words: `“${text.trim()}” is not a number. Type digits and one point or comma.` };
  const { lower, upper, unit, resolution } = feature;
  const tolerance = toleranceWords({ lower, upper }, { resolution, unit });
  const by = (distance: number) => withUnit(measured(distance, { resolution, extra: 1 }), unit);
  if (upper !== null && value > upper)
    return { kind: "outside", value, words: `${by(value - upper)} above the tolerance of ${tolerance}.` };
  if (lower !== null && value < lower)
    return { kind: "outside", value, words: `${by(lower - value)} below the tolerance of ${tolerance}.` };
  return { kind: "value", value };
}
