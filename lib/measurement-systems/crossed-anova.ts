import { fUpperTail } from "../distributions/f";
import { type CrossedReadings, checkedCrossed } from "./arrange";

export const CROSSED_TERMS = ["part", "operator", "interaction", "repeatability"] as const;
export type CrossedTerm = (typeof CROSSED_TERMS)[number];

/** F and p are null for repeatability, and where the line below does not vary. */
export type CrossedLine = {
  term: CrossedTerm;
  sumOfSquares: number;
  degreesOfFreedom: number;
  meanSquare: number;
  F: number | null;
  p: number | null;
};

export type CrossedAnova = {
  lines: CrossedLine[];
  total: { sumOfSquares: number; degreesOfFreedom: number };
};

/**
 * Analysis of variance of a crossed study, parts and operators taken as random.
 *
 *   SS part = on Σ (x̄ᵢ − x̄)²,  SS operator = pn Σ (x̄ⱼ − x̄)²,  SS interaction = n ΣΣ (x̄ᵢⱼ − x̄ᵢ − x̄ⱼ + x̄)²,
 *   SS repeatability = ΣΣΣ (x − x̄ᵢⱼ)²
 *
 * with p parts, o operators, n trials. With the interaction in, part and operator are tested against it, and it
 * against repeatability; without, its squares go to repeatability, which both are tested against. Readings share an
 * origin before anything is squared.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition, appendix A (from memory).
 *
 * @throws InvalidInput for fewer than two parts, operators or trials
 */
export function crossedAnova(
  readings: CrossedReadings,
  { interaction }: { interaction: boolean },
): CrossedAnova {
  const { values, trials } = checkedCrossed("crossedAnova", readings);
  const p = readings.parts.length;
  const o = readings.operators.length;
  const n = trials;
  const origin = values[0]![0]![0]!;
  const cells = values.map((row) => row.map((cell) => averageOf(cell.map((x) => x - origin))));
  const partMeans = cells.map(averageOf);
  const operatorMeans = Array.from({ length: o }, (_, j) => averageOf(cells.map((row) => row[j]!)));
  const grand = averageOf(partMeans);

  let within = 0;
  let crossed = 0;
  for (let i = 0; i < p; i++) {
    for (let j = 0; j < o; j++) {
      crossed += n * (cells[i]![j]! - partMeans[i]! - operatorMeans[j]! + grand) ** 2;
      for (const x of values[i]![j]!) within += (x - origin - cells[i]![j]!) ** 2;
    }
  }
  const part = o * n * squaresAbout(partMeans, grand);
  const operator = p * n * squaresAbout(operatorMeans, grand);
  const degrees = { part: p - 1, operator: o - 1, interaction: (p - 1) * (o - 1), within: p * o * (n - 1) };

  const repeatability = interaction
    ? line("repeatability", within, degrees.within, null)
    : line("repeatability", within + crossed, degrees.within + degrees.interaction, null);
  const middle = interaction ? line("interaction", crossed, degrees.interaction, repeatability) : null;
  const below = middle ?? repeatability;
  return {
    lines: [
      line("part", part, degrees.part, below),
      line("operator", operator, degrees.operator, below),
      ...(middle === null ? [] : [middle]),
      repeatability,
    ],
    total: { sumOfSquares: part + operator + crossed + within, degreesOfFreedom: p * o * n - 1 },
  };
}

function line(
  term: CrossedTerm,
  sumOfSquares: number,
  degreesOfFreedom: number,
  below: CrossedLine | null,
): CrossedLine {
  const meanSquare = sumOfSquares / degreesOfFreedom;
  const F = below === null || below.meanSquare === 0 ? null : meanSquare / below.meanSquare;
  const degrees = { numerator: degreesOfFreedom, denominator: below?.degreesOfFreedom ?? 1 };
  return {
    term,
    sumOfSquares,
    degreesOfFreedom,
    meanSquare,
    F,
    p: F === null ? null : fUpperTail(F, degrees),
  };
}

function averageOf(values: readonly number[]): number {
  const first = values.reduce((sum, value) => sum + value, 0) / values.length;
  return first + values.reduce((sum, value) => sum + (value - first), 0) / values.length;
}

function squaresAbout(means: readonly number[], centre: number): number {
  return means.reduce((sum, mean) => sum + (mean - centre) ** 2, 0);
}
