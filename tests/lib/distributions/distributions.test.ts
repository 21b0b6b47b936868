import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import { betaQuantile } from "../../../lib/distributions/beta";
import { chiSquareCdf, chiSquareQuantile, chiSquareUpperTail } from "../../../lib/distributions/chi-square";
import { fUpperTail } from "../../../lib/distributions/f";
import { noncentralityBound, noncentralTTails } from "../../../lib/distributions/noncentral-t";
import {
  normalCdf,
  normalDensity,
  normalLogCdf,
  normalQuantile,
  normalUpperQuantile,
  normalUpperTail,
} from "../../../lib/distributions/normal";
import { studentTCdf, studentTQuantile, studentTUpperTail } from "../../../lib/distributions/student-t";
import reference from "../../reference/distributions.json";

type Case = {
  kind: string;
  input: {
    parameters: Record<string, number>;
    arguments?: number[];
    probabilities?: number[];
    upperTailProbabilities?: number[];
  };
  expected: Partial<Record<string, number[]>>;
};
const cases = reference.cases as unknown as Case[];

type Curve = (argument: number) => number;
type Functions = {
  cumulative?: Curve;
  upperTail?: Curve;
  density?: Curve;
  quantile?: Curve;
  upperQuantile?: Curve;
};

/** Our functions for the parameters of a reference case, as curves over the case's own unit. */
const functionsOf: Record<string, (parameters: Record<string, number>) => Functions> = {
  normal: ({ mean = 0, standardDeviation = 1 }) => ({
    cumulative: (x) => normalCdf((x - mean) / standardDeviation),
    upperTail: (x) => normalUpperTail((x - mean) / standardDeviation),
    density: (x) => normalDensity((x - mean) / standardDeviation) / standardDeviation,
    quantile: (p) => mean + standardDeviation * normalQuantile(p),
    upperQuantile: (q) => mean + standardDeviation * normalUpperQuantile(q),
  }),
  "student-t": ({ degreesOfFreedom: v = 0 }) => ({
    cumulative: (t) => studentTCdf(t, v),
    upperTail: (t) => studentTUpperTail(t, v),
    quantile: (p) => studentTQuantile(p, v),
    upperQuantile: (q) => -studentTQuantile(q, v),
  }),
  "chi-square": ({ degreesOfFreedom: v = 0 }) => ({
    cumulative: (x) => chiSquareCdf(x, v),
    upperTail: (x) => chiSquareUpperTail(x, v),
    quantile: (p) => chiSquareQuantile(p, v),
  }),
  f: ({ numeratorDegreesOfFreedom: numerator = 0, denominatorDegreesOfFreedom: denominator = 0 }) => ({
    upperTail: (x) => fUpperTail(x, { numerator, denominator }),
  }),
  beta: ({ alpha = 0, beta = 0 }) => ({
    quantile: (p) => betaQuantile(p, { alpha, beta }),
    upperQuantile: (q) => 1 - betaQuantile(q, { alpha: beta, beta: alpha }),
  }),
  "noncentral-t": ({ degreesOfFreedom = 0, noncentrality = 0 }) => ({
    cumulative: (t) => noncentralTTails(t, { degreesOfFreedom, noncentrality }).lower,
    upperTail: (t) => noncentralTTails(t, { degreesOfFreedom, noncentrality }).upper,
  }),
};

const ARGUMENT_FIELDS = {
  cumulative: "arguments",
  upperTail: "arguments",
  density: "arguments",
  quantile: "probabilities",
  upperQuantile: "upperTailProbabilities",
} as const;

/** What we demand beyond the file's own 1e-10: closed forms to 1e-12, noncentral t (an integral) to 1e-9. */
const RELATIVE: Record<string, number> = { "noncentral-t": 1e-9 };

describe(`computed independently: ${reference.source}`, () => {
  for (const one of cases) {
    test(`${one.kind} ${JSON.stringify(one.input.parameters)}`, () => {
      const ours = functionsOf[one.kind]!(one.input.parameters);
      for (const [name, curve] of Object.entries(ours)) {
        const field = ARGUMENT_FIELDS[name as keyof Functions];
        const expected = one.expected[name]!;
        one.input[field]!.forEach((argument, i) => {
          const off = Math.abs(curve(argument) - expected[i]!);
          const allowed = (RELATIVE[one.kind] ?? 1e-12) * Math.abs(expected[i]!);
          // A quantile of 0 (the symmetric distributions' median) has no relative error.
          expect(off, `${name} at ${argument}`).toBeLessThanOrEqual(Math.max(allowed, 1e-15));
        });
      }
    });
  }
});

