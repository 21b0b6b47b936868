import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import { betaQuantile } from "../../../lib/distributions/beta";
import {
  chiSquareCdf,
  chiSquareDensity,
  chiSquareQuantile,
  chiSquareUpperQuantile,
  chiSquareUpperTail,
} from "../../../lib/distributions/chi-square";
import type { Distribution } from "../../../lib/distributions/distribution";
import { fCdf, fDensity, fQuantile, fUpperQuantile, fUpperTail } from "../../../lib/distributions/f";
import { foldedNormal } from "../../../lib/distributions/folded-normal";
import { betaPrefactor, regularizedBeta } from "../../../lib/distributions/incomplete-beta";
import { lognormal } from "../../../lib/distributions/lognormal";
import { noncentralityBound, noncentralTTails } from "../../../lib/distributions/noncentral-t";
import {
  normalCdf,
  normalDensity,
  normalLogCdf,
  normalQuantile,
  normalUpperQuantile,
  normalUpperTail,
} from "../../../lib/distributions/normal";
import { rayleigh } from "../../../lib/distributions/rayleigh";
import { studentTCdf, studentTQuantile, studentTUpperTail } from "../../../lib/distributions/student-t";
import {
  studentizedRangeUpperQuantile,
  studentizedRangeUpperTail,
} from "../../../lib/distributions/studentized-range";
import { weibull } from "../../../lib/distributions/weibull";
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

