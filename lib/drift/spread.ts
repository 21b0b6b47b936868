import { bayesFactorAtZero, MixtureSums } from "./bayes-factor";
import { type Correlations, repeatsIn } from "./common-news";
import type { LevelColumn } from "./design";
import { featureFactors } from "./evidence";
import { liveLevel } from "./hypotheses";
import { type ScannedSource, sourceKey } from "./measured-part";
import { presentLevels } from "./piece-table";
import { rockingEvidence } from "./rocking";
import type { Scatter, ScatterDesign } from "./scatter";
import { rootOfRatio, scatterFactorFrom, scatterScore, tooFew, uncertaintyOf } from "./scatter-ratio";
import { LEAST_FEATURES, SHARES, SPREAD_SLAB } from "./settings";

/** More scatter of a source from a lot of the table on. */
export type SpreadHypothesis = { source: ScannedSource; from: number };

export type SpreadEvidence = {
  hypotheses: SpreadHypothesis[];
  tempered: Float64Array;
  plain: Float64Array;
  /** By hypothesis: features more likely than not to scatter more, and the ratio of standard deviations. */
  moved: { feature: number; ratio: number }[][];
  /** By hypothesis: log evidence that pieces rock along one direction; NaN where it was not looked for. */
  rocking: Float64Array;
};

const KINDS = ["fixture", "operator", "gauge"] as const;
const CELLS_OF_TWO = 0.6;
const FARTHEST_SQUARE = 9;
const WEIGHT_OF_SINGLE = 0.9;
const SHARE_FOR_MOVED = 0.2;
const SHARE_OF_ROCKING = 0.5;
/** A feature whose mean jumps within a lot seems to scatter beyond all chance; of one little more than this is believed. */
const ENOUGH_OF_ONE = 6;

/**
 * Do the pieces of a fixture, operator or gauge scatter more from some lot on, while their mean stays?
 *
 * Squared deviations within cells after that lot against all other pieces, feature by feature (scatter-ratio.ts); for
 * a fixture also along the direction in which its pieces seem to rock (rocking.ts). Only more scatter counts.
 *
 * @param known sources already found to scatter: their pieces are left out from that lot on
 */
export function spreadEvidence(
  scatter: Scatter,
  correlations: Correlations,
  known: readonly SpreadHypothesis[],
): SpreadEvidence {
  const { prepared } = scatter;
  const { table, features, designs } = prepared;
  const weights = designs.map((design) => pieceWeights(design, known));
  const squares = features.map(({ design }, f) => pieceSquares(scatter, f, designs[design]!));
  const tails =
    squares.reduce((sum, square, f) => sum + tailsOf(square, weights[features[f]!.design]!), 0) /
    Math.max(1, squares.length);
  for (const [f, square] of squares.entries()) multiply(square, weights[features[f]!.design]!);
  const sources = spreadSources(designs).filter(
    (source) => !known.some((one) => sourceKey(one.source) === sourceKey(source)),
  );
  const tests = emptyTests(sources.length * (table.lots - 1), features.length);
  for (const kind of KINDS) {
    const own = sources.filter((source) => source.kind === kind);
    if (own.length === 0) continue;
    const sums = designs.map((design, d) =>
      scatterSums(design, kind, {
        weight: weights[d]!,
        squares: design.features.map((f) => squares[f]!),
        lots: table.lots,
      }),
    );
    for (const source of own) {
      const used = usedLots(designs, source);
      for (let from = 1; from < table.lots; from++) {
        if (kind === "fixture" && !used.has(from)) continue;
        addTest(tests, { source, from }, { designs, sums, tails });
      }
    }
  }
  const everything = [...features.keys()];
  return pooled(tests, {
    repeats: spreadRepeats(everything, correlations),
    factors: featureFactors(everything.map((f) => squaredScores(tests, f))),
    rocking: rockingEvidence(tests.hypotheses, { scatter, correlations, tails }),
  });
}

