import { addMixtures, logBayesFactor, MixtureSums } from "./bayes-factor";
import { type Correlations, repeatsIn } from "./common-news";
import type { Design, LevelColumn } from "./design";
import { featureFactors } from "./evidence";
import type { Fit } from "./fit";
import { liveLevel } from "./hypotheses";
import { type ScannedSource, sourceKey } from "./measured-part";
import { SHARES, SPREAD_SLAB } from "./settings";

/** More scatter of a source from a lot of the table on. */
export type SpreadHypothesis = { source: ScannedSource; from: number };

export type SpreadEvidence = {
  hypotheses: SpreadHypothesis[];
  tempered: Float64Array;
  plain: Float64Array;
  /** By hypothesis: features more likely than not to scatter more, and the ratio of standard deviations. */
  moved: { feature: number; ratio: number }[][];
};

const KINDS = ["fixture", "operator", "gauge"] as const;
const CELLS_OF_TWO = 0.6;
const FARTHEST_SQUARE = 9;
const PIECES_AFTER = 4;
const PIECES_BESIDE = 8;
const SHARE_FOR_MOVED = 0.2;
/** A feature whose mean jumps within a lot seems to scatter beyond all chance; of one little more than this is believed. */
const ENOUGH_OF_ONE = 6;

/**
 * Do the pieces of a fixture, operator or gauge scatter more from some lot on, while their mean stays?
 *
 * Squared deviations within cells after that lot against all other pieces. The cube root of a variance ratio is
 * nearly normal: z = ((1 − v_b) q − (1 − v_a)) / √(v_b q² + v_a), q = (s²_a/s²_b)^(1/3), v = 2κ/(9 ν), where κ
 * (1 to 2) corrects ν for tails heavier than normal. Only more scatter counts.
 *
 * Source: E. B. Wilson and M. M. Hilferty, Proc. Nat. Acad. Sci. 17 (1931) 684-688 (from memory).
 *
 * @param known sources already found to scatter: their pieces are left out from that lot on
 */
export function spreadEvidence(
  fit: Fit,
  correlations: Correlations,
  known: readonly SpreadHypothesis[],
): SpreadEvidence {
  const { prepared } = fit;
  const { table, features, designs } = prepared;
  const squares = features.map(({ design }, f) => pieceSquares(fit, f, designs[design]!));
  for (const { source, from } of known) {
    for (const [f, { design }] of features.entries())
      drop(designs[design]!, squares[f]!.weight, source, from);
  }
  const tails = squares.reduce((sum, one) => sum + tailsOf(one), 0) / Math.max(1, squares.length);
  const tests: ScatterTests = {
    hypotheses: [],
    features: features.length,
    z: [],
    information: [],
    ratio: [],
  };
  for (const source of spreadSources(designs)) {
    if (known.some((one) => sourceKey(one.source) === sourceKey(source))) continue;
    const sums = features.map(({ design }, f) =>
      sourceSums(designs[design]!, squares[f]!, source, table.lots),
    );
    const used = usedLots(designs, source);
    for (let from = 1; from < table.lots; from++) {
      if (source.kind === "fixture" && !used.has(from)) continue;
      addTest(tests, { source, from }, sums, tails);
    }
  }
  const everything = [...features.keys()];
  return pooled(
    tests,
    spreadRepeats(everything, correlations),
    featureFactors(everything.map((f) => squaredScores(tests, f))),
  );
}

/** Scatter tests, hypothesis by hypothesis: entry k × features + f, z being NaN where the data say nothing. */
type ScatterTests = {
  hypotheses: SpreadHypothesis[];
  features: number;
  z: number[];
  information: number[];
  ratio: number[];
};

