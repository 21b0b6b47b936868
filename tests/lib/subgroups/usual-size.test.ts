import { expect, test } from "vitest";
import { sizeTally, usualSize } from "../../../lib/subgroups/usual-size";

test("by hand: the most frequent size, and of equals the larger", () => {
  expect(sizeTally([5, 4, 5, 3, 4])).toEqual([
    { size: 5, subgroups: 2 },
    { size: 4, subgroups: 2 },
    { size: 3, subgroups: 1 },
  ]);
  expect(usualSize([2, 3, 3])).toBe(3);
  expect(usualSize([])).toBeNull();
});
