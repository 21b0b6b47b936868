import { childAt, textAt, type XmlRecord } from "./xml-record";

/** Limits of a characteristic in its own unit; null where there is none. */
export type Limits = { lower: number | null; upper: number | null };

/** What a characteristic's definition and nominal say. Two readings differ only where the file leaves it open. */
export type Requirement = {
  nominal: number | null;
  limits: Limits;
  /** The limits if the two values were limits themselves although the file calls them offsets; null otherwise. */
  ifLimits: Limits | null;
};

const NO_LIMITS: Limits = { lower: null, upper: null };

/** Kinds whose value is signed and may lie on either side of the nominal surface: half the zone each way. */
const SIGNED_ZONES = new Set(["PointProfile"]);

/**
 * The limits that a definition sets, with the target of its nominal.
 *
 * - a tolerance by two values: limits when `DefinedAsLimit` is true, else offsets from the target
 * - a tolerance zone (position, flatness, profile …): the value lies between 0 and the zone's width, for a
 *   signed point profile between minus and plus half of it
 * - no tolerance (basic and reference dimensions): none
 *
 * Some files write limits and call them offsets. Which of both a file means shows in what it states of its
 * measurements (`statedOtherwise`), so both are kept.
 *
 * Source: QIF 3.0, ISO 23952:2020, definitions of characteristics (read in the schema's documentation).
 */
export function requirementOf(kind: string, definition: XmlRecord, nominal: XmlRecord | null): Requirement {
  const target = numberOrNull(nominal ? textAt(nominal, "TargetValue") : "");
  const tolerance = childAt(definition, "Tolerance") ?? definition;
  const most = numberOrNull(textAt(tolerance, "MaxValue"));
  const least = numberOrNull(textAt(tolerance, "MinValue"));
  if (most !== null || least !== null) {
    const written = { lower: least, upper: most };
    if (textAt(tolerance, "DefinedAsLimit") === "true")
      return { nominal: target, limits: written, ifLimits: null };
    if (target === null) return { nominal: null, limits: NO_LIMITS, ifLimits: written };
    const shifted = { lower: plus(target, least), upper: plus(target, most) };
    return { nominal: target, limits: shifted, ifLimits: target === 0 ? null : written };
  }
  const zone = numberOrNull(textAt(tolerance, "ToleranceValue"));
  if (zone === null) return { nominal: target, limits: NO_LIMITS, ifLimits: null };
  const limits = SIGNED_ZONES.has(kind)
    ? { lower: -zone / 2, upper: zone / 2 }
    : { lower: null, upper: zone };
  return { nominal: target, limits, ifLimits: null };
}

/** Whether a stated PASS or FAIL is not what the value says of these limits; other states say nothing. */
export function statedOtherwise(value: number, status: string, { lower, upper }: Limits): boolean {
  if ((status !== "PASS" && status !== "FAIL") || (lower === null && upper === null)) return false;
  const isInside =
    value >= (lower ?? Number.NEGATIVE_INFINITY) && value <= (upper ?? Number.POSITIVE_INFINITY);
  return isInside !== (status === "PASS");
}

/** A sum as a person would write it: 25.399999999999999 + 0.25 is 25.65, whatever binary makes of it. */
function plus(target: number, offset: number | null): number | null {
  return offset === null ? null : Number((target + offset).toPrecision(15));
}

export function numberOrNull(text: string): number | null {
  const value = text === "" ? Number.NaN : Number(text);
  return Number.isFinite(value) ? value : null;
}
