import { InvalidInput } from "../checks";
import type { KnownUnit } from "../plan/feature-plan";

/**
 * Exact by definition: the international inch is 25.4 mm (international yard and pound agreement, 1959; NIST SP 811,
 * appendix B; ISO 80000-3; all from memory).
 */
export const MM_PER_INCH = 25.4;

/** In which unit pages show lengths: each in that of the control plan, or all in one. */
export const LENGTH_DISPLAYS = ["plan", "mm", "in"] as const;
export type LengthDisplay = (typeof LENGTH_DISPLAYS)[number];

export function isLengthDisplay(text: unknown): text is LengthDisplay {
  return (LENGTH_DISPLAYS as readonly unknown[]).includes(text);
}

/** The unit in which what the plan has in `unit` is shown. An angle, and what states no unit, is never converted. */
export function shownUnit<Unit extends string>(unit: Unit, display: LengthDisplay): Unit | "mm" | "in" {
  return display !== "plan" && (unit === "mm" || unit === "in") ? display : unit;
}

/**
 * A length in another unit, rounded once: dividing by 25.4 is right to the last bit, multiplying by a rounded 1/25.4
 * would not be. Everything but a length stays what it is.
 */
export function lengthIn(value: number, from: string, to: string): number {
  if (from === "mm" && to === "in") return value / MM_PER_INCH;
  if (from === "in" && to === "mm") return value * MM_PER_INCH;
  return value;
}

/**
 * The step to which a length is rounded in another unit: the largest power of ten that is no coarser than the gauge's.
 *
 *   10^⌊log₁₀ r⌋, r being the gauge's resolution in the other unit
 *
 * 0.001 mm is 0.0000394 in and is shown to 0.00001 in; 0.0001 in is 0.00254 mm and is shown to 0.001 mm. A shown figure
 * is then off by at most half such a step, hence by at most half a step of the gauge, and readings that the gauge told
 * apart stay apart.
 *
 * @throws InvalidInput when the resolution is not above 0
 */
export function resolutionIn(resolution: number, from: string, to: string): number {
  if (!(resolution > 0) || !Number.isFinite(resolution)) {
    throw new InvalidInput("resolutionIn", "resolution", resolution, "above 0");
  }
  const converted = lengthIn(resolution, from, to);
  // 10 in → 254 mm and 25.4 mm → 1 in are powers of ten but for a rounding error.
  return converted === resolution ? resolution : 10 ** Math.floor(Math.log10(converted) + 1e-12);
}

/** A plan unit's way to the unit shown, for what is a length in the first; `null` stays null. */
export function inShownUnit(
  unit: KnownUnit,
  display: LengthDisplay,
): { unit: KnownUnit; length: <Value extends number | null>(value: Value) => Value } {
  const shown = shownUnit(unit, display);
  return {
    unit: shown,
    length: <Value extends number | null>(value: Value) =>
      (value === null ? null : lengthIn(value, unit, shown)) as Value,
  };
}
