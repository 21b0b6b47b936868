import {
  bayesFactorAtZero,
  bayesFactorFrom,
  bayesFactorOfSquare,
  logMixture,
  logSumExp,
  MixtureSums,
  squaredScore,
} from "./bayes-factor";
import { type CommonCourse, commonCourse, shareLeft } from "./common-course";
import { type Correlations, type Repeats, repeatsIn } from "./common-news";
import type { Design } from "./design";
import type { Fit } from "./fit";
import type { Carrier, Hypotheses } from "./hypotheses";
import { millimetreIn } from "./length-unit";
import type { ScannedSource } from "./measured-part";
import { middleOf } from "./middle";
import { locatedEvidence, patternSums } from "./pattern-sums";
import { SHARES, SLAB, USUAL_EXPANSION } from "./settings";
import type { Tests } from "./test-hypotheses";

/**
 * What one table says for each hypothesis, in sums that add up over tables.
 *
 * `tempered` and `plain` hold, for each share of features that may have moved, Σ log(1 − p + p e^l): divided by
 * the number of features that repeat the same news, and as if all were independent. The plain one ranks sources,
 * the tempered one decides whether to flag at all.
 */
export type TableEvidence = {
  tempered: Float64Array;
  plain: Float64Array;
  /** Features that say anything; 0 leaves the hypothesis out. */
  features: Int32Array;
  betweenLots: Float64Array;
  /** For a pattern fixed by physics: Σ u t (overdispersion taken out, and as it is), Σ u², uᵀRu. */
  pattern: { along: Float64Array; alongPlain: Float64Array; square: Float64Array; variance: Float64Array };
  /** For a fixture whose locating directions are known: that the part sits displaced along one of them; else null. */
  located: { tempered: Float64Array; plain: Float64Array } | null;
  /**
   * `tempered` once more with the common course of lots taken out of the tests; NaN where lots do not matter or the
   * source does not touch all features, null where it is so for all.
   */
  cleaned: Float64Array | null;
  /** Usual weight of a feature in the pattern, and the degrees of freedom behind its test. */
  weight: Float64Array;
  freedom: Float64Array;
};

/**
 * How much more step tests scatter than the model has it, feature by feature, in comparisons within lots and
 * between them; 1 where the model fits.
 */
export type Overdispersion = { within: Float64Array; between: Float64Array };

const LEAST_TESTS = 60;
const MOST_OVERDISPERSION = 1.6;
/** A single feature that wanders for reasons of its own may be this far off. */
const MOST_OF_ONE = 6;
const LEAST_TESTS_OF_ONE = 20;
/** The tests of one feature are few and alike; only what exceeds this by chance alone counts. */
const CHANCE_OF_ONE = 1.5;
/** Share of the features that a single one is measured against. */
const OTHERS = 0.8;
/** Median of chi-square with one degree of freedom. */
const CHI_SQUARE_MEDIAN = 0.455;

/**
 * The bulk of all step tests is innocent, so its median shows what the model left out: pieces that resemble their
 * neighbours, or a feature that wanders or jumps by itself and would lend its weight to any source that came and
 * went with it. One factor for the table, 1 to 1.6, and a larger one for a feature whose own tests say so.
 *
 * Source: B. Devlin and K. Roeder, Biometrics 55 (1999) 997-1004, "genomic control" (from memory).
 */
export function overdispersionOf(
  tests: Tests,
  { all, carriers }: Hypotheses,
  memory: Float64Array,
): Overdispersion {
  const { features } = tests;
  const steps = all.reduce((count, { type }) => (type === "step" ? count + 1 : count), 0);
  // Of each feature, squares within lots from the front and those between from the back.
  const squares = new Float64Array(features * steps);
  const [within, between] = [new Int32Array(features), new Int32Array(features)];
  for (const [k, hypothesis] of all.entries()) {
    if (hypothesis.type !== "step") continue;
    const { scope } = carriers[hypothesis.carrier]!;
    const base = k * features;
    let share = 0;
    for (const f of scope) share += tests.betweenLots[base + f]!;
    const isWithin = share <= 0.5 * scope.length;
    const usual = 1 + (1 - share / scope.length) * (memory[hypothesis.carrier]! - 1);
    for (const f of scope) {
      const t = tests.t[base + f]!;
      if (Number.isNaN(t)) continue;
      const at = isWithin ? f * steps + within[f]!++ : (f + 1) * steps - ++between[f]!;
      squares[at] = (t * t) / usual;
    }
  }
  return {
    within: factors(Array.from(within, (count, f) => squares.subarray(f * steps, f * steps + count))),
    between: factors(
      Array.from(between, (count, f) => squares.subarray((f + 1) * steps - count, (f + 1) * steps)),
    ),
  };
}

