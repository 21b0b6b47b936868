import { logBayesFactor, logSumExp, normalScore } from "./bayes-factor";
import type { Hypotheses, Hypothesis } from "./hypotheses";
import type { LotAxis } from "./lot-axis";
import { type ChangeKind, type ScannedSource, sourceKey } from "./measured-part";
import type { TableScan } from "./scan-table";
import { SHARE_WEIGHTS, SHARES } from "./settings";

/** Where a candidate was tested: hypothesis k of a table, or entry k of its spread hypotheses. */
export type Place = { table: number; k: number };

/** One thing that may have happened, over all parts. */
export type Candidate = {
  source: ScannedSource;
  kind: ChangeKind;
  variant: Hypothesis["variant"];
  life: number;
  /** Index on the axis of lots. */
  onset: number;
  /** Log evidence, careful and as if features were independent. */
  tempered: number;
  plain: number;
  places: Place[];
  /** Sums along a pattern that physics fixes; null where there is none. */
  pattern: { along: number; square: number; variance: number; weight: number } | null;
};

export type WeighedSource = {
  source: ScannedSource;
  tempered: number;
  plain: number;
  candidates: Candidate[];
};

/**
 * The evidence against each source: averaged over the kinds of change and, within a kind, over onsets, with equal
 * weights. Averages of e-values are e-values, so scanning many onsets costs nothing but their number.
 */
export function weighSources(scans: readonly TableScan[], axis: LotAxis): WeighedSource[] {
  const bySource = new Map<string, Candidate[]>();
  for (const candidate of [...meanCandidates(scans, axis), ...spreadCandidates(scans, axis)]) {
    const key = sourceKey(candidate.source);
    const known = bySource.get(key);
    if (known === undefined) bySource.set(key, [candidate]);
    else known.push(candidate);
  }
  return [...bySource.values()].map((candidates) => ({
    source: candidates[0]!.source,
    tempered: averaged(candidates, (one) => one.tempered),
    plain: averaged(candidates, (one) => one.plain),
    candidates,
  }));
}

/** log of the mean over kinds of the mean over onsets. */
function averaged(candidates: readonly Candidate[], of: (candidate: Candidate) => number): number {
  const kinds = new Map<string, number[]>();
  for (const candidate of candidates) {
    const kind = candidate.kind + candidate.variant;
    const known = kinds.get(kind);
    if (known === undefined) kinds.set(kind, [of(candidate)]);
    else known.push(of(candidate));
  }
  return logSumExp([...kinds.values()].map(logMean)) - Math.log(kinds.size);
}

export function logMean(logs: readonly number[]): number {
  return logSumExp(logs) - Math.log(logs.length);
}

function meanCandidates(scans: readonly TableScan[], axis: LotAxis): Candidate[] {
  const groups = new Map<string, { head: Head; courses: { table: number; at: number; onsets: Onsets }[] }>();
  for (const [table, { hypotheses }] of scans.entries()) {
    for (const [key, { head, byOnset }] of coursesOf(hypotheses)) {
      const onsets = [...byOnset]
        .map(([lot, k]): Onsets[number] => [axis.indexOf[table]![lot]!, k])
        .sort(([a], [b]) => a - b);
      const group = groups.get(key) ?? { head, courses: [] };
      groups.set(key, group);
      group.courses.push({ table, at: 0, onsets });
    }
  }
  return [...groups.values()].flatMap(({ head, courses }) => {
    const all = unionOf(courses.map(({ onsets }) => onsets));
    const onsets = head.variant === "" ? all : all.slice(0, 1);
    return onsets.flatMap((onset) => {
      const places: Place[] = [];
      for (const course of courses) {
        // A part that did not run in a lot sees the change in its next one.
        while (course.at < course.onsets.length && course.onsets[course.at]![0] < onset) course.at++;
        const k = course.onsets[course.at]?.[1];
        if (k === undefined || scans[course.table]!.evidence.features[k] === 0) continue;
        places.push({ table: course.table, k });
      }
      return places.length === 0 ? [] : [pooled(scans, { ...head, onset, places })];
    });
  });
}

type Head = Pick<Candidate, "source" | "kind" | "variant" | "life">;
/** Pairs of a lot of the axis and the hypothesis that begins there, in time. */
type Onsets = [number, number][];
type Course = { head: Head; byOnset: Map<number, number> };

/** What is tried on a table stays the same while one thing after another is explained. */
const grouped = new WeakMap<Hypotheses, Map<string, Course>>();

/** By source, type, variant and life: the hypothesis that begins at each lot of the table. */
function coursesOf(hypotheses: Hypotheses): Map<string, Course> {
  const known = grouped.get(hypotheses);
  if (known !== undefined) return known;
  const courses = new Map<string, Course>();
  for (const [k, { source, type, variant, life, onset }] of hypotheses.all.entries()) {
    const key = `${sourceKey(source)}|${type}|${variant}|${life}`;
    const course = courses.get(key) ?? { head: { source, kind: type, variant, life }, byOnset: new Map() };
    courses.set(key, course);
    course.byOnset.set(onset, k);
  }
  grouped.set(hypotheses, courses);
  return courses;
}

function unionOf(all: readonly Onsets[]): number[] {
  const union = new Set<number>();
  for (const onsets of all) for (const [onset] of onsets) union.add(onset);
  return [...union].sort((a, b) => a - b);
}

type Unpooled = Omit<Candidate, "tempered" | "plain" | "pattern">;

