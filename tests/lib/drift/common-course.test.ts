import { describe, expect, test } from "vitest";
import { commonCourse, shareLeft } from "../../../lib/drift/common-course";

function correlationsOf(within: number[][], between: number[][]) {
  return {
    features: between.length,
    within: Float64Array.from(within.flat()),
    between: Float64Array.from(between.flat()),
    freedomWithin: 100,
    freedomBetween: 20,
  };
}

const INDEPENDENT = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

describe("the course that lots have in common", () => {
  test("by hand: three features that resemble each other by 0.4 follow it alike", () => {
    // R = 0.6 I + 0.4 · 11ᵀ has the leading vector 1/√3 with the value 0.6 + 3 · 0.4 = 1.8. Without it, 0.6 (I − 11ᵀ/3)
    // is left: 0.4 on the diagonal and −0.2 beside it, a correlation of −1/2.
    const alike = [
      [1, 0.4, 0.4],
      [0.4, 1, 0.4],
      [0.4, 0.4, 1],
    ];
    const course = commonCourse(correlationsOf(INDEPENDENT, alike))!;
    for (const load of course.loads) expect(Math.abs(load)).toBeCloseTo(1 / Math.sqrt(3), 6);
    expect(course.between.square).toBeCloseTo(1.8, 6);
    expect(shareLeft(course, 0, 1)).toBeCloseTo(0.4, 6);
    expect(course.left.between[1]).toBeCloseTo(-0.5, 6);
    // Of features that are independent within lots, I − 11ᵀ/3 is left.
    expect(shareLeft(course, 0, 0)).toBeCloseTo(2 / 3, 6);
    // Half of each: (0.4 + 2/3) / 2.
    expect(shareLeft(course, 0, 0.5)).toBeCloseTo(8 / 15, 6);
  });

  test("by hand: a feature that goes its own way has no load and keeps all of its variance", () => {
    const two = [
      [1, 0.5, 0],
      [0.5, 1, 0],
      [0, 0, 1],
    ];
    const course = commonCourse(correlationsOf(INDEPENDENT, two))!;
    expect(course.between.square).toBeCloseTo(1.5, 5);
    expect(Math.abs(course.loads[0]!)).toBeCloseTo(Math.SQRT1_2, 3);
    expect(course.loads[2]).toBeCloseTo(0, 3);
    expect(shareLeft(course, 2, 1)).toBeCloseTo(1, 6);
    expect(shareLeft(course, 0, 1)).toBeCloseTo(0.25, 3);
  });

  test("law: features that run against each other load with opposite signs", () => {
    const against = [
      [1, -0.4, 0.4],
      [-0.4, 1, -0.4],
      [0.4, -0.4, 1],
    ];
    const { loads } = commonCourse(correlationsOf(INDEPENDENT, against))!;
    expect(loads[0]! * loads[1]!).toBeLessThan(0);
    expect(loads[0]! * loads[2]!).toBeGreaterThan(0);
  });

  test("edge: two features, or none that scatters, have no course", () => {
    const two = [
      [1, 0.9],
      [0.9, 1],
    ];
    expect(commonCourse(correlationsOf(two, two))).toBeNull();
    const still = INDEPENDENT.map((row) => row.map(() => 0));
    expect(commonCourse(correlationsOf(INDEPENDENT, still))).toBeNull();
  });
});
