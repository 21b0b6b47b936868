import { expect, test } from "vitest";
import { drawStrip, type StripStanding } from "../../app/fittings/strip-drawing";
import { figures } from "../../lib/words/en/figures";
import { fittings } from "../../lib/words/en/fittings";

const plan = {
  chart: "xbar-r" as const,
  subgroupSize: 4,
  rules: [],
  tolerance: { lower: 9.9, upper: 10.1 },
  target: null,
  naturalBound: null,
  reduction: null,
};
const standing: StripStanding = { centre: 10, sigma: 0.008, betweenLots: null, size: 4, means: [10] };

function labelOf(changes: Partial<StripStanding>): string {
  const feature = { unit: "mm" as const, resolution: 0.001, plan };
  return drawStrip({ feature, standing: { ...standing, ...changes } }, { fittings, figures }).label;
}

test("by hand: limits of means of four at 3 · 0.008 / √4 = 0.012 about the centre line", () => {
  expect(labelOf({})).toContain("9.9880 to 10.0120\u00a0mm");
});

test("by hand: where lots differ as part of the process, at 3 · √(0.003² + 0.004²) = 0.015", () => {
  expect(labelOf({ betweenLots: 0.003 })).toContain("9.9850 to 10.0150\u00a0mm");
});