function addTest(
  tests: ScatterTests,
  hypothesis: SpreadHypothesis,
  sums: readonly (SourceSums | null)[],
  tails: number,
): void {
  const { z, information, ratio } = tests;
  const first = z.length;
  let isKnown = false;
  for (const sum of sums) {
    const test = sum === null ? null : scatterTest(sum, hypothesis.from, tails);
    isKnown ||= test !== null;
    z.push(test === null ? Number.NaN : test.z);
    information.push(test === null ? 0 : test.information);
    ratio.push(test === null ? 1 : test.ratio);
  }
  if (isKnown) tests.hypotheses.push(hypothesis);
  else for (const column of [z, information, ratio]) column.length = first;
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

function pooled(tests: ScatterTests, repeats: Float64Array, factors: Float64Array): SpreadEvidence {
  const { hypotheses, features, z, information, ratio } = tests;
  const count = SHARES.length;
  const tempered = new Float64Array(hypotheses.length * count);
  const plain = new Float64Array(hypotheses.length * count);
  const plainSums = new MixtureSums(SHARES);
  const moved = hypotheses.map((_, k) => {
    const own: { feature: number; ratio: number }[] = [];
    for (let feature = 0; feature < features; feature++) {
      const at = k * features + feature;
      if (Number.isNaN(z[at]!)) continue;
      const careful = believed(logFactor(z[at]!, information[at]!, factors[feature]!));
      addMixtures(SHARES, careful, repeats[feature]!, { out: tempered, at: k * count });
      plainSums.add(logFactor(z[at]!, information[at]!, 1));
      const odds = SHARE_FOR_MOVED * Math.exp(Math.min(50, careful));
      if (odds > 1 - SHARE_FOR_MOVED) own.push({ feature, ratio: ratio[at]! });
    }
    plainSums.addTo(plain, k * count);
    return own;
  });
  return { hypotheses, tempered, plain, moved };
}

/** Squared deviations, brought to expectation 1, with the degrees of freedom each piece stands for. */
type PieceSquares = { square: Float64Array; weight: Float64Array };

function pieceSquares({ residuals, means, ratios }: Fit, f: number, design: Design): PieceSquares {
  const { strata, cellOf } = design;
  const residual = residuals[f]!;
  const size = (c: number) => strata.cellStart[c + 1]! - strata.cellStart[c]!;
  const square = new Float64Array(residual.length);
  const weight = new Float64Array(residual.length);
  let paired = 0;
  for (let i = 0; i < residual.length; i++) if (size(cellOf[i]!) >= 2) paired++;
  if (paired > CELLS_OF_TWO * residual.length) {
    for (let i = 0; i < residual.length; i++) {
      const n = size(cellOf[i]!);
      if (n < 2) continue;
      const deviation = residual[i]! - means[f]!.cells[cellOf[i]!]!;
      square[i] = Math.min(FARTHEST_SQUARE, (deviation * deviation * n) / (n - 1));
      weight[i] = (n - 1) / n;
    }
    return { square, weight };
  }
  // Cells of single pieces: deviations from the lot's mean, drawn to 0 as far as lots differ by chance.
  const lot = ratios[f]!.lot;
  let total = 0;
  for (let i = 0; i < residual.length; i++) {
    const l = design.lotOf[i]!;
    const n = strata.cellStart[strata.lotCells[l + 1]!]! - strata.cellStart[strata.lotCells[l]!]!;
    const deviation = residual[i]! - ((lot * n) / (1 + lot * n)) * means[f]!.lots[l]!;
    square[i] = deviation * deviation;
    total += square[i]!;
  }
  const average = Math.max(1e-9, total / residual.length);
  for (let i = 0; i < residual.length; i++) {
    square[i] = Math.min(FARTHEST_SQUARE, square[i]! / average);
    weight[i] = 0.9;
  }
  return { square, weight };
}

/** Variance of the squares over that of normal data, 1 to 2. */
function tailsOf({ square, weight }: PieceSquares): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < square.length; i++) {
    sum += weight[i]! * (square[i]! - 1) ** 2;
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

function columnOf(design: Design, { kind }: ScannedSource): LevelColumn | null {
  return kind === "fixture" || kind === "operator" || kind === "gauge" ? design[kind] : null;
}

function spreadSources(designs: readonly Design[]): ScannedSource[] {
  const found = new Map<string, ScannedSource>();
  for (const kind of KINDS) {
    for (const design of designs) {
      const { levels, of } = design[kind];
      const present = new Set(of);
      for (const [level, id] of levels.codes.entries()) {
        const source = { kind, id };
        if (levels.live[level] && present.has(level)) found.set(sourceKey(source), source);
      }
    }
  }
  return [...found.values()];
}

function usedLots(designs: readonly Design[], source: ScannedSource): Set<number> {
  const lots = new Set<number>();
  for (const design of designs) {
    const column = columnOf(design, source);
    if (column === null) continue;
    const level = liveLevel(column.levels, source.id);
    for (let i = 0; i < column.of.length; i++) if (column.of[i] === level) lots.add(design.lotOf[i]!);
  }
  return lots;
}

function drop(design: Design, weight: Float64Array, source: ScannedSource, from: number): void {
  const column = columnOf(design, source);
  if (column === null) return;
  const level = liveLevel(column.levels, source.id);
  for (let i = 0; i < weight.length; i++) {
    if (column.of[i] === level && design.lotOf[i]! >= from) weight[i] = 0;
  }
}

/** Suffix sums over lots for the pieces of a source, and the sums over all pieces. */
type SourceSums = { weight: Float64Array; squares: Float64Array; allWeight: number; allSquares: number };

function sourceSums(
  design: Design,
  { square, weight }: PieceSquares,
  source: ScannedSource,
  lots: number,
): SourceSums | null {
  const column = columnOf(design, source);
  const level = column === null ? -1 : liveLevel(column.levels, source.id);
  if (column === null || level < 0) return null;
  const sums = {
    weight: new Float64Array(lots + 1),
    squares: new Float64Array(lots + 1),
    allWeight: 0,
    allSquares: 0,
  };
  for (let i = 0; i < square.length; i++) {
    sums.allWeight += weight[i]!;
    sums.allSquares += weight[i]! * square[i]!;
    if (column.of[i] !== level) continue;
    sums.weight[design.lotOf[i]!]! += weight[i]!;
    sums.squares[design.lotOf[i]!]! += weight[i]! * square[i]!;
  }
  for (let lot = lots - 1; lot >= 0; lot--) {
    sums.weight[lot]! += sums.weight[lot + 1]!;
    sums.squares[lot]! += sums.squares[lot + 1]!;
  }
  return sums;
}

type ScatterTest = { z: number; information: number; ratio: number };

function scatterTest(sums: SourceSums, from: number, tails: number): ScatterTest | null {
  const after = sums.weight[from]!;
  const beside = sums.allWeight - after;
  if (!(after > PIECES_AFTER && beside > PIECES_BESIDE)) return null;
  const varianceAfter = sums.squares[from]! / Math.max(1, after);
  const varianceBeside = (sums.allSquares - sums.squares[from]!) / Math.max(1, beside);
  const q =
    Math.cbrt(Math.max(varianceAfter, 1e-6)) / Math.max(Math.cbrt(Math.max(varianceBeside, 1e-6)), 1e-3);
  const va = (2 * tails) / (9 * Math.max(1, after));
  const vb = (2 * tails) / (9 * Math.max(1, beside));
  const z = ((1 - vb) * q - (1 - va)) / Math.sqrt(vb * q * q + va);
  return { z, information: 1 / (va + vb), ratio: q ** 1.5 };
}

/** What exceeds the bound still tells one onset from another, by its logarithm. */
function believed(logFactor: number): number {
  return logFactor <= ENOUGH_OF_ONE ? logFactor : ENOUGH_OF_ONE + Math.log1p(logFactor - ENOUGH_OF_ONE);
}

/** One-sided: less scatter speaks against, but never strongly. */
function logFactor(z: number, information: number, inflation: number): number {
  const g = SPREAD_SLAB * information;
  return z > 0 ? logBayesFactor(z / inflation, g) + Math.log(1.6) : -0.5 * Math.log1p(g) + Math.log(0.4);
}