const curvesOf = (distribution: Distribution): Functions => ({
  ...distribution,
  cumulative: distribution.cdf,
});

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
    // t² is F of 1 and ν; at 0, where that has no density, it is 1/(√ν B(½, ν/2)), and B is what x = y = ½ leave.
    density: (t) =>
      t === 0
        ? (betaPrefactor({ x: 0.5, y: 0.5, a: 0.5, b: v / 2 }) * 2 ** (0.5 + v / 2)) / Math.sqrt(v)
        : Math.abs(t) * fDensity(t * t, { numerator: 1, denominator: v }),
    quantile: (p) => studentTQuantile(p, v),
    upperQuantile: (q) => -studentTQuantile(q, v),
  }),
  "chi-square": ({ degreesOfFreedom: v = 0 }) => ({
    cumulative: (x) => chiSquareCdf(x, v),
    upperTail: (x) => chiSquareUpperTail(x, v),
    density: (x) => chiSquareDensity(x, v),
    quantile: (p) => chiSquareQuantile(p, v),
    upperQuantile: (q) => chiSquareUpperQuantile(q, v),
  }),
  // A gamma variable of shape a and scale s is s/2 times a chi-square of 2a degrees of freedom.
  gamma: ({ shape = 0, scale = 0 }) => ({
    cumulative: (x) => chiSquareCdf((2 * x) / scale, 2 * shape),
    upperTail: (x) => chiSquareUpperTail((2 * x) / scale, 2 * shape),
    density: (x) => (2 / scale) * chiSquareDensity((2 * x) / scale, 2 * shape),
    quantile: (p) => (scale / 2) * chiSquareQuantile(p, 2 * shape),
    upperQuantile: (q) => (scale / 2) * chiSquareUpperQuantile(q, 2 * shape),
  }),
  lognormal: ({ logMean = 0, logStandardDeviation = 0 }) =>
    curvesOf(lognormal({ logMean, logStandardDeviation })),
  weibull: ({ shape = 0, scale = 0 }) => curvesOf(weibull({ shape, scale })),
  rayleigh: ({ scale = 0 }) => curvesOf(rayleigh({ scale })),
  "folded-normal": ({ location = 0, scale = 0 }) => curvesOf(foldedNormal({ location, scale })),
  "studentized-range": ({ groupCount: groups = 0, degreesOfFreedom }) => {
    const range = { groups, degreesOfFreedom: degreesOfFreedom ?? Number.POSITIVE_INFINITY };
    return {
      upperTail: (q) => studentizedRangeUpperTail(q, range),
      upperQuantile: (p) => studentizedRangeUpperQuantile(p, range),
    };
  },
  f: ({ numeratorDegreesOfFreedom: numerator = 0, denominatorDegreesOfFreedom: denominator = 0 }) => ({
    cumulative: (x) => fCdf(x, { numerator, denominator }),
    upperTail: (x) => fUpperTail(x, { numerator, denominator }),
    density: (x) => fDensity(x, { numerator, denominator }),
    quantile: (p) => fQuantile(p, { numerator, denominator }),
    upperQuantile: (q) => fUpperQuantile(q, { numerator, denominator }),
  }),
  beta: ({ alpha: a = 0, beta: b = 0 }) => ({
    cumulative: (x) => regularizedBeta({ x, y: 1 - x, a, b }).lower,
    upperTail: (x) => regularizedBeta({ x, y: 1 - x, a, b }).upper,
    density: (x) => betaPrefactor({ x, y: 1 - x, a, b }) / (x * (1 - x)),
    quantile: (p) => betaQuantile(p, { alpha: a, beta: b }),
    upperQuantile: (q) => 1 - betaQuantile(q, { alpha: b, beta: a }),
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

/** What we demand beyond the file's own 1e-10: closed forms to 1e-12, noncentral t and studentized range (integrals) to 1e-9. */
const RELATIVE: Record<string, number> = { "noncentral-t": 1e-9, "studentized-range": 1e-9 };

describe(`computed independently: ${reference.source}`, () => {
  for (const one of cases) {
    test(`${one.kind} ${JSON.stringify(one.input.parameters)}`, () => {
      const ours = functionsOf[one.kind]!(one.input.parameters);
      for (const name of Object.keys(ARGUMENT_FIELDS) as (keyof Functions)[]) {
        const curve = ours[name];
        if (!curve) continue;
        const field = ARGUMENT_FIELDS[name];
        const expected = one.expected[name]!;
        one.input[field]!.forEach((argument, i) => {
          const off = Math.abs(curve(argument) - expected[i]!);
          const allowed = (RELATIVE[one.kind] ?? 1e-12) * Math.abs(expected[i]!);
          // A quantile of 0 (the symmetric distributions' median) has no relative error.
          expect(off, `${name} at ${argument}`).toBeLessThanOrEqual(expected[i] === 0 ? 1e-15 : allowed);
        });
      }
    });
  }
});

describe("quantiles of the noncentral t, which nothing here solves for", () => {
  for (const { kind, input, expected } of cases) {
    if (kind !== "noncentral-t") continue;
    test(JSON.stringify(input.parameters), () => {
      const { degreesOfFreedom = 0, noncentrality = 0 } = input.parameters;
      const tails = (t: number) => noncentralTTails(t, { degreesOfFreedom, noncentrality });
      // The file's quantiles carry a relative error of some 1e-13, which far tails multiply by up to 1e4.
      for (const [i, p] of input.probabilities!.entries()) {
        expect(tails(expected.quantile![i]!).lower / p - 1).toBeCloseTo(0, 8);
      }
      for (const [i, q] of input.upperTailProbabilities!.entries()) {
        expect(tails(expected.upperQuantile![i]!).upper / q - 1).toBeCloseTo(0, 8);
      }
    });
  }
});

describe("laws", () => {
  test("a folded normal about 0 is a half normal, far from 0 a normal", () => {
    const half = foldedNormal({ location: 0, scale: 2 });
    expect(half.upperTail(3)).toBeCloseTo(2 * normalUpperTail(1.5), 15);
    const far = foldedNormal({ location: 40, scale: 2 });
    expect(far.quantile(0.3)).toBeCloseTo(40 + 2 * normalQuantile(0.3), 10);
  });

  test("Rayleigh is Weibull of shape 2 and scale s√2", () => {
    const one = rayleigh({ scale: 0.7 });
    const other = weibull({ shape: 2, scale: 0.7 * Math.SQRT2 });
    for (const x of [0.001, 0.4, 2.5, 6]) {
      expect(one.upperTail(x) / other.upperTail(x) - 1).toBeCloseTo(0, 12);
      expect(one.logDensity(x)).toBeCloseTo(other.logDensity(x), 12);
    }
  });

  test("quantiles and tails undo each other, also far out", () => {
    const each = [
      lognormal({ logMean: -1, logStandardDeviation: 0.6 }),
      weibull({ shape: 0.7, scale: 3 }),
      rayleigh({ scale: 0.02 }),
      foldedNormal({ location: 0.01, scale: 0.01 }),
      foldedNormal({ location: 5, scale: 0.1 }),
    ];
    for (const one of each) {
      for (const p of [1e-13, 1e-5, 0.2, 0.5, 0.8, 0.999]) {
        expect(one.cdf(one.quantile(p)) / p - 1).toBeCloseTo(0, 10);
        expect(one.upperTail(one.upperQuantile(p)) / p - 1).toBeCloseTo(0, 10);
        const x = one.quantile(p);
        expect(Math.exp(one.logDensity(x)) / one.density(x) - 1).toBeCloseTo(0, 10);
        expect(one.cdf(x) + one.upperTail(x)).toBeCloseTo(1, 14);
      }
    }
  });

  test("outside their support densities are 0 and tails 0 and 1", () => {
    for (const one of [weibull({ shape: 2, scale: 1 }), foldedNormal({ location: 1, scale: 1 })]) {
      expect([one.cdf(-1), one.upperTail(-1), one.density(-1), one.logDensity(-1)]).toEqual([
        0,
        1,
        0,
        Number.NEGATIVE_INFINITY,
      ]);
    }
  });

  test("by hand: the range of two means is √2|Z|, so P(Q > q) = 2(1 − Φ(q/√2))", () => {
    const range = { groups: 2, degreesOfFreedom: Number.POSITIVE_INFINITY };
    for (const q of [0.5, 3, 9]) {
      expect(studentizedRangeUpperTail(q, range) / (2 * normalUpperTail(q / Math.SQRT2)) - 1).toBeCloseTo(
        0,
        11,
      );
    }
  });

  test("by hand: F of 1 and ν is t², of 2 and 2 has the tail 1/(1 + x)", () => {
    expect(fUpperTail(9, { numerator: 1, denominator: 7 }) / (2 * studentTUpperTail(3, 7)) - 1).toBeCloseTo(
      0,
      12,
    );
    expect(fUpperTail(1e6, { numerator: 2, denominator: 2 }) / (1 / (1 + 1e6)) - 1).toBeCloseTo(0, 12);
  });
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

  test.each([1e-13, 1e-16, 1e-17, 1e-40, 1e-150, 1e-300])(
    "law: a tail of %f beyond its own quantile",
    (p) => {
      const z = normalQuantile(p);
      expect(normalCdf(z) / p).toBeCloseTo(1, 11);
      expect(normalUpperQuantile(p)).toBe(-z);
    },
  );
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

  test("law: so it does for few degrees of freedom, far off and with either tail", () => {
    // Two or three pieces that all lie far outside: the start of the search is nowhere near its end.
    for (const t of [-500, -50, -5, 0.1, 60]) {
      for (const degreesOfFreedom of [1, 1.3, 2, 4]) {
        for (const confidence of [0.001, 0.025, 0.5, 0.975, 0.999]) {
          const noncentrality = noncentralityBound({ t, degreesOfFreedom, confidence });
          const { lower, upper } = noncentralTTails(t, { degreesOfFreedom, noncentrality });
          expect(lower / confidence).toBeCloseTo(1, 9);
          expect(upper / (1 - confidence)).toBeCloseTo(1, 9);
        }
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
    ["a lognormal without spread", () => lognormal({ logMean: 0, logStandardDeviation: 0 })],
    ["a negative Weibull shape", () => weibull({ shape: -1, scale: 1 })],
    ["a Rayleigh scale that is not a number", () => rayleigh({ scale: Number.NaN })],
    ["a folded normal about a negative mean", () => foldedNormal({ location: -1, scale: 1 })],
    ["a folded normal quantile of 0", () => foldedNormal({ location: 1, scale: 1 }).quantile(0)],
    ["a range of one mean", () => studentizedRangeUpperTail(3, { groups: 1, degreesOfFreedom: 5 })],
    [
      "a range without a probability",
      () => studentizedRangeUpperQuantile(0, { groups: 3, degreesOfFreedom: 5 }),
    ],
    ["a chi-square tail of 1", () => chiSquareUpperQuantile(1, 3)],
    ["an F without degrees of freedom", () => fUpperQuantile(0.05, { numerator: 0, denominator: 3 })],
    ["certainty", () => noncentralityBound({ t: 1, degreesOfFreedom: 3, confidence: 1 })],
  ])("%s is refused by name", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});
