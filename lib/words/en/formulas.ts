import { counted } from "../../format/numbers";

const INDICES = "ISO 22514-2 and ISO 22514-4 (from memory); NIST/SEMATECH e-Handbook 6.1.6";
const MODEL = "ISO 22514-2 (from memory); NIST/SEMATECH e-Handbook 6.1.6 and 3.5.1.2";

/** The way to every figure of a capability study: what stands beside the formulas. */
export const formulas = {
  fold: "How is this computed?",
  lead: "Every line is worked with the numbers of this window. They are shown rounded and used in full, so a last digit may differ when one follows on paper.",
  assumes: "Assumes",
  holds: "holds",
  fails: "fails",
  notKnown: "not known",
  notComputed: "not computed",
  from: (low: string, high: string) => `${low} to ${high}`,
  intervals: {
    figure: "Intervals",
    line: (confidence: string) =>
      `Two-sided ${confidence}: Cp, Pp and Cpm by chi-square, Cpk and Ppk by Bissell's approximation, the one-sided indices exactly by the noncentral t.`,
    source: "NIST/SEMATECH e-Handbook 6.1.6; Bissell 1990; Owen 1962 (the last two from memory)",
  },
  normality: {
    figure: "Normality",
    source: "D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.9 (from memory)",
  },
  pictures: {
    figure: "Pictures",
    line: "Bins twice the interquartile range over ∛n wide, made whole steps of the readings. Places on the normal scale are medians of order statistics, mᵢ = (i − 0.3175) / (n + 0.365); the band is their beta distribution.",
    source:
      "Freedman and Diaconis 1981 (from memory); Filliben 1975, as in NIST/SEMATECH e-Handbook 1.3.3.21",
  },
  mean: {
    figure: "Mean",
    numbers: (count: number, mean: string) => `over ${counted(count, "reading")}: ${mean}`,
    source: "two passes, after Chan, Golub and LeVeque 1983 (from memory)",
  },
  overall: {
    figure: "Overall sigma",
    numbers: (freedom: number, sigma: string) => `with n − 1 = ${freedom}: ${sigma}`,
    source: "ISO 22514-2 (from memory): the sample standard deviation, without c₄",
  },
  within: {
    figure: "Sigma within",
    movingRange: "mean moving range",
    source: (freedom: string) =>
      `degrees of freedom ν = ${freedom} (Patnaik's approximation, exact for the pooled form); ISO 7870-2 (from memory)`,
  },
  atLeast: (index: string) => `${index}, at least`,
  nearer: (formula: string, isUpper: boolean) =>
    `${formula}, the ${isUpper ? "upper" : "lower"} limit being the nearer`,
  indexSource: INDICES,
  widthBoundSource: "NIST/SEMATECH e-Handbook 6.1.6 and 3.5.1.2",
  nearerBoundSource:
    "Bissell, Applied Statistics 39 (1990) 331-340 (from memory); NIST/SEMATECH e-Handbook 3.5.1.2",
  expected: {
    below: "Expected below",
    above: "Expected above",
    source: "the normal distribution; far tails by erfc, never by one minus the other tail",
  },
  model: {
    distribution: "Distribution",
    distributionSource: "maximum likelihood; ISO 22514-2 names the families (from memory)",
    percentiles: "Percentiles",
    ofThat: "X₀.₁₃₅, X₅₀ and X₉₉.₈₆₅ of that distribution",
    source: MODEL,
    quantile: (share: string, repetitions: number) =>
      `${share} quantile of the index in ${repetitions} parametric bootstrap repetitions with a fixed seed`,
    bootstrapSource: "Efron and Tibshirani, An Introduction to the Bootstrap (1993), 6.5 (from memory)",
  },
  cpmSource: "Chan, Cheng and Spiring, J. Quality Technology 20 (1988); NIST/SEMATECH e-Handbook 6.1.6",
  counted: {
    below: "Counted below",
    above: "Counted above",
    formula: (level: string) =>
      `from Beta quantile(${level}; k, n − k + 1) to Beta quantile(1 − ${level}; k + 1, n − k)`,
    numbers: (seen: number, count: number, low: string, high: string) =>
      `k = ${seen} of n = ${count}: ${low} to ${high}`,
    source: "Clopper and Pearson, Biometrika 26 (1934) 404-413 (from memory)",
  },
  pieces: {
    figure: "Pieces to show it",
    freedom: (perPiece: string) => `${perPiece}·n, as the present estimate has per piece`,
    byBound: (name: string) => `n′ = n·((${name} − bound) / (${name} − target))²`,
    oneSided: (freedom: string) =>
      `the smallest n whose exact lower bound by the noncentral t reaches the target, with ν = ${freedom}`,
    byIndex: (name: string, freedom: string) =>
      `the smallest n with ${name} − z·√(1/(9n) + ${name}²/(2ν)) ≥ target, with ν = ${freedom}`,
    numbers: (name: string, index: string, target: string, pieces: number) =>
      `${name} ${index}, target ${target}: n = ${pieces}`,
    source: "the intervals above, turned round; they hold once the same value is found again",
  },
  gauge: {
    figure: "Process without its gauge",
    formula: "σ² process = σ² observed − σ² gauge, for s and for σw alike",
    all: (sigma: string) => `σ gauge ${sigma} is all of s`,
    numbers: (sigma: string, process: string, share: string) =>
      `s² − ${sigma}² = ${process}²; gauge ${share} of the variance`,
    source: "AIAG, Measurement Systems Analysis, 4th edition, chapter I (from memory)",
  },
  conformity: {
    figure: "Conformity",
    formula: "proved from L + U to U₀ − U; refuted below L − U and above U₀ + U",
    source: "ISO 14253-1 (from memory); the factor of U is for both sides to agree on",
  },
};