function factors(squares: readonly Float64Array[]): Float64Array {
  const everything = new Float64Array(squares.reduce((sum, own) => sum + own.length, 0));
  let at = 0;
  for (const own of squares) {
    everything.set(own, at);
    at += own.length;
  }
  const usual =
    everything.length < LEAST_TESTS ? 1 : Math.min(MOST_OVERDISPERSION, Math.max(1, factor(everything)));
  return featureFactors(squares, usual);
}

function factor(own: Float64Array): number {
  return Math.sqrt(middleOf(own) / CHI_SQUARE_MEDIAN);
}

/**
 * By feature, from its squared scores: how far it is off for reasons of its own, at least `usual`.
 *
 * Measured against the feature that four in five lie below: a source that really moves takes a fifth of the
 * features or more with it, and must not be taken for the way these features are.
 */
export function featureFactors(squares: readonly Float64Array[], usual = 1): Float64Array {
  const own = squares.map((ofOne) => (ofOne.length < LEAST_TESTS_OF_ONE ? 1 : factor(ofOne)));
  const most = [...own].sort((a, b) => a - b)[Math.ceil(OTHERS * own.length) - 1] ?? 1;
  const bar = CHANCE_OF_ONE * Math.max(1, most);
  return Float64Array.from(own, (one) => Math.max(usual, Math.min(MOST_OF_ONE, one / bar)));
}

/** Weight of each feature in a pattern that physics fixes: 1 mm / sigma in length, or nominal × expansion / sigma. */
function patternWeights(fit: Fit, pattern: "same-length" | "by-size", scope: readonly number[]) {
  return Float64Array.from(scope, (f) => {
    const { feature, sigma: shortTerm } = fit.prepared.features[f]!;
    const sigma = shortTerm * fit.scale[f]!;
    return pattern === "same-length"
      ? millimetreIn(feature.unit) / sigma
      : ((feature.nominal ?? 0) * USUAL_EXPANSION) / sigma;
  });
}

const PATTERN_SUMS = ["along", "alongPlain", "square", "variance"] as const;

/** Sigma of each feature per unit of displacement along each locating direction; none where no feature states it. */
function locatingDirections({ prepared, scale }: Fit): Float64Array[] {
  const stated = prepared.features.map(({ feature }) => feature.locators ?? []);
  const count = Math.max(0, ...stated.map((sensitivities) => sensitivities.length));
  return Array.from({ length: count }, (_, d) =>
    Float64Array.from(stated, (own, f) => (own[d] ?? 0) / (prepared.features[f]!.sigma * scale[f]!)),
  ).filter((weights) => weights.some((weight) => weight !== 0));
}

export type EvidenceGiven = {
  fit: Fit;
  hypotheses: Hypotheses;
  tests: Tests;
  correlations: Correlations;
  overdispersion: Overdispersion;
  /** By carrier: how much more its comparisons within lots scatter as pieces resemble their neighbours. */
  memory: Float64Array;
};

/**
 * Pools the features of each hypothesis into one number.
 *
 * @param only hypotheses of this source; those of others stay without features
 */
