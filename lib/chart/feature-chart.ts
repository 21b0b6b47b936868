import type { Evaluation } from "../evaluation/evaluation";
import type { Pattern } from "../evaluation/patterns";
import type { EvaluationSetup } from "../evaluation/setup";
import type { LimitsBasis } from "../limits/limits-for-size";
import { standardiseLocation, standardiseSpread } from "../limits/standardise";
import { type MeasurementSeries, SOURCE_KINDS, type SourceKind } from "../measurements/series";
import { TIE } from "../rules/judge";
import { axisSpans } from "./axis-spans";
import { coveringMarks, LEAST_MARKS } from "./covering-marks";
import { decimate } from "./decimate";
import { RIBBON_KINDS, type RibbonKind, sourceOfSubgroup } from "./ribbons";
import type { Span } from "./scale";
import type { ShownWindow } from "./shown-window";

/** One single reading of a subgroup; ids as in the series. */
export type ReadingDetail = {
  /** As charted, and as the gauge gave it where that differs. */
  value: number;
  measured: number;
  partTemp: number | null;
  piece: number;
  /** Among the readings of its subgroup. */
  place: number;
};

/** One point of both charts with all that can be said of it. Ids are those of the series. */
export type ChartPoint = {
  number: number;
  at: number;
  size: number;
  mean: number;
  spread: number | null;
  excluded: boolean;
  /** In units of the point's own sigma; null without limits, or when left out. */
  z: number | null;
  spreadZ: number | null;
  beyond: boolean;
  spreadBeyond: boolean;
  /** Belongs to a pattern on that chart. */
  member: boolean;
  spreadMember: boolean;
  sources: Record<RibbonKind, number>;
  readings: ReadingDetail[];
};

/** The points of a window, ready to be drawn. */
export function chartPoints(
  evaluation: Evaluation,
  {
    series,
    setup,
    patterns,
    window,
  }: { series: MeasurementSeries; setup: EvaluationSetup; patterns: readonly Pattern[]; window: ShownWindow },
): ChartPoint[] {
  const { points, formed, values } = evaluation;
  const near = patterns.filter(({ members }) => members.at(-1)! >= window.from && members[0]! <= window.to);
  const bases = basesOf(evaluation, setup);
  const memberOf = { location: membersOf(near, "location"), spread: membersOf(near, "spread") };
  const shown: ChartPoint[] = [];
  for (let number = window.from; number <= window.to; number++) {
    const { z, spreadZ } = standardised(points, bases, number);
    const spread = points.spread[number]!;
    const readings: ReadingDetail[] = [];
    for (let k = formed.start[number]!; k < formed.start[number + 1]!; k++) {
      const position = formed.order[k]!;
      const partTemp = series.partTemp[position]!;
      readings.push({
        value: values[position]!,
        measured: series.value[position]!,
        partTemp: Number.isNaN(partTemp) ? null : partTemp,
        piece: series.piece[position]!,
        place: k - formed.start[number]!,
      });
    }
    shown.push({
      number,
      at: points.at[number]!,
      size: points.size[number]!,
      mean: points.mean[number]!,
      spread: Number.isNaN(spread) ? null : spread,
      excluded: points.excluded[number] === 1,
      z,
      spreadZ,
      beyond: isBeyond(z),
      spreadBeyond: isBeyond(spreadZ),
      member: memberOf.location.has(number),
      spreadMember: memberOf.spread.has(number),
      sources: Object.fromEntries(
        RIBBON_KINDS.map((kind) => [kind, sourceOfSubgroup(series[kind], formed, number)]),
      ) as Record<RibbonKind, number>,
      readings,
    });
  }
  return shown;
}

/** The whole history for a strip under the chart: as many points as it can show, none that matters lost. */
export type Overview = {
  /** Corners of the line, every mark among them. */
  corners: Uint32Array;
  /** Subgroups that are beyond a limit or in a pattern, and those left out: how many, and the marks that stand for them. */
  marked: { count: number; marks: number[] };
  excluded: { count: number; marks: number[] };
  /** What the means span, with some room; a mean far off it is drawn at its end. */
  span: Span;
};