/**
 * Scatter tests, hypothesis by hypothesis: entry k × features + f, z being NaN where the data say nothing; `root` is
 * the cube root of the ratio of variances.
 */
type ScatterTests = {
  hypotheses: SpreadHypothesis[];
  features: number;
  z: Float64Array;
  information: Float64Array;
  root: Float64Array;
};

function emptyTests(most: number, features: number): ScatterTests {
  return {
    hypotheses: [],
    features,
    z: new Float64Array(most * features),
    information: new Float64Array(most * features),
    root: new Float64Array(most * features),
  };
}

/** Tests a hypothesis on every feature, and keeps it if any of them can tell. */
function addTest(
  { hypotheses, features, z, information, root }: ScatterTests,
  hypothesis: SpreadHypothesis,
  {
    designs,
    sums,
    tails,
  }: { designs: readonly ScatterDesign[]; sums: readonly ScatterSums[]; tails: number },
): void {
  const base = hypotheses.length * features;
  let isKnown = false;
  z.fill(Number.NaN, base, base + features);
  for (const [d, { features: own }] of designs.entries()) {
    const { levels, weight, squares, allWeight, allSquares } = sums[d]!;
    const level = liveLevel(levels, hypothesis.source.id);
    if (level < 0) continue;
    const at = hypothesis.from * levels.codes.length + level;
    const after = weight[at]!;
    const beside = allWeight - after;
    if (tooFew(after, beside)) continue;
    isKnown = true;
    const [va, vb] = [uncertaintyOf(after, tails), uncertaintyOf(beside, tails)];
    for (let m = 0; m < own.length; m++) {
      const q = rootOfRatio(squares[m]![at]! / after, (allSquares[m]! - squares[m]![at]!) / beside);
      const place = base + own[m]!;
      z[place] = scatterScore(q, va, vb);
      information[place] = 1 / (va + vb);
      root[place] = q;
    }
  }
  if (isKnown) hypotheses.push(hypothesis);
}

function squaredScores({ hypotheses, features, z }: ScatterTests, f: number): Float64Array {
  const squares = new Float64Array(hypotheses.length);
  let count = 0;
  for (let k = 0; k < hypotheses.length; k++) {
    const own = z[k * features + f]!;
    if (!Number.isNaN(own)) squares[count++] = own * own;
  }
  return squares.subarray(0, count);
}

function pooled(
  tests: ScatterTests,
  { repeats, factors, rocking }: { repeats: Float64Array; factors: Float64Array; rocking: Float64Array },
): SpreadEvidence {
  const { hypotheses, features, z, information, root } = tests;
  const count = SHARES.length;
  const tempered = new Float64Array(hypotheses.length * count);
  const plain = new Float64Array(hypotheses.length * count);
  const temperedSums = new MixtureSums(SHARES);
  const plainSums = new MixtureSums(SHARES);
  const careful = new Float64Array(features);
  const moved: SpreadEvidence["moved"] = [];
  // Loops alone: for numbers that a closure writes, the compiler puts a new one on the heap each time.
  for (let k = 0; k < hypotheses.length; k++) {
    let g = Number.NaN;
    let atZero = Number.NaN;
    for (let feature = 0; feature < features; feature++) {
      const at = k * features + feature;
      careful[feature] = Number.NEGATIVE_INFINITY;
      if (Number.isNaN(z[at]!)) continue;
      // Features on the same pieces have their information in common.
      if (SPREAD_SLAB * information[at]! !== g) {
        g = SPREAD_SLAB * information[at]!;
        atZero = bayesFactorAtZero(g);
      }
      const log = believed(scatterFactorFrom(atZero, z[at]! / factors[feature]!, g));
      careful[feature] = log;
      temperedSums.addShared(log, repeats[feature]!);
      plainSums.add(scatterFactorFrom(atZero, z[at]!, g));
    }
    temperedSums.addTo(tempered, k * count);
    plainSums.addTo(plain, k * count);
    const own = likelier(careful, SHARE_FOR_MOVED);
    // Pieces may rock before any of their features tells by itself: then less is asked of each.
    const told = own.length < LEAST_FEATURES && rocking[k]! > 0 ? likelier(careful, SHARE_OF_ROCKING) : own;
    moved.push(told.map((feature) => ({ feature, ratio: root[k * features + feature]! ** 1.5 })));
  }
  return { hypotheses, tempered, plain, moved, rocking };
}

