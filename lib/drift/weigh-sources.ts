import { logBayesFactor, logSumExp, normalScore } from "./bayes-factor";
import type { TableEvidence } from "./evidence";
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
 *
 * @param only this source alone is weighed
 */
export function weighSources(
  scans: readonly TableScan[],
  axis: LotAxis,
  only: ScannedSource | null = null,
): WeighedSource[] {
  const bySource = new Map<string, Candidate[]>();
  let last: ScannedSource | null = null;
  let own: Candidate[] = [];
  const asked = askedFor(only);
  for (const candidates of [meanCandidates(scans, axis, asked), spreadCandidates(scans, axis, asked)]) {
    for (const candidate of candidates) {
      // Candidates of a source come one after another, with the very same source.
      if (candidate.source !== last) {
        last = candidate.source;
        const key = sourceKey(last);
        own = bySource.get(key) ?? [];
        bySource.set(key, own);
      }
      own.push(candidate);
    }
  }
  return [...bySource.values()].map((candidates) => {
    const kinds = byKind(candidates);
    return {
      source: candidates[0]!.source,
      tempered: averaged(kinds, (one) => one.tempered),
      plain: averaged(kinds, (one) => one.plain),
      candidates,
    };
  });
}

function byKind(candidates: readonly Candidate[]): Candidate[][] {
  const kinds = new Map<ChangeKind, Map<Candidate["variant"], Candidate[]>>();
  const found: Candidate[][] = [];
  for (const candidate of candidates) {
    const variants = kinds.get(candidate.kind) ?? new Map<Candidate["variant"], Candidate[]>();
    kinds.set(candidate.kind, variants);
    const known = variants.get(candidate.variant);
    if (known !== undefined) known.push(candidate);
    else {
      const own = [candidate];
      variants.set(candidate.variant, own);
      found.push(own);
    }
  }
  return found;
}

/** log of the mean over kinds of the mean over onsets. */
function averaged(kinds: readonly Candidate[][], of: (candidate: Candidate) => number): number {
  return logMean(kinds.map((own) => logMean(own.map(of))));
}

export function logMean(logs: ArrayLike<number>): number {
  return logSumExp(logs) - Math.log(logs.length);
}

function askedFor(only: ScannedSource | null): (source: ScannedSource) => boolean {
  return only === null ? () => true : ({ kind, id }) => kind === only.kind && id === only.id;
}

type IsAsked = ReturnType<typeof askedFor>;

function meanCandidates(scans: readonly TableScan[], axis: LotAxis, isAsked: IsAsked): Candidate[] {
  const found: Candidate[] = [];
  const evidence = scans.map((scan) => scan.evidence);
  const isKnown = ({ table, k }: Place) => evidence[table]!.features[k] !== 0;
  for (const one of triedOn(scans, axis)) {
    if (!isAsked(one.source)) continue;
    const told = one.places.every(isKnown) ? one : { ...one, places: one.places.filter(isKnown) };
    if (told.places.length === 1) found.push(pooledAlone(evidence, told));
    else if (told.places.length > 0) found.push(pooled(evidence, told));
  }
  return found;
}

/** What one table says alone holds as long as its evidence: by hypothesis. */
const alone = new WeakMap<TableEvidence, (Candidate | undefined)[]>();

function pooledAlone(evidence: readonly TableEvidence[], one: Unpooled): Candidate {
  const [{ table, k }] = one.places as [Place];
  const known = alone.get(evidence[table]!) ?? [];
  alone.set(evidence[table]!, known);
  const before = known[k];
  const isSame = before !== undefined && before.onset === one.onset && before.places[0]!.table === table;
  const found = isSame ? before : pooled(evidence, one);
  known[k] = found;
  return found;
}

/** What is tried stays the same while one thing after another is explained: an axis serves one scan. */
const tried = new WeakMap<LotAxis, Unpooled[]>();

function triedOn(scans: readonly TableScan[], axis: LotAxis): Unpooled[] {
  const found = tried.get(axis) ?? [...coursesOn(scans, axis)].flatMap(unpooledIn);
  tried.set(axis, found);
  return found;
}

type Group = { head: Head; courses: { table: number; at: number; onsets: Onsets }[] };

function coursesOn(scans: readonly TableScan[], axis: LotAxis): Iterable<Group> {
  const groups = new Map<string, Group>();
  for (const [table, { hypotheses }] of scans.entries()) {
    const indexOf = axis.indexOf[table]!;
    for (const [key, { head, byOnset }] of coursesOf(hypotheses)) {
      const onsets: Onsets = [];
      for (const [lot, k] of byOnset) onsets.push([indexOf[lot]!, k]);
      if (onsets.length > 1) onsets.sort(([a], [b]) => a - b);
      const group = groups.get(key) ?? { head, courses: [] };
      groups.set(key, group);
      group.courses.push({ table, at: 0, onsets });
    }
  }
  return groups.values();
}

