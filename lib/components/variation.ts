import type { Computed } from "../computed";
import { type MeasurementSeries, SOURCE_KINDS, type SourceKind } from "../measurements/series";
import { otherCharts } from "../words/en/other-charts";
import { type ComponentLine, type Level, nestedComponents } from "./nested";
import { type OneWayAnova, oneWayAnova } from "./one-way";

const english = otherCharts.variation.shares;

/** One share of the variation, in words a shop uses. */
export type VariationShare = {
  /** "between lots", "between fixtures within a lot", "within a fixture of a lot". */
  words: string;
  /** Standard deviation of the component, in the feature's unit; null when it cannot be told apart. */
  sigma: number | null;
  share: number | null;
  p: number | null;
  line: ComponentLine;
};

export type Variation = {
  shares: VariationShare[];
  /** "47 % between lots, 34 % between fixtures within a lot, 18 % within a fixture of a lot". */
  sentence: string;
  readings: number;
  lots: number;
};

export type SourceTest = { kind: SourceKind | "lot"; groups: number; test: Computed<OneWayAnova> };

/**
 * Where a feature's variation comes from: its lots, the fixtures (or subgroups) within a lot, the rest.
 *
 * The second level is the fixture where lots hold several, else the subgroup where lots hold several. A
 * feature without lots is split by fixture or subgroup alone. Positions name the readings that count.
 *
 * @param subgroupOf the subgroup of each reading of the series
 * @returns the problems of `nestedComponents`: one lot only, one reading in each
 */
export function variationOf({
  series,
  values,
  positions,
  subgroupOf,
  words = english,
}: {
  series: MeasurementSeries;
  values: ArrayLike<number>;
  positions: ArrayLike<number>;
  subgroupOf: ArrayLike<number>;
  /** How the levels are called; English where none are given. */
  words?: typeof english;
}): Computed<Variation> {
  const pick = (column: ArrayLike<number>) => Float64Array.from(positions, (at) => column[at]!);
  const lot = pick(series.lot);
  const levels: (Level & { within: string })[] = [];
  const hasLots = lot.some((id) => id !== 0);
  if (hasLots) levels.push({ name: words.lots, within: words.within.lot, ids: lot });
  const inner = [
    { one: "fixture" as const, ids: pick(series.fixture) },
    { one: "subgroup" as const, ids: pick(subgroupOf) },
  ].find(({ ids }) => hasSeveralWithin(hasLots ? lot : null, ids));
  if (inner) {
    levels.push({
      name: (hasLots ? words.betweenInLot : words.between)[inner.one],
      within: (hasLots ? words.withinOfLot : words.within)[inner.one],
      ids: inner.ids,
    });
  }
  if (levels.length === 0) return { ok: false, problem: { code: "too-few-subgroups", needed: 2, got: 0 } };

  const found = nestedComponents({ values: pick(values), levels });
  if (!found.ok) return found;
  const { within } = levels.at(-1)!;
  const shares = found.value.lines.map(
    (line): VariationShare => ({
      words: line.name === "within" ? within : line.name,
      sigma: line.variance === null ? null : Math.sqrt(line.variance),
      share: line.share,
      p: line.p,
      line,
    }),
  );
  const told = shares.filter((one) => one.share !== null);
  return {
    ok: true,
    value: {
      shares,
      sentence:
        told.length === 0
          ? words.none
          : told.map((one) => words.share(Math.round(100 * one.share!), one.words)).join(", "),
      readings: lot.length,
      lots: new Set(lot).size,
    },
  };
}

/** Whether any parent holds two different ids. Not stated (0) is no id. */
function hasSeveralWithin(parents: ArrayLike<number> | null, ids: ArrayLike<number>): boolean {
  const firstOf = new Map<number, number>();
  for (let i = 0; i < ids.length; i++) {
    if (ids[i] === 0) return false;
    const parent = parents === null ? 0 : parents[i]!;
    const first = firstOf.get(parent);
    if (first === undefined) firstOf.set(parent, ids[i]!);
    else if (first !== ids[i]) return true;
  }
  return false;
}

/**
 * One-way tests of the lots and of each kind of source that states at least two: do their means differ by
 * more than readings scatter? Readings that do not state theirs are left out of that test.
 *
 * Each kind is tested by itself. What lots share is not taken off: lib/drift compares within lots.
 */
export function sourceTests({
  series,
  values,
  positions,
}: {
  series: MeasurementSeries;
  values: ArrayLike<number>;
  positions: ArrayLike<number>;
}): SourceTest[] {
  return (["lot", ...SOURCE_KINDS] as const).flatMap((kind): SourceTest[] => {
    const stated = Array.from(positions).filter((at) => series[kind][at] !== 0);
    const ids = stated.map((at) => series[kind][at]!);
    const groups = new Set(ids).size;
    if (groups < 2) return [];
    return [
      {
        kind,
        groups,
        test: oneWayAnova(
          stated.map((at) => values[at]!),
          ids,
        ),
      },
    ];
  });
}
