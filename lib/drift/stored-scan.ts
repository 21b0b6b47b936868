import type { DriftFlag, DriftScan } from "./drift-scan";

/** A scan as it is kept, with the lots of each part in time: part names as `partName` gives them. */
export type StoredScan = DriftScan & { partLots: { part: string; lots: string[] }[] };

/*
 * JSON knows no infinity, and writes null for it: "not foreseeable" would be read as "nothing". So it is written out.
 */
const INFINITE = "∞";
const MINUS_INFINITE = "−∞";

export function scanToText(scan: StoredScan | DriftFlag): string {
  return JSON.stringify(replaced(scan, infiniteAsText));
}

export function scanFromText(text: string): StoredScan {
  return read(text) as StoredScan;
}

export function flagFromText(text: string): DriftFlag {
  return read(text) as DriftFlag;
}

function read(text: string): unknown {
  const parsed: unknown = JSON.parse(text);
  return text.includes(INFINITE) ? replaced(parsed, textAsInfinite) : parsed;
}

function infiniteAsText(value: unknown): unknown {
  if (value === Number.POSITIVE_INFINITY) return INFINITE;
  return value === Number.NEGATIVE_INFINITY ? MINUS_INFINITE : value;
}

function textAsInfinite(value: unknown): unknown {
  if (value === INFINITE) return Number.POSITIVE_INFINITY;
  return value === MINUS_INFINITE ? Number.NEGATIVE_INFINITY : value;
}

/**
 * With what is no object or list replaced; what holds nothing to replace is the very same. A walk of our own, for JSON
 * calls a function for each value at ten times the cost.
 */
function replaced(value: unknown, by: (value: unknown) => unknown): unknown {
  if (typeof value !== "object" || value === null) return by(value);
  if (Array.isArray(value)) {
    let copy: unknown[] | null = null;
    for (let i = 0; i < value.length; i++) {
      const own = replaced(value[i], by);
      if (own === value[i] || Number.isNaN(own)) continue;
      copy ??= [...value];
      copy[i] = own;
    }
    return copy ?? value;
  }
  let copy: Record<string, unknown> | null = null;
  for (const [name, one] of Object.entries(value)) {
    const own = replaced(one, by);
    if (own === one || Number.isNaN(own)) continue;
    copy ??= { ...value };
    copy[name] = own;
  }
  return copy ?? value;
}