/** Parts are different pieces, so their log evidence adds up; the pattern of physics runs through all of them. */
function pooled(scans: readonly TableScan[], candidate: Unpooled): Candidate {
  const { source, places } = candidate;
  const careful = new Float64Array(SHARES.length);
  const bold = new Float64Array(SHARES.length);
  const sums = { along: 0, alongPlain: 0, square: 0, variance: 0, weight: 1, freedom: 0 };
  const cleaned = new Float64Array(SHARES.length);
  let isCleaned = false;
  const located = { isKnown: false, tempered: 0, plain: 0 };
  for (const { table, k } of places) {
    const { evidence } = scans[table]!;
    for (let p = 0; p < SHARES.length; p++) {
      careful[p]! += evidence.tempered[k * SHARES.length + p]!;
      bold[p]! += evidence.plain[k * SHARES.length + p]!;
    }
    // A part without a cleaned test goes into the cleaned sum as it is.
    const own = cleanedOf(evidence, k) ?? evidence.tempered;
    isCleaned ||= own === evidence.cleaned;
    for (let p = 0; p < SHARES.length; p++) cleaned[p]! += own[k * SHARES.length + p]!;
    if (evidence.located !== null) {
      located.isKnown = true;
      located.tempered += evidence.located.tempered[k]!;
      located.plain += evidence.located.plain[k]!;
    }
    sums.along += evidence.pattern.along[k]!;
    sums.alongPlain += evidence.pattern.alongPlain[k]!;
    sums.square += evidence.pattern.square[k]!;
    sums.variance += evidence.pattern.variance[k]!;
    sums.weight = evidence.weight[k]!;
    sums.freedom = Math.max(sums.freedom, evidence.freedom[k]!);
  }
  const raw = overShares(careful, source.kind);
  const tempered = isCleaned ? halfEach(raw, overShares(cleaned, source.kind)) : raw;
  const plain = overShares(bold, source.kind);
  if (located.isKnown && source.kind === "fixture") {
    return {
      ...candidate,
      tempered: halfEach(tempered, located.tempered),
      plain: halfEach(plain, located.plain),
      pattern: null,
    };
  }
  if (sums.square === 0) return { ...candidate, tempered, plain, pattern: null };
  const along = alongPattern(sums, source.kind);
  return {
    ...candidate,
    ...(source.kind === "temperature"
      ? along
      : { tempered: halfEach(tempered, along.tempered), plain: halfEach(plain, along.plain) }),
    pattern: { along: sums.alongPlain, square: sums.square, variance: sums.variance, weight: sums.weight },
  };
}

function cleanedOf({ cleaned }: TableScan["evidence"], k: number): Float64Array | null {
  return cleaned === null || Number.isNaN(cleaned[k * SHARES.length]!) ? null : cleaned;
}

const LOG_WEIGHTS = new Map(
  Object.entries(SHARE_WEIGHTS).map(([kind, weights]) => [kind, weights.map((weight) => Math.log(weight))]),
);
const weighted = new Float64Array(SHARES.length);

function overShares(logs: Float64Array, kind: string): number {
  const logWeights = LOG_WEIGHTS.get(kind)!;
  for (let p = 0; p < weighted.length; p++) weighted[p] = logs[p]! + logWeights[p]!;
  return logSumExp(weighted);
}

function halfEach(a: number, b: number): number {
  return logSumExp([a, b]) - Math.LN2;
}

/** Usual size of the effect of temperature, in units of 1e-5 per kelvin. */
const TEMPERATURE_SLAB = 1.2;
/** A negative expansion is no physics. */
const IMPOSSIBLE = -50;

function alongPattern(
  sums: {
    along: number;
    alongPlain: number;
    square: number;
    variance: number;
    weight: number;
    freedom: number;
  },
  kind: string,
): { tempered: number; plain: number } {
  const slab = kind === "temperature" ? TEMPERATURE_SLAB : 1 / sums.weight;
  const z = normalScore(sums.along / Math.sqrt(sums.variance), sums.freedom);
  const tempered = logBayesFactor(z, (slab * sums.square) ** 2 / sums.variance);
  const plain = logBayesFactor(sums.alongPlain / Math.sqrt(sums.square), slab * slab * sums.square);
  if (kind !== "temperature") return { tempered, plain };
  const side = Math.LN2 + (sums.along > 0 ? 0 : IMPOSSIBLE);
  return { tempered: tempered + side, plain: plain + side };
}

function spreadCandidates(scans: readonly TableScan[], axis: LotAxis): Candidate[] {
  const found = new Map<string, { source: ScannedSource; onset: number; places: Place[] }>();
  for (const [table, { spread }] of scans.entries()) {
    for (const [k, { source, from }] of spread.hypotheses.entries()) {
      const onset = axis.indexOf[table]![from]!;
      const key = `${sourceKey(source)}|${onset}`;
      const known = found.get(key);
      if (known === undefined) found.set(key, { source, onset, places: [{ table, k }] });
      else known.places.push({ table, k });
    }
  }
  return [...found.values()].map(({ source, onset, places }) => {
    const careful = new Float64Array(SHARES.length);
    const bold = new Float64Array(SHARES.length);
    const rocking = places.flatMap(({ table, k }) => {
      const log = scans[table]!.spread.rocking[k]!;
      return Number.isNaN(log) ? [] : [log];
    });
    for (const { table, k } of places) {
      const { spread } = scans[table]!;
      for (let p = 0; p < SHARES.length; p++) {
        careful[p]! += spread.tempered[k * SHARES.length + p]!;
        bold[p]! += spread.plain[k * SHARES.length + p]!;
      }
    }
    const together = rocking.reduce((sum, log) => sum + log, 0);
    const withRocking = (log: number) => (rocking.length === 0 ? log : halfEach(log, together));
    return {
      source,
      kind: "spread",
      variant: "",
      life: -1,
      onset,
      tempered: withRocking(logMean([...careful])),
      plain: withRocking(logMean([...bold])),
      places,
      pattern: null,
    };
  });
}
