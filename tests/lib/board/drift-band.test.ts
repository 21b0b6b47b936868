import { expect, test } from "vitest";
import { bandOfFlag, LOTS_AHEAD } from "../../../lib/board/drift-band";
import type { DriftFlag } from "../../../lib/drift/drift-scan";
import type { FeatureForecast } from "../../../lib/drift/forecast";

/* Which band a source that moved belongs to: common practice, no source. */

type Given = Parameters<typeof bandOfFlag>[0];

function flag(more: Partial<Given>): Given {
  const onset = { lot: "L-9", at: 0, from: "L-9", to: "L-9", posterior: [] };
  return { source: { kind: "fixture", id: "FX-2" }, kind: "step", forecast: null, onset, ...more };
}

function drifting(towards: Partial<FeatureForecast>): Given {
  const forecast = { features: [{ limit: "tolerance", ...towards }], notForeseeable: [] };
  return flag({ kind: "trend", forecast: forecast as unknown as DriftFlag["forecast"] });
}

const lots = (low: number) => ({ lots: { low, median: 2 * low, high: 3 * low } });
const life = (low: number) => ({ lots: null, shareOfLife: { low, median: 2 * low, high: 3 * low } });

test("what stepped or scatters needs a person; a drift by its forecast", () => {
  const band = (given: Given) => bandOfFlag(given, { latestLots: [] });
  expect(band(flag({}))).toBe("act");
  expect(band(flag({ kind: "spread" }))).toBe("act");
  expect(band(drifting(lots(LOTS_AHEAD)))).toBe("act");
  expect(band(drifting(lots(LOTS_AHEAD + 1)))).toBe("watch");
  expect(band(flag({ kind: "trend" }))).toBe("watch");
});

test("an edge that meets the limit within its life needs a person, one that is changed before does not", () => {
  expect(bandOfFlag(drifting(life(0.9)), { latestLots: [] })).toBe("act");
  expect(bandOfFlag(drifting(life(1.1)), { latestLots: [] })).toBe("watch");
});

test("material is watched while it is fresh, and over afterwards; temperature is watched", () => {
  const lot = flag({ source: { kind: "lot", id: "L-9" } });
  expect(bandOfFlag(lot, { latestLots: ["L-8", "L-9"] })).toBe("watch");
  expect(bandOfFlag(lot, { latestLots: ["L-10"] })).toBe("quiet");
  expect(bandOfFlag(flag({ source: { kind: "temperature", id: "part_temp_c" } }), { latestLots: [] })).toBe(
    "watch",
  );
});
