import { describe, expect, test } from "vitest";
import { suspectPieces } from "../../../lib/alarms/suspect-pieces";
import { suspectSubgroups } from "../../../lib/alarms/suspect-subgroups";
import { verificationSince, verificationWords } from "../../../lib/alarms/verification";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { EvaluationSetup } from "../../../lib/evaluation/setup";
import { emptySeries, type MeasurementSeries } from "../../../lib/measurements/series";

const MINUTE = 60_000;

/** Single readings, one a minute from 0 on; piece i + 1 has reading i. */
function history(values: readonly number[], changes: Partial<EvaluationSetup> = {}, size = 1) {
  const series: MeasurementSeries = emptySeries(values.length);
  values.forEach((value, i) => {
    series.takenAt[i] = i * MINUTE;
    series.value[i] = value;
    series.piece[i] = i + 1;
  });
  const setup: EvaluationSetup = {
    plan: {
      chart: size === 1 ? "i-mr" : "xbar-r",
      subgroupSize: size,
      rules: ["beyond-3s", "nine-one-side"],
      tolerance: { lower: null, upper: null },
      target: null,
      naturalBound: null,
      reduction: null,
    },
    unit: "mm",
    // Centre 0 and sigma 1, so that a value is its distance in sigma.
    versions: [
      {
        version: 1,
        effectiveFrom: 0,
        chart: size === 1 ? "i-mr" : "xbar-r",
        centre: 0,
        sigma: 1,
        estimator: "mean-moving-range",
      },
    ] as unknown as EvaluationSetup["versions"],
    exclusions: [],
    ...changes,
  };
  return { series, evaluation: evaluate(series, setup) };
}

/** Steps of at most 1.5, so that no moving range is beyond its limit of 3.69 (D4 d2 = 3.267 × 1.128). */
const STEADY = [0.5, -0.5, 0.5, -0.5];

describe("by hand: which subgroups an excursion casts doubt on", () => {
  test("one point beyond a limit: it alone, between its good neighbours", () => {
    const { evaluation } = history([...STEADY, 3.2, ...STEADY]);
    const { firstAt, latestAt } = evaluation.excursions[0]!;
    expect(firstAt).toBe(4 * MINUTE);
    expect(suspectSubgroups(evaluation, { firstAt, latestAt })).toEqual({
      lastGood: 3,
      from: 4,
      to: 4,
      nextGood: 5,
    });
  });

  test("nine on one side: doubt begins at the first of the nine, not at the ninth", () => {
    const { evaluation } = history([-0.5, -0.5, ...Array(9).fill(0.7)]);
    const { firstAt, latestAt } = evaluation.excursions[0]!;
    expect(firstAt).toBe(10 * MINUTE);
    // Points 2 to 10 are the nine; nothing good has followed.
    expect(suspectSubgroups(evaluation, { firstAt, latestAt })).toEqual({
      lastGood: 1,
      from: 2,
      to: 10,
      nextGood: null,
    });
  });

  test("a point that was left out is neither good nor in doubt by itself", () => {
    const leftOut = [{ from: 3 * MINUTE, to: 3 * MINUTE, cause: "dirt" }];
    const { evaluation } = history([0.5, -0.5, 0.5, 0.6, 3.2], { exclusions: leftOut });
    const { firstAt, latestAt } = evaluation.excursions[0]!;
    expect(suspectSubgroups(evaluation, { firstAt, latestAt })).toMatchObject({
      lastGood: 2,
      from: 3,
      to: 4,
    });
  });

  test("no good subgroup before the first signal", () => {
    const { evaluation } = history([3.2, 0.2, 0.2]);
    expect(suspectSubgroups(evaluation, { firstAt: 0, latestAt: 0 })?.lastGood).toBeNull();
  });

  test("without a signal in its span the alarm has lost its evidence", () => {
    const { evaluation } = history(STEADY);
    expect(suspectSubgroups(evaluation, { firstAt: 0, latestAt: MINUTE })).toBeNull();
    expect(() => suspectSubgroups(evaluation, { firstAt: 2, latestAt: 1 })).toThrow(/latestAt/);
  });
});

describe("by hand: the pieces in doubt", () => {
  test("those of the suspect subgroups, each once with all its readings", () => {
    const { series, evaluation } = history([...STEADY, 3.2, 3.3, ...STEADY]);
    series.lot[4] = 7;
    series.fixture[4] = 2;
    series.piece[5] = 5; // Measured twice: readings 4 and 5 are of piece 5.
    const suspect = suspectSubgroups(evaluation, evaluation.excursions[0]!)!;
    expect(suspectPieces(evaluation, series, suspect)).toEqual({
      pieces: [{ pieceId: 5, at: 4 * MINUTE, lot: 7, fixture: 2, values: [3.2, 3.3] }],
      withoutPiece: 0,
      from: 4 * MINUTE,
      to: 5 * MINUTE,
    });
  });

  test("while nothing good has followed, also pieces whose subgroup is not complete", () => {
    // Subgroups of 2: 0/1, 2/3 and 4/5 are complete, 6 waits. Means of two lie beyond 3/√2 = 2.12.
    const { series, evaluation } = history([0.5, -0.5, 0.4, -0.4, 2.5, 2.6, 0.1], {}, 2);
    series.piece[5] = 0;
    const suspect = suspectSubgroups(evaluation, evaluation.excursions[0]!)!;
    expect(suspect).toMatchObject({ from: 2, to: 2, nextGood: null });
    const found = suspectPieces(evaluation, series, suspect);
    expect(found.pieces.map(({ pieceId }) => pieceId)).toEqual([5, 7]);
    expect(found.withoutPiece).toBe(1);
  });
});

describe("by hand: whether the action worked", () => {
  test("good subgroups in a row since it, counted back from the newest", () => {
    const { evaluation } = history([...STEADY, 3.2, 0.5, -0.5, 0.5]);
    expect(verificationSince(evaluation, { since: 4 * MINUTE, wanted: 5 })).toEqual({
      good: 3,
      wanted: 5,
      isEnough: false,
    });
    expect(verificationSince(evaluation, { since: 6 * MINUTE, wanted: 1 })).toEqual({
      good: 1,
      wanted: 1,
      isEnough: true,
    });
  });

  test("a new signal begins the count anew, one left out does not count", () => {
    const again = history([...STEADY, 0.5, -0.5, 3.2, 0.5, -0.5]);
    expect(verificationSince(again.evaluation, { since: 0, wanted: 5 }).good).toBe(2);
    const leftOut = history([...STEADY, 0.5], {
      exclusions: [{ from: 3 * MINUTE, to: 3 * MINUTE, cause: "dirt" }],
    });
    expect(verificationSince(leftOut.evaluation, { since: 0, wanted: 5 }).good).toBe(3);
  });

  test("in words", () => {
    expect(verificationWords({ good: 0, wanted: 5, isEnough: false }, "action")).toBe(
      "No good subgroup since the action. The plan asks for 5.",
    );
    expect(verificationWords({ good: 3, wanted: 5, isEnough: false }, "action")).toBe(
      "3 of 5 good subgroups since the action.",
    );
    expect(verificationWords({ good: 6, wanted: 5, isEnough: true }, "signal")).toMatch(
      /no action is written down yet/,
    );
  });
});
