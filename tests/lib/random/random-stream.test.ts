import { mean, sampleKurtosis, sampleSkewness, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import { randomStream, xoshiro } from "../../../lib/random/random-stream";

describe("xoshiro128**", () => {
  test("by hand: from 1, 2, 3, 4 the first number is ((2 · 5) rotated by 7) · 9 = 1280 · 9", () => {
    expect(xoshiro(Uint32Array.of(1, 2, 3, 4))()).toBe(11520);
  });

  test("published: ten numbers from the state 1, 2, 3, 4 by the authors' C program, version 1.1, as the tests of the Rust crate rand_xoshiro print them", () => {
    const next = xoshiro(Uint32Array.of(1, 2, 3, 4));
    expect(Array.from({ length: 10 }, next)).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  test("edge: a state of zeros would stay there", () => {
    expect(() => xoshiro(new Uint32Array(4))).toThrow(InvalidInput);
  });
});

describe("randomStream", () => {
  const normals = (seed: number, name: string, count: number) => {
    const stream = randomStream(seed, name);
    return Array.from({ length: count }, () => stream.normal());
  };

  test("law: the same seed and name give the same numbers, another seed or name others", () => {
    expect(normals(1, "bore", 5)).toEqual(normals(1, "bore", 5));
    expect(normals(2, "bore", 5)).not.toEqual(normals(1, "bore", 5));
    expect(normals(1, "face", 5)).not.toEqual(normals(1, "bore", 5));
  });

  test("law: 40,000 normal numbers have mean 0, deviation 1, no skewness, no excess kurtosis", () => {
    // Four standard errors: 1/√n, 1/√(2n), √(6/n) and √(24/n), with √n = 200.
    const sample = normals(7, "law", 40_000);
    expect(Math.abs(mean(sample))).toBeLessThan(4 / 200);
    expect(Math.abs(sampleStandardDeviation(sample) - 1)).toBeLessThan((4 * Math.SQRT1_2) / 200);
    expect(Math.abs(sampleSkewness(sample))).toBeLessThan((4 * Math.sqrt(6)) / 200);
    expect(Math.abs(sampleKurtosis(sample))).toBeLessThan((4 * Math.sqrt(24)) / 200);
  });

  test("law: uniform numbers fill ten equal bins evenly", () => {
    // Each count is binomial with n = 10,000 and p = 0.1: deviation 30.
    const stream = randomStream(3, "bins");
    const bins = new Array<number>(10).fill(0);
    for (let i = 0; i < 10_000; i++) bins[Math.floor(stream.uniform() * 10)]! += 1;
    for (const count of bins) expect(Math.abs(count - 1000)).toBeLessThan(4 * 30);
  });

  test("edge: a seed is a whole number of 32 bits", () => {
    expect(() => randomStream(0.5, "x")).toThrow(InvalidInput);
    expect(() => randomStream(-1, "x")).toThrow(InvalidInput);
  });
});
