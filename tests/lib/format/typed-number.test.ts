import { expect, test } from "vitest";
import { typedNumber } from "../../../lib/format/typed-number";

test.each([
  ["12.345", 12.345],
  ["12,345", 12.345],
  [" -0,05 ", -0.05],
  ["\u22120.5", -0.5],
  [".5", 0.5],
  ["3.", 3],
  ["1e-3", 0.001],
  ["", null],
  ["  ", null],
  ["1,234.5", undefined],
  ["1.2.3", undefined],
  ["0x10", undefined],
  ["Infinity", undefined],
  ["12 mm", undefined],
  ["=1+1", undefined],
])("%j is %s", (text, value) => {
  expect(typedNumber(text)).toBe(value);
});