describe("chi-square with many degrees of freedom, where the library's incomplete gamma fails", () => {
  // scipy 1.17.1: chi2.ppf(0.025, v), chi2.ppf(0.975, v); gammaincc(5e5, 5e5).
  const quantiles = [
    { v: 1e3, low: 914.257153799259, high: 1089.5309127749135 },
    { v: 600, low: 534.0185504659327, high: 669.7691522164112 },
    { v: 2e3, low: 1877.9460368153905, high: 2125.8423024497756 },
    { v: 1e5, low: 99125.37330064735, high: 100878.41530566558 },
    { v: 1e6, low: 997230.0871432901, high: 1002773.701467926 },
  ];
  test.each(quantiles)("quantiles at $v", ({ v, low, high }) => {
    expect(chiSquareQuantile(0.025, v) / low - 1).toBeCloseTo(0, 12);
    expect(chiSquareQuantile(0.975, v) / high - 1).toBeCloseTo(0, 12);
  });

  test("upper tail at the mean of a million", () => {
    expect(chiSquareUpperTail(1e6, 1e6) / 0.4998119368033945 - 1).toBeCloseTo(0, 11);
  });
});

describe("normal far out", () => {
  test("ln Φ joins its asymptotic series where Φ still has digits", () => {
    expect(normalLogCdf(-31)).toBeCloseTo(Math.log(normalCdf(-31)), 11);
    expect(normalLogCdf(-37)).toBeCloseTo(Math.log(normalCdf(-37)), 11);
    expect(normalLogCdf(8) / -normalUpperTail(8)).toBeCloseTo(1, 14);
  });

  test("by hand: ln Φ(−100) is −5000 − ln(100√2π) + ln(1 − 1e-4 + 3e-8 − …)", () => {
    const expected = -5000 - Math.log(100 * Math.sqrt(2 * Math.PI)) + Math.log1p(-1e-4 + 3e-8 - 15e-12);
    expect(normalLogCdf(-100)).toBeCloseTo(expected, 10);
  });
});

describe("noncentral t", () => {
  test("by hand: P(T ≤ 0) = Φ(−δ)", () => {
    const { lower, upper } = noncentralTTails(0, { degreesOfFreedom: 7, noncentrality: 1.5 });
    expect(lower).toBeCloseTo(normalCdf(-1.5), 12);
    expect(upper).toBeCloseTo(normalCdf(1.5), 12);
  });

  test("law: without noncentrality it is Student's t, whole degrees of freedom or not", () => {
    for (const degreesOfFreedom of [1, 2, 4.4, 30, 77.7, 5000]) {
      for (const t of [-6, -1.3, 0.2, 2.5, 11]) {
        const { lower, upper } = noncentralTTails(t, { degreesOfFreedom, noncentrality: 0 });
        expect(lower / studentTCdf(t, degreesOfFreedom) - 1).toBeCloseTo(0, 9);
        expect(upper / studentTUpperTail(t, degreesOfFreedom) - 1).toBeCloseTo(0, 9);
      }
    }
  });

  test("law: T mirrored has δ mirrored", () => {
    const one = noncentralTTails(3.2, { degreesOfFreedom: 12, noncentrality: 1.1 });
    const mirrored = noncentralTTails(-3.2, { degreesOfFreedom: 12, noncentrality: -1.1 });
    expect(one.lower).toBeCloseTo(mirrored.upper, 13);
  });

  test("law: the bound's noncentrality gives back the confidence", () => {
    for (const t of [-5, 0, 4, 40, 400]) {
      for (const degreesOfFreedom of [3, 24, 170.3, 4000]) {
        const noncentrality = noncentralityBound({ t, degreesOfFreedom, confidence: 0.95 });
        const { lower } = noncentralTTails(t, { degreesOfFreedom, noncentrality });
        expect(lower).toBeCloseTo(0.95, 10);
      }
    }
  });
});

describe("bad input", () => {
  test.each([
    ["a probability of 0", () => normalQuantile(0)],
    ["a probability above 1", () => normalUpperQuantile(1.2)],
    ["no degrees of freedom", () => studentTCdf(1, 0)],
    ["a probability that is not a number", () => studentTQuantile(Number.NaN, 3)],
    ["negative degrees of freedom", () => chiSquareQuantile(0.5, -1)],
    [
      "degrees of freedom that are not a number",
      () => fUpperTail(1, { numerator: Number.NaN, denominator: 3 }),
    ],
    ["a shape of 0", () => betaQuantile(0.5, { alpha: 0, beta: 1 })],
    ["an infinite t", () => noncentralTTails(1 / 0, { degreesOfFreedom: 3, noncentrality: 0 })],
    [
      "less than one degree of freedom",
      () => noncentralTTails(1, { degreesOfFreedom: 0.5, noncentrality: 0 }),
    ],
    ["certainty", () => noncentralityBound({ t: 1, degreesOfFreedom: 3, confidence: 1 })],
  ])("%s is refused by name", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});
