import type { FeatureStudy } from "../../../lib/capability/feature-study";
import { c4 } from "../../../lib/constants/c4";
import { D2_OF_TWO } from "../../../lib/constants/control-chart-constants";
import { relativeRange } from "../../../lib/constants/relative-range";
import { chiSquareQuantile } from "../../../lib/distributions/chi-square";
import { normalUpperQuantile } from "../../../lib/distributions/normal";
import { counted, fixed } from "../../../lib/format/numbers";
import { ESTIMATOR_WORDS, significant } from "../figure-words";

/** One figure of a study: its formula, the feature's own numbers in it, what comes out, and where it is from. */
export type FormulaLine = { figure: string; formula: string; numbers: string; source: string };

/** Decimals beyond the feature's own with which numbers are put into a formula. */
const EXTRA = 3;
const DIGITS = 6;

const INDICES_SOURCE = "ISO 22514-2 and ISO 22514-4 (from memory); NIST/SEMATECH e-Handbook 6.1.6";

/**
 * The way to every figure of a study with the numbers put in, so that somebody can follow it on paper.
 *
 * Numbers are rounded only for showing; recomputed from what is shown, the last digit may differ.
 */
export function formulaLines(
  result: FeatureStudy,
  { places, tolerance }: { places: number; tolerance: { lower: number | null; upper: number | null } },
): FormulaLine[] {
  const { study, limits } = result;
  const { mean, sdOverall, count, confidence } = study;
  if (mean === null || sdOverall === null) return [];
  const value = (figure: number) => fixed(figure, places + EXTRA);
  const limit = (figure: number) => fixed(figure, places);
  const { lower, upper } = tolerance;
  const lines: FormulaLine[] = [
    {
      figure: "Mean",
      formula: "x̄ = Σx / n",
      numbers: `over ${counted(count, "reading")}: ${value(mean)}`,
      source: "two passes, after Chan, Golub and LeVeque 1983 (from memory)",
    },
    {
      figure: "Overall sigma",
      formula: "s = √(Σ(x − x̄)² / (n − 1))",
      numbers: `with n − 1 = ${count - 1}: ${significant(sdOverall, DIGITS)}`,
      source: "ISO 22514-2 (from memory): the sample standard deviation, without c₄",
    },
  ];
  if (limits.ok) lines.push(withinLine(limits.value));
  if (study.problem !== null) return lines;

  const spreads = [
    { sigma: study.sigmaWithin, sign: "σw", p: "Cp", pk: "Cpk" },
    { sigma: sdOverall, sign: "s", p: "Pp", pk: "Ppk" },
  ] as const;
  for (const { sigma, sign, p, pk } of spreads) {
    const width = study[p];
    const nearer = study[pk];
    if (sigma === null || nearer === null) continue;
    const shown = significant(sigma, DIGITS);
    if (width !== null && lower !== null && upper !== null) {
      lines.push({
        figure: p,
        formula: `${p} = (U − L) / 6${sign}`,
        numbers: `(${limit(upper)} − ${limit(lower)}) / (6 × ${shown}) = ${fixed(width, 4)}`,
        source: INDICES_SOURCE,
      });
    }
    const isUpper = nearer === (pk === "Cpk" ? study.Cpu : study.Ppu) && upper !== null;
    lines.push({
      figure: pk,
      formula: isUpper
        ? `${pk} = (U − x̄) / 3${sign}, the upper limit being the nearer`
        : `${pk} = (x̄ − L) / 3${sign}, the lower limit being the nearer`,
      numbers: isUpper
        ? `(${limit(upper)} − ${value(mean)}) / (3 × ${shown}) = ${fixed(nearer, 4)}`
        : `(${value(mean)} − ${limit(lower ?? 0)}) / (3 × ${shown}) = ${fixed(nearer, 4)}`,
      source: INDICES_SOURCE,
    });
  }

  const z = normalUpperQuantile(1 - confidence);
  for (const [name, freedom] of [
    ["Cpk", limits.ok ? limits.value.degreesOfFreedom : null],
    ["Ppk", count - 1],
  ] as const) {
    const index = study[name];
    const bound = study.lowerBounds[name];
    if (index === null || bound === null || freedom === null) continue;
    lines.push({
      figure: `${name}, at least`,
      formula: `${name} − z·√(1/(9n) + ${name}²/(2ν))`,
      numbers: `${fixed(index, 4)} − ${fixed(z, 4)} × √(1/(9 × ${count}) + ${fixed(index, 4)}²/(2 × ${significant(freedom, 5)})) = ${fixed(bound, 4)}`,
      source: "Bissell, Applied Statistics 39 (1990) 331-340 (from memory); NIST/SEMATECH e-Handbook 3.5.1.2",
    });
  }
  for (const [name, freedom] of [
    ["Cp", limits.ok ? limits.value.degreesOfFreedom : null],
    ["Pp", count - 1],
  ] as const) {
    const index = study[name];
    const bound = study.lowerBounds[name];
    if (index === null || bound === null || freedom === null) continue;
    const quantile = chiSquareQuantile(1 - confidence, freedom);
    lines.push({
      figure: `${name}, at least`,
      formula: `${name}·√(χ²(${fixed(1 - confidence, 2)}; ν) / ν)`,
      numbers: `${fixed(index, 4)} × √(${significant(quantile, DIGITS)} / ${significant(freedom, 5)}) = ${fixed(bound, 4)}`,
      source: "NIST/SEMATECH e-Handbook 6.1.6 and 3.5.1.2",
    });
  }
  const { below, above } = study.expectedOutside;
  const sides = [
    { fraction: below, limit: lower, formula: "Φ((L − x̄) / s)", name: "Expected below" },
    { fraction: above, limit: upper, formula: "1 − Φ((U − x̄) / s)", name: "Expected above" },
  ];
  for (const side of sides) {
    if (side.fraction === null || side.limit === null) continue;
    const standardised = significant((side.limit - mean) / sdOverall, 5);
    const inside = `Φ(${standardised})`;
    lines.push({
      figure: side.name,
      formula: side.formula,
      numbers: `${side.limit === lower ? inside : `1 − ${inside}`} = ${significant(side.fraction, 3)}`,
      source: "the normal distribution; far tails from erfc, never from one minus the other tail",
    });
  }
  return lines;
}