/** Features more likely than not to scatter more, where a share of them was thought to beforehand. */
function likelier(logs: Float64Array, share: number): number[] {
  const evenOdds = Math.log((1 - share) / share);
  const found: number[] = [];
  for (let f = 0; f < logs.length; f++) if (logs[f]! > evenOdds) found.push(f);
  return found;
}

/** Whether enough pieces stand beside another in their cell to tell scatter within it. */
function isPaired({ strata }: ScatterDesign): boolean {
  let paired = 0;
  for (let c = 0; c < strata.cells; c++) {
    const n = strata.cellStart[c + 1]! - strata.cellStart[c]!;
    if (n >= 2) paired += n;
  }
  return paired > CELLS_OF_TWO * strata.pieces;
}

/** Degrees of freedom each piece stands for; none for those of sources known to scatter. */
function pieceWeights(design: ScatterDesign, known: readonly SpreadHypothesis[]): Float64Array {
  const { strata } = design;
  const weight = new Float64Array(strata.pieces).fill(WEIGHT_OF_SINGLE);
  if (isPaired(design)) {
    for (let c = 0; c < strata.cells; c++) {
      const n = strata.cellStart[c + 1]! - strata.cellStart[c]!;
      weight.fill((n - 1) / n, strata.cellStart[c]!, strata.cellStart[c + 1]!);
    }
  }
  for (const { source, from } of known) drop(design, weight, source, from);
  return weight;
}

/** Squared deviations, brought to expectation 1. */
function pieceSquares({ residuals, means, ratios }: Scatter, f: number, design: ScatterDesign): Float64Array {
  const { strata, lotOf } = design;
  const residual = residuals[f]!;
  const square = new Float64Array(residual.length);
  if (isPaired(design)) {
    const { cells } = means[f]!;
    for (let c = 0; c < strata.cells; c++) {
      const to = strata.cellStart[c + 1]!;
      const n = to - strata.cellStart[c]!;
      if (n < 2) continue;
      for (let i = strata.cellStart[c]!; i < to; i++) {
        const deviation = residual[i]! - cells[c]!;
        square[i] = Math.min(FARTHEST_SQUARE, (deviation * deviation * n) / (n - 1));
      }
    }
    return square;
  }
  // Cells of single pieces: deviations from the lot's mean, drawn to 0 as far as lots differ by chance.
  const lot = ratios[f]!.lot;
  let total = 0;
  for (let i = 0; i < residual.length; i++) {
    const l = lotOf[i]!;
    const n = strata.cellStart[strata.lotCells[l + 1]!]! - strata.cellStart[strata.lotCells[l]!]!;
    const deviation = residual[i]! - ((lot * n) / (1 + lot * n)) * means[f]!.lots[l]!;
    square[i] = deviation * deviation;
    total += square[i]!;
  }
  const average = Math.max(1e-9, total / residual.length);
  for (let i = 0; i < residual.length; i++) square[i] = Math.min(FARTHEST_SQUARE, square[i]! / average);
  return square;
}

function multiply(values: Float64Array, by: Float64Array): void {
  for (let i = 0; i < values.length; i++) values[i]! *= by[i]!;
}

/** Variance of the squares over that of normal data, 1 to 2. */
function tailsOf(square: Float64Array, weight: Float64Array): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < square.length; i++) {
    const off = square[i]! - 1;
    sum += weight[i]! * off * off;
    total += weight[i]!;
  }
  return total === 0 ? 1 : Math.min(2, Math.max(1, sum / total / 2));
}

