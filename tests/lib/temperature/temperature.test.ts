import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import { randomStream } from "../../../lib/random/random-stream";
import { MATERIALS } from "../../../lib/temperature/materials";
import { reducedTo20 } from "../../../lib/temperature/reduce";
import { reducedWithUncertainty } from "../../../lib/temperature/uncertainty";

const steel = { length: 100, expansion: 11.5e-6 };
const usual = {
  value: 100.05,
  partTemp: 24,
  reduction: steel,
  unit: "mm" as const,
  uncertainty: { value: 0.001, temperature: 0.5, expansion: 1e-6 },
};

describe("a size at 20 °C", () => {
  test("by hand: 100 mm of steel at 24 °C is 4.6 µm longer", () => {
    expect(reducedTo20(usual)).toBeCloseTo(100.05 - 0.0046, 12);
    const seen = reducedWithUncertainty(usual)!;
    expect(seen.correction).toBeCloseTo(0.0046, 12);
    // αL·0.5 K = 0.575 µm, L·4 K·1e-6 = 0.4 µm, L·1e-6·0.5 K = 0.05 µm, and 1 µm of the gauge.
    expect(seen.parts.temperature).toBeCloseTo(0.000575, 12);
    expect(seen.parts.expansion).toBeCloseTo(0.0004, 12);
    expect(seen.parts.together).toBeCloseTo(0.00005, 12);
    expect(seen.standardUncertainty).toBeCloseTo(Math.sqrt(1 + 0.575 ** 2 + 0.4 ** 2 + 0.05 ** 2) / 1000, 12);
  });

  test("at 20 °C the coefficient counts only through the thermometer", () => {
    const { parts, correction } = reducedWithUncertainty({ ...usual, partTemp: 20 })!;
    expect([correction, parts.expansion]).toEqual([0, 0]);
    expect(parts.together).toBeGreaterThan(0);
  });

  test("law: inches give the same as millimetres", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 60, noNaN: true }),
        fc.double({ min: 1, max: 5000, noNaN: true }),
        (partTemp, length) => {
          const reduction = { length, expansion: 23e-6 };
          const inMm = reducedWithUncertainty({ ...usual, value: length, partTemp, reduction })!;
          const inInches = reducedWithUncertainty({
            value: length / 25.4,
            partTemp,
            reduction,
            unit: "in",
            uncertainty: { ...usual.uncertainty, value: usual.uncertainty.value / 25.4 },
          })!;
          expect(inInches.value * 25.4).toBeCloseTo(inMm.value, 9);
          expect(inInches.standardUncertainty * 25.4).toBeCloseTo(inMm.standardUncertainty, 9);
        },
      ),
    );
  });

  test("agreement of two methods: the formula against ten thousand draws", () => {
    const stream = randomStream(31, "temperature");
    const drawn = Array.from({ length: 10_000 }, () =>
      reducedTo20({
        value: usual.value + usual.uncertainty.value * stream.normal(),
        partTemp: usual.partTemp + usual.uncertainty.temperature * stream.normal(),
        reduction: { length: 100, expansion: 11.5e-6 + usual.uncertainty.expansion * stream.normal() },
        unit: "mm",
      }),
    );
    const mean = drawn.reduce((sum, x) => sum + x, 0) / drawn.length;
    const deviation = Math.sqrt(drawn.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (drawn.length - 1));
    // A standard deviation of 10 000 draws has a standard error of 1/√20 000 of itself.
    expect(Math.abs(deviation / reducedWithUncertainty(usual)!.standardUncertainty - 1)).toBeLessThan(
      4 / Math.sqrt(20_000),
    );
  });

  test("edge: without a stated temperature nothing is known of the size at 20 °C", () => {
    expect(reducedWithUncertainty({ ...usual, partTemp: Number.NaN })).toBeNull();
    expect(reducedTo20({ ...usual, partTemp: Number.NaN })).toBe(100.05);
  });
});

test("from memory: steel, cast iron and aluminium, each within ten per cent", () => {
  expect(MATERIALS.map(({ name, expansion }) => [name, expansion.coefficient])).toEqual([
    ["steel", 11.5e-6],
    ["cast iron", 10.5e-6],
    ["aluminium", 23e-6],
  ]);
  for (const { expansion } of MATERIALS) {
    expect((expansion.standardUncertainty * Math.sqrt(3)) / expansion.coefficient).toBeCloseTo(0.1, 12);
  }
});

describe("bad input", () => {
  test.each([
    ["no length", () => reducedWithUncertainty({ ...usual, reduction: { length: 0, expansion: 1e-5 } })],
    [
      "a length that is none",
      () => reducedTo20({ ...usual, reduction: { length: Number.NaN, expansion: 1e-5 } }),
    ],
    ["a value that is none", () => reducedWithUncertainty({ ...usual, value: Number.NaN })],
    ["an infinite temperature", () => reducedWithUncertainty({ ...usual, partTemp: 1 / 0 })],
    [
      "a negative uncertainty",
      () => reducedWithUncertainty({ ...usual, uncertainty: { value: 0, temperature: -1, expansion: 0 } }),
    ],
  ])("%s is refused by name", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});