export function evidenceOf(given: EvidenceGiven, only: ScannedSource | null = null): TableEvidence {
  const { fit, hypotheses, tests, correlations, overdispersion, memory } = given;
  const { all, carriers } = hypotheses;
  const count = all.length;
  const out: TableEvidence = {
    tempered: new Float64Array(count * SHARES.length),
    plain: new Float64Array(count * SHARES.length),
    features: new Int32Array(count),
    betweenLots: new Float64Array(count),
    pattern: {
      along: new Float64Array(count),
      alongPlain: new Float64Array(count),
      square: new Float64Array(count),
      variance: new Float64Array(count),
    },
    located: null,
    cleaned: null,
    weight: new Float64Array(count).fill(1),
    freedom: new Float64Array(count),
  };
  const course = commonCourse(correlations);
  const cleaning =
    course === null ? null : { course, repeats: repeatsIn([...Array(tests.features).keys()], course.left) };
  const perCarrier: { repeats: Repeats; weights: Float64Array | null }[] = [];
  for (const [c, { scope, pattern }] of carriers.entries()) {
    // Edges of a tool, and sources of a kind, follow each other with the very same scope.
    const before = carriers[c - 1];
    const isAsBefore = before?.scope === scope && before.pattern === pattern;
    perCarrier.push(
      isAsBefore
        ? perCarrier[c - 1]!
        : {
            repeats: repeatsIn(scope, correlations),
            weights: pattern === null ? null : patternWeights(fit, pattern, scope),
          },
    );
  }
  const directions = locatingDirections(fit);
  const freedoms = freedomsOf(fit);
  const ownChange = ownChanges(hypotheses, tests, freedoms.between);
  const none = new Float64Array(ownChange.length);
  const isEverywhere = touchingAll(carriers, fit.prepared.designs);
  for (let k = 0; k < count; k++) {
    const { carrier, source } = all[k]!;
    if (only !== null && (source.kind !== only.kind || source.id !== only.id)) continue;
    const { scope } = carriers[carrier]!;
    const own = perCarrier[carrier]!;
    const discount = isEverywhere[carrier] ? none : ownChange;
    const spoken = bulkOf(tests, k, scope);
    if (spoken.known === 0) continue;
    const { betweenLots } = spoken;
    const inflation = inflated(
      betweenLots > 0.5 ? overdispersion.between : overdispersion.within,
      1 + (1 - betweenLots) * (memory[carrier]! - 1),
    );
    const freedom = Math.max(4, (1 - betweenLots) * freedoms.within + betweenLots * freedoms.between);
    out.features[k] = spoken.known;
    out.betweenLots[k] = betweenLots;
    out.freedom[k] = freedom;
    poolFeatures(out, k, { tests, betweenLots, freedom, inflation, discount, scope, repeats: own.repeats });
    if (cleaning !== null && scope.length === tests.features && betweenLots > LEAST_BETWEEN) {
      out.cleaned ??= new Float64Array(out.tempered.length).fill(Number.NaN);
      poolCleaned(out.cleaned, k, { tests, betweenLots, freedom, inflation, discount, ...cleaning });
    }
    const pattern = { scope, tests, correlations, betweenLots, inflation };
    if (own.weights !== null) {
      const sums = patternSums(k, own.weights, pattern);
      for (const name of PATTERN_SUMS) out.pattern[name][k] = sums[name];
      out.weight[k] = middleOf(own.weights);
    } else if (source.kind === "fixture" && directions.length > 0) {
      out.located ??= { tempered: new Float64Array(count), plain: new Float64Array(count) };
      const found = locatedEvidence(k, directions, freedom, pattern);
      out.located.tempered[k] = found.tempered;
      out.located.plain[k] = found.plain;
    }
  }
  return out;
}

/** By carrier, whether it is the same on all rows of each design that it touches. */
function touchingAll(carriers: readonly Carrier[], designs: readonly Design[]): boolean[] {
  // Rows of those put together are those of their parts: nobody need look for them.
  const counts: (Int32Array | null)[] = carriers.map(({ parts }) => parts && new Int32Array(designs.length));
  const countOf = (c: number, d: number): number => counts[c]?.[d] ?? carriers[c]!.on[d]?.rows.length ?? 0;
  for (let c = carriers.length - 1; c >= 0; c--) {
    const own = counts[c];
    for (const part of carriers[c]!.parts ?? [])
      for (let d = 0; d < designs.length; d++) own![d]! += countOf(part, d);
  }
  return carriers.map((carrier, c) =>
    designs.every(({ rows }, d) => {
      const count = countOf(c, d);
      if (count === 0) return true;
      return count === rows.length && (carrier.parts !== null || carrier.on[d]!.x === null);
    }),
  );
}

/** Where less than this share of the information rests on comparing lots, what lots have in common does not matter. */
const LEAST_BETWEEN = 0.15;

/** Chance that a feature steps by itself in the window. */
const OWN_CHANGE = 0.003;

/**
 * By feature, log(1 − q + q e^o), where o is the log evidence that all its pieces stepped at some lot, whatever ran.
 *
 * A source gets credit for a feature only as far as it explains more than that. A feature that steps alone belongs
 * on its own chart; without this it would speak, loudly, for every operator or machine that came on at about the
 * time. A source that touches all pieces is the same hypothesis and is spared.
 */
function ownChanges({ all, own }: Hypotheses, tests: Tests, freedom: number): Float64Array {
  const { t, information, atZero, features } = tests;
  return Float64Array.from({ length: features }, (_, f) => {
    const logs: number[] = [];
    for (let k = 0; k < own.length; k++) {
      const at = (all.length + k) * features + f;
      if (!Number.isNaN(t[at]))
        logs.push(bayesFactorOfSquare(atZero[at]!, squaredScore(t[at]!, freedom), information[at]! * SLAB));
    }
    if (logs.length === 0) return 0;
    return Math.max(0, logMixture(OWN_CHANGE, logSumExp(logs) - Math.log(logs.length)));
  });
}

