import { describe, expect, test } from "vitest";
import { ScanMemory } from "../../../lib/drift/scan-memory";
import { NOTHING_EXPLAINED, type TableScan } from "../../../lib/drift/scan-table";
import type { SpreadHypothesis } from "../../../lib/drift/spread";
import type { Fault } from "../../drift/layouts";
import { type Scenario, scenario } from "../../drift/scenario";

function scanned(shop: Scenario): TableScan {
  const memory = new ScanMemory();
  const [prepared] = memory.layOut(shop.parts, { codeOf: shop.codeOf, events: [] });
  return memory.scanner().scan(prepared!, NOTHING_EXPLAINED, null);
}

function smallShop(seed: number, faults: Fault[]): Scenario {
  return scenario({ seed, layout: "small", faults, severity: 1.5 });
}

/** Log evidence that a fixture rocks, averaged over onsets, and the best that features give one by one. */
function evidenceOn({ spread }: TableScan, isAsked: (one: SpreadHypothesis) => boolean) {
  const own = spread.hypotheses.flatMap((one, k) =>
    isAsked(one) && !Number.isNaN(spread.rocking[k]!) ? [k] : [],
  );
  const shares = spread.tempered.length / spread.hypotheses.length;
  return {
    rocking: Math.log(own.reduce((sum, k) => sum + Math.exp(spread.rocking[k]!), 0) / own.length),
    oneByOne: Math.max(...spread.tempered.subarray(own[0]! * shares, (own.at(-1)! + 1) * shares)),
  };
}

describe("a loose clamp, which lets the whole part rock", () => {
  test("shows along the direction of the movement before it shows in single features", () => {
    const clearer = [1, 2, 3, 4].map((seed) => {
      const shop = smallShop(seed, ["fixture_spread"]);
      const [planted] = shop.planted;
      const scan = scanned(shop);
      const own = evidenceOn(scan, ({ source }) => source.id === planted!.source.id);
      const other = evidenceOn(
        scan,
        ({ source }) => source.kind === "fixture" && source.id !== planted!.source.id,
      );
      expect(own.rocking).toBeGreaterThan(other.rocking);
      return own.rocking > own.oneByOne;
    });
    expect(clearer.filter(Boolean).length).toBeGreaterThan(2);
  });

  test("law: where nothing is loose the evidence is below 1 on average, as evidence must be", () => {
    const found = Array.from({ length: 10 }, (_, seed) => {
      const scan = scanned(smallShop(100 + seed, []));
      return ["FX-1", "FX-2"].map((id) =>
        Math.exp(evidenceOn(scan, ({ source }) => source.id === id).rocking),
      );
    }).flat();
    expect(found.reduce((sum, one) => sum + one, 0) / found.length).toBeLessThan(1);
  });

  test("edge: it is asked of fixtures only", () => {
    const { spread } = scanned(smallShop(1, []));
    for (const [k, { source }] of spread.hypotheses.entries()) {
      if (source.kind !== "fixture") expect(spread.rocking[k]).toBeNaN();
    }
  });
});