function unpooledIn({ head, courses }: Group): Unpooled[] {
  const all = unionOf(courses.map(({ onsets }) => onsets));
  const onsets = head.variant === "" ? all : all.slice(0, 1);
  const { source, kind, variant, life } = head;
  return onsets.map((onset) => {
    const places: Place[] = [];
    for (const course of courses) {
      // A part that did not run in a lot sees the change in its next one.
      while (course.at < course.onsets.length && course.onsets[course.at]![0] < onset) course.at++;
      const k = course.onsets[course.at]?.[1];
      if (k !== undefined) places.push({ table: course.table, k });
    }
    return { source, kind, variant, life, onset, places };
  });
}

type Head = Pick<Candidate, "source" | "kind" | "variant" | "life">;
/** Pairs of a lot of the axis and the hypothesis that begins there, in time. */
type Onsets = [number, number][];
type Course = { head: Head; byOnset: Map<number, number> };

/** And on a table that memory kept, from one scan to the next. */
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
  if (all.length === 1) return all[0]!.map(([onset]) => onset);
  const union = new Set<number>();
  for (const onsets of all) for (const [onset] of onsets) union.add(onset);
  return [...union].sort((a, b) => a - b);
}

type Unpooled = Omit<Candidate, "tempered" | "plain" | "pattern">;

/** One set of vectors serves all candidates: each is done with it before the next begins. */
const spare = {
  careful: new Float64Array(SHARES.length),
  bold: new Float64Array(SHARES.length),
  cleaned: new Float64Array(SHARES.length),
};

/** Parts are different pieces, so their log evidence adds up; the pattern of physics runs through all of them. */
function pooled(
  every: readonly TableEvidence[],
  { source, kind, variant, life, onset, places }: Unpooled,
): Candidate {
  const { careful, bold, cleaned } = spare;
  for (const sums of [careful, bold, cleaned]) sums.fill(0);
  const sums = { along: 0, alongPlain: 0, square: 0, variance: 0, weight: 1, freedom: 0 };
  let isCleaned = false;
  const located = { isKnown: false, tempered: 0, plain: 0 };
  for (const { table, k } of places) {
    const evidence = every[table]!;
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
  let tempered = isCleaned ? halfEach(raw, overShares(cleaned, source.kind)) : raw;
  let plain = overShares(bold, source.kind);
  let pattern: Candidate["pattern"] = null;
  if (located.isKnown && source.kind === "fixture") {
    tempered = halfEach(tempered, located.tempered);
    plain = halfEach(plain, located.plain);
  } else if (sums.square !== 0) {
    const along = alongPattern(sums, source.kind);
    const isAll = source.kind === "temperature";
    tempered = isAll ? along.tempered : halfEach(tempered, along.tempered);
    plain = isAll ? along.plain : halfEach(plain, along.plain);
    pattern = { along: sums.alongPlain, square: sums.square, variance: sums.variance, weight: sums.weight };
  }
  return { source, kind, variant, life, onset, tempered, plain, places, pattern };
}

function cleanedOf({ cleaned }: TableEvidence, k: number): Float64Array | null {
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

/** log((e^a + e^b) / 2) */
function halfEach(a: number, b: number): number {
  const most = Math.max(a, b);
  if (!Number.isFinite(most)) return most;
  return most + Math.log(Math.exp(a - most) + Math.exp(b - most)) - Math.LN2;
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

function spreadCandidates(scans: readonly TableScan[], axis: LotAxis, isAsked: IsAsked): Candidate[] {
  const found = new Map<string, { source: ScannedSource; byOnset: Map<number, Place[]> }>();
  for (const [table, { spread }] of scans.entries()) {
    let last: ScannedSource | null = null;
    let own = new Map<number, Place[]>();
    for (const [k, { source, from }] of spread.hypotheses.entries()) {
      if (!isAsked(source)) continue;
      if (source !== last) {
        last = source;
        const key = sourceKey(source);
        const known = found.get(key) ?? { source, byOnset: new Map<number, Place[]>() };
        found.set(key, known);
        own = known.byOnset;
      }
      const onset = axis.indexOf[table]![from]!;
      const places = own.get(onset);
      if (places === undefined) own.set(onset, [{ table, k }]);
      else places.push({ table, k });
    }
  }
  return [...found.values()].flatMap(({ source, byOnset }) =>
    Array.from(byOnset, ([onset, places]) => pooledSpread(scans, { source, onset, places })),
  );
}

function pooledSpread(
  scans: readonly TableScan[],
  { source, onset, places }: { source: ScannedSource; onset: number; places: Place[] },
): Candidate {
  const { careful, bold } = spare;
  careful.fill(0);
  bold.fill(0);
  let together = 0;
  let doesRock = false;
  for (const { table, k } of places) {
    const { spread } = scans[table]!;
    for (let p = 0; p < SHARES.length; p++) {
      careful[p]! += spread.tempered[k * SHARES.length + p]!;
      bold[p]! += spread.plain[k * SHARES.length + p]!;
    }
    const rocking = spread.rocking[k]!;
    if (Number.isNaN(rocking)) continue;
    doesRock = true;
    together += rocking;
  }
  const withRocking = (log: number) => (doesRock ? halfEach(log, together) : log);
  return {
    source,
    kind: "spread",
    variant: "",
    life: -1,
    onset,
    tempered: withRocking(logMean(careful)),
    plain: withRocking(logMean(bold)),
    places,
    pattern: null,
  };
}
