import { expect, test } from "vitest";
import { extraPlaces } from "../../app/features/[id]/chart-view";

test.each([
  ["i-mr", false, { reading: 0, location: 0, spread: 0 }],
  ["i-mr", true, { reading: 1, location: 1, spread: 1 }],
  ["xbar-r", false, { reading: 0, location: 1, spread: 0 }],
  ["xbar-r", true, { reading: 1, location: 1, spread: 1 }],
  ["xbar-s", false, { reading: 0, location: 1, spread: 1 }],
] as const)("of %s, reduced to 20 °C: %s", (chart, isReduced, places) => {
  expect(extraPlaces({ chart, isReduced })).toEqual(places);
});
