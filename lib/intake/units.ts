import type { KnownUnit } from "../plan/feature-plan";
import type { Scale } from "./numbers";

/** Units a file may state. Micrometres are stored as millimetres. */
export type FileUnit = Exclude<KnownUnit, "none"> | "µm";

const SPELLINGS: Readonly<Record<FileUnit, readonly string[]>> = {
  mm: ["mm", "millimetre", "millimetres", "millimeter", "millimeters"],
  in: ["in", "inch", "inches", '"', "″", "”", "''", "′′", "zoll"],
  deg: ["deg", "degs", "degree", "degrees", "°", "º"],
  // Both the micro sign and the Greek letter are met.
  µm: ["µm", "μm", "um", "micron", "microns", "micrometre", "micrometres", "micrometer", "micrometers"],
};

const BY_SPELLING = new Map(
  Object.entries(SPELLINGS).flatMap(([unit, spellings]) =>
    spellings.map((spelling) => [spelling, unit as FileUnit] as const),
  ),
);

/** The unit behind a usual spelling in any case ("Inch", "in.", "″", "°"), or null when it is not known. */
export function readUnit(text: string): FileUnit | null {
  const plain = text.trim().toLowerCase();
  return BY_SPELLING.get(plain) ?? BY_SPELLING.get(plain.replace(/\.$/, "")) ?? null;
}

/** The unit in which values stated in `unit` are kept when the file states no other for the feature. */
export function keptUnit(unit: FileUnit): KnownUnit {
  return unit === "µm" ? "mm" : unit;
}

/**
 * The exact change from one unit to another; null where nothing changes.
 * One inch is 25.4 mm by definition (international yard and pound agreement, 1959; from memory).
 *
 * @returns "none" between a length and an angle
 */
export function scaleBetween({ from, to }: { from: FileUnit; to: KnownUnit }): Scale | null | "none" {
  if (from === to) return null;
  if (from === "deg" || to === "deg") return "none";
  if (to === "mm")
    return from === "µm" ? { times: 1, over: 1, shift: -3 } : { times: 254, over: 1, shift: -1 };
  return { times: 1, over: 254, shift: from === "µm" ? -2 : 1 };
}