function freedomsOf({ prepared }: Fit): { within: number; between: number } {
  const cells = Math.max(...prepared.designs.map(({ strata }) => strata.cells));
  return {
    within: Math.max(prepared.table.pieces - cells, 8),
    between: Math.max(prepared.table.lots - 2, 4),
  };
}

const FARTHEST_PLAIN = 30;

/** Features that say anything, and the share of their information that rests on comparing lots. */
function bulkOf(tests: Tests, k: number, scope: readonly number[]): { known: number; betweenLots: number } {
  const base = k * tests.features;
  let known = 0;
  let share = 0;
  for (const f of scope) {
    if (Number.isNaN(tests.t[base + f])) continue;
    known++;
    share += tests.betweenLots[base + f]!;
  }
  return { known, betweenLots: known === 0 ? 0 : share / known };
}

/** One vector serves all hypotheses: each is done with it before the next begins. */
let kept = new Float64Array(0);

/** By feature, with a factor on the variance of all. */
function inflated(own: Float64Array, variance: number): Float64Array {
  if (variance === 1) return own;
  if (kept.length < own.length) kept = new Float64Array(own.length);
  const factor = Math.sqrt(variance);
  for (let f = 0; f < own.length; f++) kept[f] = own[f]! * factor;
  return kept;
}

type Weighing = {
  tests: Tests;
  betweenLots: number;
  freedom: number;
  inflation: Float64Array;
  discount: Float64Array;
};

function poolFeatures(
  out: TableEvidence,
  k: number,
  given: Weighing & { scope: readonly number[]; repeats: Repeats },
): void {
  const { scope, tests, repeats, betweenLots: b, freedom, inflation, discount } = given;
  const base = k * tests.features;
  const at = k * SHARES.length;
  for (let s = 0; s < scope.length; s++) {
    const f = scope[s]!;
    const t = tests.t[base + f]!;
    if (Number.isNaN(t)) continue;
    const g = tests.information[base + f]! * SLAB;
    const atZero = tests.atZero[base + f]!;
    const careful =
      bayesFactorOfSquare(atZero, squaredScore(t, freedom) / inflation[f]! ** 2, g) - discount[f]!;
    const bold = bayesFactorFrom(atZero, Math.max(-FARTHEST_PLAIN, Math.min(FARTHEST_PLAIN, t)), g);
    temperedSums.addShared(careful, repeated(repeats, s, b));
    plainSums.add(bold);
  }
  temperedSums.addTo(out.tempered, at);
  plainSums.addTo(out.plain, at);
}

/** The same for all features with the common course of lots taken out of their tests. */
function poolCleaned(
  out: Float64Array,
  k: number,
  given: Weighing & { course: CommonCourse; repeats: Repeats },
): void {
  const { course, repeats, tests, betweenLots: b, freedom, inflation, discount } = given;
  const base = k * tests.features;
  let along = 0;
  let length = 0;
  for (let f = 0; f < tests.features; f++) {
    const t = tests.t[base + f]!;
    if (Number.isNaN(t)) continue;
    along += course.loads[f]! * t;
    length += course.loads[f]! ** 2;
  }
  const at = k * SHARES.length;
  out.fill(0, at, at + SHARES.length);
  if (length === 0) return;
  for (let f = 0; f < tests.features; f++) {
    const t = tests.t[base + f]!;
    if (Number.isNaN(t)) continue;
    const left = shareLeft(course, f, b);
    const cleaned = (t - (course.loads[f]! * along) / length) / Math.sqrt(left);
    const g = (tests.information[base + f]! * SLAB) / left;
    const square = squaredScore(cleaned, freedom) / inflation[f]! ** 2;
    const careful = bayesFactorOfSquare(bayesFactorAtZero(g), square, g) - discount[f]!;
    temperedSums.addShared(careful, repeated(repeats, f, b));
  }
  temperedSums.addTo(out, at);
}

function repeated({ within, mixed, between }: Repeats, s: number, b: number): number {
  return Math.max(1, (1 - b) ** 2 * within[s]! + 2 * b * (1 - b) * mixed[s]! + b * b * between[s]!);
}

const temperedSums = new MixtureSums(SHARES);
const plainSums = new MixtureSums(SHARES);
