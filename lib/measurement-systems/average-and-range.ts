import { InvalidInput, requireFiniteNumbers } from "../checks";
import { controlChartConstants } from "../constants/control-chart-constants";
import { relativeRange } from "../constants/relative-range";
import { range } from "../summary/moments";
import { type CrossedReadings, checkedCrossed } from "./arrange";

/** Factors from ranges to standard deviations: of the trials, of the operators, of the parts. */
export type RangeFactors = { K1: number; K2: number; K3: number };

/**
 * The factors of the average-and-range method.
 *
 *   K1 = 1/d₂(trials),  K2 = 1/d₂*(operators),  K3 = 1/d₂*(parts),  d₂* = √(d₂² + d₃²)
 *
 * d₂* belongs to a single range, of operator or of part means; the many ranges of the trials have d₂. AIAG's table
 * prints four decimals of these, for more than fifteen ranges of trials.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition, chapter III (from memory); A. J. Duncan, Quality Control and
 * Industrial Statistics (1974), table D3 (from memory).
 *
 * @throws InvalidInput when a number is not whole or below 2
 */
export function rangeFactors({
  trials,
  operators,
  parts,
}: {
  trials: number;
  operators: number;
  parts: number;
}): RangeFactors {
  const ofOne = (n: number) => {
    const { d2, d3 } = relativeRange(n);
    return 1 / Math.hypot(d2, d3);
  };
  return { K1: 1 / relativeRange(trials).d2, K2: ofOne(operators), K3: ofOne(parts) };
}

/** Standard deviations in the unit of the readings, and what follows from them. */
export type AverageAndRange = {
  meanRange: number;
  /** Above it a range of trials calls for a look at that cell: D4·mean range. */
  rangeUpperLimit: number;
  operatorMeans: number[];
  /** Mean range of the trials of each operator. */
  operatorRanges: number[];
  differenceOfOperators: number;
  partRange: number;
  equipmentVariation: number;
  appraiserVariation: number;
  grr: number;
  partVariation: number;
  totalVariation: number;
  /** 100 grr / total; null when nothing varies. */
  percentStudy: number | null;
  /** 100·6 grr / (U − L); null without both limits. */
  percentTolerance: number | null;
  ndcUnrounded: number | null;
  ndc: number | null;
};

/**
 * The average-and-range method of a crossed study: by hand and pencil what `crossedStudy` does by mean squares, for
 * comparison with studies on paper. It does not see an interaction.
 *
 *   EV = R̄·K1,  AV = √((x̄ difference·K2)² − EV²/(parts·trials)),  GRR = √(EV² + AV²),  PV = R part·K3
 *
 * AV is 0 where the difference under the root is negative.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition, chapter III (from memory).
 *
 * @throws InvalidInput as `crossedAnova`, for a factor that is not positive, or a width that is not
 */
export function averageAndRange(
  readings: CrossedReadings,
  { factors, toleranceWidth }: { factors: RangeFactors; toleranceWidth: number | null },
): AverageAndRange {
  const where = "averageAndRange";
  const { values, trials } = checkedCrossed(where, readings);
  requireFiniteNumbers(where, factors);
  for (const [field, factor] of Object.entries(factors)) {
    if (factor <= 0) throw new InvalidInput(where, field, factor, "positive");
  }
  if (toleranceWidth !== null && !(toleranceWidth > 0 && Number.isFinite(toleranceWidth))) {
    throw new InvalidInput(where, "toleranceWidth", toleranceWidth, "positive");
  }
  const parts = values.length;
  const operators = values[0]!.length;
  const cellMeans = values.map((row) => row.map(averageOf));
  const operatorMeans = Array.from({ length: operators }, (_, j) =>
    averageOf(cellMeans.map((row) => row[j]!)),
  );
  const operatorRanges = Array.from({ length: operators }, (_, j) =>
    averageOf(values.map((row) => range(row[j]!))),
  );
  const meanRange = averageOf(operatorRanges);
  const differenceOfOperators = range(operatorMeans);
  const partRange = range(cellMeans.map(averageOf));

  const equipmentVariation = meanRange * factors.K1;
  const seen = (differenceOfOperators * factors.K2) ** 2 - equipmentVariation ** 2 / (parts * trials);
  const appraiserVariation = Math.sqrt(Math.max(0, seen));
  const grr = Math.hypot(equipmentVariation, appraiserVariation);
  const partVariation = partRange * factors.K3;
  const totalVariation = Math.hypot(grr, partVariation);
  const ndcUnrounded = grr === 0 ? null : (1.41 * partVariation) / grr;
  return {
    meanRange,
    rangeUpperLimit: controlChartConstants(trials).D4 * meanRange,
    operatorMeans,
    operatorRanges,
    differenceOfOperators,
    partRange,
    equipmentVariation,
    appraiserVariation,
    grr,
    partVariation,
    totalVariation,
    percentStudy: totalVariation === 0 ? null : (100 * grr) / totalVariation,
    percentTolerance: toleranceWidth === null ? null : (600 * grr) / toleranceWidth,
    ndcUnrounded,
    ndc: ndcUnrounded === null ? null : Math.floor(ndcUnrounded),
  };
}

function averageOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
