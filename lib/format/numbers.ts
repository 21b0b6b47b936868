import { InvalidInput, requireFiniteNumbers } from "../checks";
import { figures as english } from "../words/en/figures";
import { withMarks } from "./marks";

/** How a language says bounds; English where none is given, as on the command line. */
export type FigureWords = typeof english;

/** Wide enough to align with a plus sign, and what a reader of figures expects; a hyphen is neither. */
const MINUS = "\u2212";

/** Decimals shown where a feature's resolution is not stated. */
const PLACES_WITHOUT_RESOLUTION = 3;

/** More decimals than this no gauge gives; a resolution of 1/3 must not fill the page. */
const MOST_PLACES = 8;

/**
 * Decimals that show every step of a gauge: 0.001 needs 3, 0.0005 needs 4, 1 and 5 need none.
 *
 * @throws InvalidInput when the resolution is not above 0
 */
export function placesOf(resolution: number | null): number {
  if (resolution === null) return PLACES_WITHOUT_RESOLUTION;
  if (!(resolution > 0) || !Number.isFinite(resolution)) {
    throw new InvalidInput("placesOf", "resolution", resolution, "above 0");
  }
  for (let places = 0; places < MOST_PLACES; places++) {
    const steps = resolution * 10 ** places;
    if (Math.round(steps) >= 1 && Math.abs(steps - Math.round(steps)) < 1e-9 * Math.max(1, steps))
      return places;
  }
  return MOST_PLACES;
}

/** A number with fixed decimals, rounded once; a rounded zero has no sign. `signed` shows the plus as well. */
export function fixed(value: number, places: number, { signed = false }: { signed?: boolean } = {}): string {
  requireFiniteNumbers("fixed", { value });
  const digits = Math.abs(value).toFixed(places);
  const isZero = Number(digits) === 0;
  const text = withMarks(digits);
  if (value < 0 && !isZero) return MINUS + text;
  return signed && !isZero ? `+${text}` : text;
}

/**
 * A measured value at its gauge's resolution. `extra` adds decimals: a mean of five resolves more than one
 * reading, so centre lines and limits are shown with one more.
 */
export function measured(
  value: number,
  { resolution, extra = 0, signed = false }: { resolution: number | null; extra?: number; signed?: boolean },
): string {
  return fixed(value, placesOf(resolution) + extra, { signed });
}

const UNIT_SIGNS: Record<string, string> = { mm: "mm", in: "in", deg: "°", none: "" };

/** The sign that follows a figure: "mm", "in" or "°", nothing where no unit is stated. */
export function unitSign(unit: string): string {
  return UNIT_SIGNS[unit] ?? unit;
}

/** A unit within a sentence: "mm", "inches", "degrees". */
export function unitName(unit: string, { unitNames }: Pick<FigureWords, "unitNames"> = english): string {
  const names: Readonly<Record<string, string>> = unitNames;
  return names[unit] ?? unitSign(unit);
}

/** "12.345 mm", "0.5°": figure and unit with a space that does not break, none before a degree sign. */
export function withUnit(figure: string, unit: string): string {
  const sign = unitSign(unit);
  if (sign === "") return figure;
  return sign === "°" ? `${figure}°` : `${figure}\u00a0${sign}`;
}

/** "45.000 to 45.050 mm", "at most 0.050 mm", "at least 12.0 mm" or "no tolerance". */
export function toleranceWords(
  { lower, upper }: { lower: number | null; upper: number | null },
  { resolution, unit }: { resolution: number | null; unit: string },
  words: FigureWords = english,
): string {
  const shown = (value: number) => measured(value, { resolution: finerOf(resolution, lower, upper) });
  if (lower !== null && upper !== null) return withUnit(words.fromTo(shown(lower), shown(upper)), unit);
  if (upper !== null) return words.atMost(withUnit(shown(upper), unit));
  if (lower !== null) return words.atLeast(withUnit(shown(lower), unit));
  return words.noTolerance;
}

/** A drawing may state a limit finer than the gauge resolves; it is never shown rounded. */
function finerOf(resolution: number | null, ...limits: (number | null)[]): number {
  const places = limits.map((limit) => (limit === null ? 0 : placesStated(limit)));
  return 10 ** -Math.max(placesOf(resolution), ...places);
}

/** Decimals in which a number was written down: 12.35 has 2. */
export function placesWritten(value: number): number {
  for (let places = 0; places < MOST_PLACES; places++) {
    if (Math.abs(value - Number(value.toFixed(places))) < 1e-12 * Math.max(1, Math.abs(value))) return places;
  }
  return MOST_PLACES;
}

/** Of a limit that was converted and has no end: what 0.01 mm is in inches, and one more. */
const PLACES_OF_CONVERTED = 5;

/**
 * Decimals in which a drawing states a limit. One that no eight decimals write was stated in another unit, as that of a
 * drawing in mm which is shown in inches: the gauge's decimals say it, five at least.
 */
export function placesStated(limit: number): number {
  const places = placesWritten(limit);
  return places === MOST_PLACES ? PLACES_OF_CONVERTED : places;
}

/**
 * A lower bound with fixed decimals, rounded down: what is at least 1.329 is not at least 1.33. What lies within
 * a billionth of a step counts as on it.
 */
export function fixedAtLeast(value: number, places: number): string {
  return fixed(roundedDown(value, places), places);
}

/** The number that `fixedAtLeast` writes. */
export function roundedDown(value: number, places: number): number {
  requireFiniteNumbers("roundedDown", { value });
  const steps = 10 ** places;
  return Math.floor(value * steps + 1e-9) / steps;
}

/** "14 %": a share as a whole percentage, with one decimal below 10 %. */
export function percent(share: number): string {
  const value = share * 100;
  return `${fixed(value, Math.abs(value) < 10 && Math.abs(value) > 0 ? 1 : 0)}\u00a0%`;
}

/** "1 piece", "3 pieces", "12,500 pieces". The plural adds an s unless it is given. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${whole(count)} ${count === 1 ? one : many}`;
}

/** A count, thousands parted from 10,000 on, as in running text. */
export function whole(count: number): string {
  return withMarks(String(Math.round(count)).replace("-", MINUS));
}

/** At most so many digits that count, without zeros at the end: for a figure in running text. */
export function inDigits(value: number, digits: number): string {
  return asEntered(Number(value.toPrecision(digits)));
}

/** A number as it stands, without rounding, such as one that a person entered. */
export function asEntered(value: number): string {
  return withMarks(String(value).replace("-", MINUS));
}
