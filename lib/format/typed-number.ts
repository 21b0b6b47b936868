import { decimalMark } from "./marks";

/**
 * A number as a person types it into a field: a point or a comma for the decimals, spaces around it, a typed
 * minus or the printed one. Null for an empty field, undefined for what is no number.
 *
 * A figure with both marks, or with two, could mean two things and is refused.
 */
export function typedNumber(text: string): number | null | undefined {
  const trimmed = text.trim().replace("\u2212", "-");
  if (trimmed === "") return null;
  if (!/^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d{1,2})?$/i.test(trimmed)) return undefined;
  const value = Number(trimmed.replace(",", "."));
  return Number.isFinite(value) ? value : undefined;
}

/** A number as a field offers it to be changed: with the mark of decimals in force, and never parted. */
export function inField(value: number): string {
  return String(value).replace(".", decimalMark());
}
