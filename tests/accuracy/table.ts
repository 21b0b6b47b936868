import { lagOneAutocorrelation } from "../../lib/autocorrelation/lag-one";
import { oneWayAnova } from "../../lib/components/one-way";
import type { Computed } from "../../lib/computed";
import { leastSquares } from "../../lib/regression/least-squares";
import { mean, sampleStandardDeviation } from "../../lib/summary/moments";
import lew from "../reference/beam-deflection.json";
import anova from "../reference/strd-anova.json";
import further from "../reference/strd-further.json";
import regression from "../reference/strd-regression.json";
import univariate from "../reference/strd-univariate.json";

/** One certified figure of one set, ours beside it, and to how many digits they agree. */
export type AccuracyRow = {
  suite: "univariate" | "anova" | "regression";
  set: string;
  figure: string;
  certified: number;
  ours: number;
  digits: number;
};

/** Certified values have fifteen digits: beyond that agreement says nothing. */
export const MOST_DIGITS = 15;

/** −log₁₀ of the relative error, or of the error where the certified value is 0. */
export function correctDigits(ours: number, certified: number): number {
  const error = Math.abs(certified === 0 ? ours : ours / certified - 1);
  return error === 0 ? MOST_DIGITS : Math.max(0, Math.min(MOST_DIGITS, -Math.log10(error)));
}

/**
 * Every certified figure of NIST's Statistical Reference Datasets that is kept here: mean, standard deviation and
 * lag-1 autocorrelation of single series, the one-way analysis of variance, and linear regression.
 */
export function accuracyTable(): AccuracyRow[] {
  return [...univariateRows(), ...anovaRows(), ...regressionRows()];
}

type Printed = readonly { name: string; printed: unknown }[];

function certifiedIn(printed: Printed, name: string): number[] {
  const value = printed.find((one) => one.name === name)?.printed;
  if (value === undefined) throw new Error(`nothing certified under ${name}`);
  return (Array.isArray(value) ? value : [value]).map(Number);
}

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

function row(
  suite: AccuracyRow["suite"],
  { set, figure, certified, ours }: Omit<AccuracyRow, "suite" | "digits">,
): AccuracyRow {
  return { suite, set, figure, certified, ours, digits: correctDigits(ours, certified) };
}

function univariateRows(): AccuracyRow[] {
  const printed = [...univariate.printed, ...further.univariate.printed];
  const data = { ...univariate.data, ...further.univariate.data };
  const sets = Object.entries(data).map(([set, texts]) => ({
    set,
    values: (texts as (string | number)[]).map(Number),
    certified: (name: string) => certifiedIn(printed, `${set} ${name}`)[0]!,
    names: { mean: "mean", sd: "sd (n-1)", r1: "r1" },
  }));
  const series = {
    set: "Lew",
    values: lew.data.values,
    certified: (name: string) => certifiedIn(lew.printed, `certified ${name}`)[0]!,
    names: { mean: "mean", sd: "sd", r1: "r1" },
  };
  return [...sets, series].flatMap(({ set, values, certified, names }) => [
    row("univariate", { set, figure: "mean", certified: certified(names.mean), ours: mean(values) }),
    row("univariate", {
      set,
      figure: "standard deviation",
      certified: certified(names.sd),
      ours: sampleStandardDeviation(values),
    }),
    row("univariate", {
      set,
      figure: "autocorrelation",
      certified: certified(names.r1),
      ours: found(lagOneAutocorrelation(values)).r,
    }),
  ]);
}

function anovaRows(): AccuracyRow[] {
  const printed = [...anova.printed, ...further.anova.printed];
  return Object.entries({ ...anova.data, ...further.anova.data }).flatMap(([set, groups]) => {
    const texts = groups as (string | number)[][];
    const { between, within, F } = found(
      oneWayAnova(
        texts.flat().map(Number),
        texts.flatMap((group, i) => group.map(() => i)),
      ),
    );
    const total = between.sumOfSquares + within.sumOfSquares;
    const figures: Record<string, [name: string, ours: number]> = {
      "squares between": ["ss_b", between.sumOfSquares],
      "squares within": ["ss_w", within.sumOfSquares],
      F: ["F", F!],
      "R squared": ["r2", between.sumOfSquares / total],
      "residual deviation": ["sd", Math.sqrt(within.meanSquare)],
    };
    return Object.entries(figures).map(([figure, [name, ours]]) =>
      row("anova", { set, figure, certified: certifiedIn(printed, `${set} ${name}`)[0]!, ours }),
    );
  });
}

type RegressionSet = { rows: string[][]; degree?: number; intercept?: boolean };

function regressionRows(): AccuracyRow[] {
  const printed = [...regression.printed, ...further.regression.printed];
  const sets = { ...regression.data, ...further.regression.data } as unknown as Record<string, RegressionSet>;
  return Object.entries(sets).flatMap(([set, model]) => {
    const { y, columns } = modelOf(model);
    const fitted = found(leastSquares(y, columns));
    const certified = (name: string) => certifiedIn(printed, `${set} ${name}`);
    const each = (figure: string, name: string, ours: readonly number[]) =>
      certified(name).map((value, j) =>
        row("regression", { set, figure: `${figure} ${j + 1}`, certified: value, ours: ours[j]! }),
      );
    return [
      ...each(
        "coefficient",
        "coefficients",
        fitted.coefficients.map(({ estimate }) => estimate),
      ),
      ...each(
        "standard error",
        "standard errors",
        fitted.coefficients.map(({ standardError }) => standardError),
      ),
      row("regression", {
        set,
        figure: "residual deviation",
        certified: certified("residual sd")[0]!,
        ours: fitted.residualStandardDeviation,
      }),
      row("regression", { set, figure: "R squared", certified: certified("R2")[0]!, ours: fitted.rSquared! }),
    ];
  });
}

/** The columns of the certified model: an intercept unless the set has none, then powers up to its degree. */
export function modelOf({ rows, degree = 1, intercept = true }: RegressionSet): {
  y: number[];
  columns: number[][];
} {
  const y = rows.map((cells) => Number(cells[0]));
  const predictors = rows[0]!.slice(1).map((_, j) => rows.map((cells) => Number(cells[j + 1])));
  const powers =
    predictors.length === 1
      ? Array.from({ length: degree }, (_, k) => predictors[0]!.map((x) => x ** (k + 1)))
      : predictors;
  return { y, columns: [...(intercept ? [y.map(() => 1)] : []), ...powers] };
}
