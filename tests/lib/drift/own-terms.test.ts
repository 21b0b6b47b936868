import { describe, expect, test } from "vitest";
import { sourceKey } from "../../../lib/drift/measured-part";
import { ScanMemory } from "../../../lib/drift/scan-memory";
import { NOTHING_EXPLAINED, onItsOwnTerms } from "../../../lib/drift/scan-table";
import { scenario } from "../../drift/scenario";

describe("a fault that shows in many features at every change of fixture", () => {
  const shop = scenario({ seed: 4116, layout: "onefix", faults: ["fixture_step"], severity: 2 });
  const [planted] = shop.planted;
  const memory = new ScanMemory();
  const [prepared] = memory.layOut(shop.parts, { codeOf: shop.codeOf, events: [] });
  const { scan } = memory.scanner();
  const before = scan(prepared!, NOTHING_EXPLAINED, null);
  const k = before.hypotheses.all.findIndex(
    ({ source, shape, from }) =>
      sourceKey(source) === sourceKey(planted!.source) &&
      shape === "step" &&
      prepared!.table.lotCodes[from] === shop.lots[planted!.onsetLot],
  );
  const explained = scan(prepared!, { hypotheses: [k], spread: [] }, before);
  const again = onItsOwnTerms(before, explained, planted!.source);

  test("makes them look alike, and less so once it is explained", () => {
    const alike = (correlations: typeof before.correlations) => {
      const moved = prepared!.features.flatMap(({ feature }, f) =>
        planted!.features.includes(`${prepared!.table.part}|${feature.name}`) ? [f] : [],
      );
      const squares = moved.flatMap((a) =>
        moved.filter((b) => b < a).map((b) => correlations.between[a * correlations.features + b]! ** 2),
      );
      return squares.reduce((sum, one) => sum + one, 0) / squares.length;
    };
    expect(alike(explained.correlations)).toBeLessThan(0.7 * alike(before.correlations));
  });

  test("has more evidence against it on its own terms; other sources are left out", () => {
    const shares = before.evidence.tempered.length / before.hypotheses.all.length;
    const own = (evidence: typeof before.evidence) =>
      Math.max(...evidence.tempered.subarray(k * shares, (k + 1) * shares));
    expect(own(again.evidence)).toBeGreaterThan(own(before.evidence) + 3);
    for (const [other, { source }] of before.hypotheses.all.entries()) {
      if (sourceKey(source) !== sourceKey(planted!.source)) expect(again.evidence.features[other]).toBe(0);
    }
  });
});