function spreadRepeats(scope: readonly number[], correlations: Correlations): Float64Array {
  // Squares of normal deviates with correlation ρ have correlation ρ².
  const { freedomWithin } = correlations;
  const squared = correlations.within.map((rho) => Math.max(0, rho * rho - 1 / freedomWithin));
  return repeatsIn(scope, { ...correlations, within: squared, freedomWithin: Number.POSITIVE_INFINITY })
    .within;
}

function columnOf(design: ScatterDesign, { kind }: ScannedSource): LevelColumn | null {
  return kind === "fixture" || kind === "operator" || kind === "gauge" ? design[kind] : null;
}

function spreadSources(designs: readonly ScatterDesign[]): ScannedSource[] {
  const found = new Map<string, ScannedSource>();
  for (const kind of KINDS) {
    for (const design of designs) {
      const { levels, of } = design[kind];
      for (const level of presentLevels(levels, of)) {
        const source = { kind, id: levels.codes[level]! };
        if (levels.live[level]) found.set(sourceKey(source), source);
      }
    }
  }
  return [...found.values()];
}

function usedLots(designs: readonly ScatterDesign[], source: ScannedSource): Set<number> {
  const lots = new Set<number>();
  for (const design of designs) {
    const column = columnOf(design, source);
    if (column === null) continue;
    const level = liveLevel(column.levels, source.id);
    for (let i = 0; i < column.of.length; i++) if (column.of[i] === level) lots.add(design.lotOf[i]!);
  }
  return lots;
}

function drop(design: ScatterDesign, weight: Float64Array, source: ScannedSource, from: number): void {
  const column = columnOf(design, source);
  if (column === null) return;
  const level = liveLevel(column.levels, source.id);
  for (let i = 0; i < weight.length; i++) {
    if (column.of[i] === level && design.lotOf[i]! >= from) weight[i] = 0;
  }
}

/**
 * Of the levels of a kind, sums over their pieces from each lot on, at lot × levels + level: of the weights, and of
 * the weighted squares of each feature of the design. One pass over the pieces serves all sources of the kind.
 */
type ScatterSums = {
  levels: LevelColumn["levels"];
  weight: Float64Array;
  squares: Float64Array[];
  allWeight: number;
  allSquares: Float64Array;
};

function scatterSums(
  design: ScatterDesign,
  kind: (typeof KINDS)[number],
  { weight, squares, lots }: { weight: Float64Array; squares: readonly Float64Array[]; lots: number },
): ScatterSums {
  const { levels, of } = design[kind];
  const count = levels.codes.length;
  const place = of.map((level, i) => (level < 0 ? -1 : design.lotOf[i]! * count + level));
  const length = (lots + 1) * count;
  const total = summedFrom(place, { value: weight, length, levels: count });
  const own = squares.map((value) => summedFrom(place, { value, length, levels: count }));
  return {
    levels,
    weight: total.sums,
    squares: own.map(({ sums }) => sums),
    allWeight: total.all,
    allSquares: Float64Array.from(own, ({ all }) => all),
  };
}

function summedFrom(
  place: Int32Array,
  { value, length, levels }: { value: Float64Array; length: number; levels: number },
): { sums: Float64Array; all: number } {
  const sums = new Float64Array(length);
  let all = 0;
  for (let i = 0; i < place.length; i++) {
    all += value[i]!;
    if (place[i]! >= 0) sums[place[i]!]! += value[i]!;
  }
  for (let at = length - levels - 1; at >= 0; at--) sums[at]! += sums[at + levels]!;
  return { sums, all };
}

/** What exceeds the bound still tells one onset from another, by its logarithm. */
function believed(logFactor: number): number {
  return logFactor <= ENOUGH_OF_ONE ? logFactor : ENOUGH_OF_ONE + Math.log1p(logFactor - ENOUGH_OF_ONE);
}