function withinLine({
  estimator,
  sigma,
  subgroupSize,
  degreesOfFreedom,
}: {
  estimator: string;
  sigma: number;
  subgroupSize: number | null;
  degreesOfFreedom: number;
}): FormulaLine {
  const line = {
    figure: "Sigma within",
    source: `degrees of freedom ν = ${significant(degreesOfFreedom, 5)} (Patnaik's approximation, exact for the pooled form); ISO 7870-2 (from memory)`,
  };
  const shown = significant(sigma, DIGITS);
  const constant = constantOf(estimator, subgroupSize);
  if (constant === null) {
    return {
      ...line,
      formula: `σw: ${ESTIMATOR_WORDS[estimator] ?? estimator}`,
      numbers: `σw = ${shown}`,
    };
  }
  return {
    ...line,
    formula: `σw = ${constant.mean} / ${constant.name}`,
    numbers: `${significant(sigma * constant.value, DIGITS)} / ${fixed(constant.value, 5)} = ${shown}`,
  };
}

/** The mean measure of spread that the estimator divides, and by what; null where there is no such pair. */
function constantOf(
  estimator: string,
  size: number | null,
): { mean: string; name: string; value: number } | null {
  if (estimator === "mean-moving-range") return { mean: "mean moving range", name: "d₂", value: D2_OF_TWO };
  if (size === null) return null;
  if (estimator === "mean-range") return { mean: "R̄", name: "d₂", value: relativeRange(size).d2 };
  if (estimator === "mean-sd") return { mean: "s̄", name: "c₄", value: c4(size) };
  return null;
}
