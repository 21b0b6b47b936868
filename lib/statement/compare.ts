import { statements as english } from "../words/en/statements";
import type { StatedFeature, StatedReadings } from "./content";

export type RecomputedTexts = typeof english.recomputed;

/** One place where two statements of a feature part. */
export type Difference = { what: string; stated: string; now: string };

export type Recomputed = {
  featureId: number;
  name: string;
  /** The readings behind it are the same, one by one. */
  sameData: boolean;
  /** Every figure is the same to the last digit. */
  sameFigures: boolean;
  differences: Difference[];
};

/** More than this nobody reads; the count is said. */
const MOST_SAID = 20;

/**
 * Whether a feature's statement, computed once more, is the one that was signed: each number compared bit for bit, for
 * a JSON text gives every double back exactly.
 *
 * `now` is computed from today's measurements with the plan, limits, exclusions and answers that were signed.
 */
export function compareFeature(
  stated: { feature: StatedFeature; readings: StatedReadings },
  now: { feature: StatedFeature; readings: StatedReadings },
  said: RecomputedTexts = english.recomputed,
): Recomputed {
  const data = readingDifferences(stated.readings, now.readings, said);
  const figures = leafDifferences(plain(stated.feature), plain(now.feature), "", said);
  const all = [...data, ...figures];
  return {
    featureId: stated.feature.featureId,
    name: stated.feature.name,
    sameData: data.length === 0,
    sameFigures: figures.length === 0,
    differences:
      all.length <= MOST_SAID
        ? all
        : [...all.slice(0, MOST_SAID), { what: said.further(all.length - MOST_SAID), stated: "", now: "" }],
  };
}

/** As it comes out of the store: -0 is 0 and what is undefined is not there. */
function plain(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value));
}

function leafDifferences(stated: unknown, now: unknown, path: string, said: RecomputedTexts): Difference[] {
  if (isBranch(stated) && isBranch(now)) {
    const keys = new Set([...Object.keys(stated), ...Object.keys(now)]);
    return [...keys].flatMap((key) =>
      leafDifferences(stated[key], now[key], path === "" ? key : `${path}, ${key}`, said),
    );
  }
  return JSON.stringify(stated) === JSON.stringify(now)
    ? []
    : [{ what: path, stated: leafWords(stated, said), now: leafWords(now, said) }];
}

function isBranch(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null;
}

function leafWords(value: unknown, said: RecomputedTexts): string {
  if (value === undefined) return said.notThere;
  if (value === null) return said.none;
  return typeof value === "string" ? value : JSON.stringify(value);
}

/** Readings by their moment and piece: which are gone, which are new, which have another value. */
function readingDifferences(
  stated: StatedReadings,
  now: StatedReadings,
  said: RecomputedTexts,
): Difference[] {
  const before = byKey(stated);
  const after = byKey(now);
  const differences: Difference[] = [];
  for (const [key, reading] of before) {
    const other = after.get(key);
    if (other === undefined) {
      differences.push({ what: said.reading(key), stated: reading, now: said.gone });
    } else if (other !== reading) {
      differences.push({ what: said.reading(key), stated: reading, now: other });
    }
  }
  for (const [key, reading] of after) {
    if (!before.has(key)) differences.push({ what: said.reading(key), stated: said.notYet, now: reading });
  }
  return differences;
}

function byKey({ takenAt, value, lot, piece, gauge }: StatedReadings): Map<string, string> {
  const found = new Map<string, string>();
  for (const [i, at] of takenAt.entries()) {
    const base = `${new Date(at).toISOString()}${piece[i] ? `, piece ${piece[i]}` : ""}`;
    let key = base;
    // A piece measured twice in one millisecond: told apart by its turn.
    for (let turn = 2; found.has(key); turn++) key = `${base}, no. ${turn}`;
    const from = [lot[i] && `lot ${lot[i]}`, gauge[i] && `gauge ${gauge[i]}`].filter(Boolean).join(", ");
    found.set(key, `${value[i]}${from ? ` (${from})` : ""}`);
  }
  return found;
}

/** The outcome for a whole statement, and whether the program is the one that signed. */
export function recomputedWords(
  features: readonly Recomputed[],
  { signed, now }: { signed: string; now: string },
  { recomputed: said } = english,
): string {
  const by = signed === now ? said.sameProgram(now) : said.otherProgram(signed, now);
  return `${outcomeWords(features, said)} ${by}`;
}

function outcomeWords(features: readonly Recomputed[], said: RecomputedTexts): string {
  const other = features.filter(({ sameData, sameFigures }) => !sameData || !sameFigures);
  if (other.length === 0) {
    return said.same(features.length);
  }
  const data = other.filter(({ sameData }) => !sameData).length;
  return data > 0 ? said.data(data) : said.figures(other.length);
}
