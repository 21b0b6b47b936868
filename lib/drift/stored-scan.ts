import type { DriftFlag, DriftScan } from "./drift-scan";

/** A scan as it is kept, with the lots of each part in time: part names as `partName` gives them. */
export type StoredScan = DriftScan & { partLots: { part: string; lots: string[] }[] };

/*
 * JSON knows no infinity, and writes null for it: "not foreseeable" would be read as "nothing". So it is written out.
 */
const INFINITE = "∞";
const MINUS_INFINITE = "−∞";

export function scanToText(scan: StoredScan | DriftFlag): string {
  return JSON.stringify(scan, (_name, value: unknown) => {
    if (value === Number.POSITIVE_INFINITY) return INFINITE;
    return value === Number.NEGATIVE_INFINITY ? MINUS_INFINITE : value;
  });
}

export function scanFromText(text: string): StoredScan {
  return read(text) as StoredScan;
}

export function flagFromText(text: string): DriftFlag {
  return read(text) as DriftFlag;
}

function read(text: string): unknown {
  return JSON.parse(text, (_name, value: unknown) => {
    if (value === INFINITE) return Number.POSITIVE_INFINITY;
    return value === MINUS_INFINITE ? Number.NEGATIVE_INFINITY : value;
  });
}
