import type { Estimator, LimitsEstimator } from "../../limits/estimators";

/** How an estimator of the within-subgroup sigma is told to people. Formulas are those of its own file. */
export type EstimatorWords = {
  /** "the mean range", for a sentence. */
  name: string;
  formula: string;
  /** The mean spread it divides, and by what; null where it is no single quotient. */
  quotient: { spread: string; spreadName: string; divisor: string } | null;
  /** Why one takes it. */
  because: string;
  source: string;
};

const STANDARDS = "ASTM E2587 and ISO 7870-2 (from memory)";

export const estimators = {
  within: {
    "mean-range": {
      name: "the mean range",
      formula: "σ̂ = R̄ / d₂(n)",
      quotient: { spread: "R̄", spreadName: "Mean range", divisor: "d₂" },
      because: "It can be followed by hand, and up to about nine readings it loses little.",
      source: STANDARDS,
    },
    "weighted-range": {
      name: "the ranges, weighted by subgroup size",
      formula: "σ̂ = Σ w·R/d₂(n) / Σ w,  w = (d₂/d₃)²",
      quotient: null,
      because: "Subgroups differ in size, and these weights give the least variance.",
      source: "I. W. Burr, Journal of Quality Technology 1 (1969) 163-167 (from memory)",
    },
    "mean-sd": {
      name: "the mean standard deviation",
      formula: "σ̂ = s̄ / c₄(n)",
      quotient: { spread: "s̄", spreadName: "Mean standard deviation", divisor: "c₄" },
      because: "A single disturbed subgroup weighs less in it than in the pooled estimate.",
      source: STANDARDS,
    },
    "pooled-sd": {
      name: "the pooled standard deviation",
      formula: "σ̂ = √( Σ (n−1)·s² / Σ (n−1) )",
      quotient: null,
      because: "Subgroups may differ in size, and its degrees of freedom are exact.",
      source: "ASTM E2587; NIST/SEMATECH e-Handbook, pooled standard deviation (from memory)",
    },
    "mean-moving-range": {
      name: "the mean moving range",
      formula: "σ̂ = MR̄ / d₂(2)",
      quotient: { spread: "MR̄", spreadName: "Mean moving range", divisor: "d₂" },
      because:
        "Neighbouring readings share short-term variation, so it sees the process between disturbances and not the shifts that the chart must reveal.",
      source: "NIST/SEMATECH e-Handbook, 6.3.2.2 (from memory)",
    },
    "median-moving-range": {
      name: "the median moving range",
      formula: "σ̂ = median MR / 0.9539",
      quotient: {
        spread: "median MR",
        spreadName: "Median moving range",
        divisor: "the median range of two",
      },
      because: "A few outliers in the baseline hardly move a median.",
      source:
        "The divisor is the median of the range of two normal readings; the estimate is common practice, no source",
    },
  } as Readonly<Record<Estimator, EstimatorWords>>,
  /** Ways to limits that rest on no estimate of one sigma within subgroups. */
  other: {
    "between-lots": "lot means: what varies from lot to lot is part of the process",
    binomial: "the binomial distribution of counts",
    poisson: "the Poisson distribution of counts",
  } as Readonly<Record<Exclude<LimitsEstimator, Estimator>, string>>,
};