/** Together at most 2,000 points: a corner of the line for each mark, and the marks. */
const MOST_CORNERS = 1_200;
const MOST_MARKED = 600;
const MOST_EXCLUDED = LEAST_MARKS;
const ROOM = 0.08;

export function overviewOf(
  evaluation: Evaluation,
  { setup, patterns }: { setup: EvaluationSetup; patterns: readonly Pattern[] },
): Overview {
  const { points } = evaluation;
  const bases = basesOf(evaluation, setup);
  const isMember = new Uint8Array(points.count);
  for (const { members } of patterns) for (const member of members) isMember[member] = 1;
  const marked: number[] = [];
  const excluded: number[] = [];
  for (let number = 0; number < points.count; number++) {
    if (points.excluded[number] === 1) excluded.push(number);
    else if (isMember[number] === 1) marked.push(number);
    else {
      const { z, spreadZ } = standardised(points, bases, number);
      if (isBeyond(z) || isBeyond(spreadZ)) marked.push(number);
    }
  }
  const kept = evaluation.versions.flatMap(({ centre, sigma }) => [centre - 3 * sigma, centre + 3 * sigma]);
  const span = axisSpans(points.mean, { kept, margin: ROOM }).near;
  const marksOf = (subgroups: readonly number[], most: number) => ({
    count: subgroups.length,
    marks: coveringMarks(subgroups, { values: points.mean, span, most }),
  });
  const [shown, hollow] = [marksOf(marked, MOST_MARKED), marksOf(excluded, MOST_EXCLUDED)];
  const isKept = new Uint8Array(points.count);
  for (const number of [...shown.marks, ...hollow.marks]) isKept[number] = 1;
  const mustKeep = (number: number) => isKept[number] === 1;
  const corners = decimate({ values: points.mean, mustKeep, most: MOST_CORNERS });
  return { corners, marked: shown, excluded: hollow, span };
}

/** By the position of a version of the limits, what its points are standardised by; null where nothing can be. */
function basesOf({ versions }: Evaluation, { plan: { chart } }: EvaluationSetup): (LimitsBasis | null)[] {
  return versions.map(({ centre, sigma, betweenLots }) =>
    sigma > 0 ? { chart, centre, sigma, betweenLots } : null,
  );
}

function standardised(
  points: Evaluation["points"],
  bases: readonly (LimitsBasis | null)[],
  number: number,
): { z: number | null; spreadZ: number | null } {
  const basis = bases[points.limits[number]!];
  if (!basis || points.excluded[number] === 1) return { z: null, spreadZ: null };
  const size = points.size[number]!;
  const spread = points.spread[number]!;
  return {
    z: standardiseLocation(basis, { mean: points.mean[number]!, size }),
    spreadZ: Number.isNaN(spread) ? null : standardiseSpread(basis, { spread, size }),
  };
}

/** Strictly beyond three sigma of its own, as the rule has it; a lower spread limit of 0 is never passed. */
function isBeyond(z: number | null): boolean {
  return z !== null && Math.abs(z) > 3 + TIE;
}

function membersOf(patterns: readonly Pattern[], chart: Pattern["chart"]): Set<number> {
  const members = new Set<number>();
  for (const pattern of patterns) {
    if (pattern.chart !== chart) continue;
    for (const member of pattern.members) members.add(member);
  }
  return members;
}

/** The kinds of sources that any measurement states, in their usual order. */
export function kindsStated(series: MeasurementSeries): SourceKind[] {
  return SOURCE_KINDS.filter((kind) => isStated(series[kind]));
}

/** Whether any measurement states it. A plain loop: of a million, `some` took five times as long. */
export function isStated(ids: Uint32Array): boolean {
  for (let i = 0; i < ids.length; i++) if (ids[i] !== 0) return true;
  return false;
}
