import { expect, test } from "vitest";
import { evaluate } from "../../lib/evaluation/evaluate";
import { emptySeries, noneInspected } from "../../lib/measurements/series";
import { castingLots, castingsFile, PORES, PORES_ENTRY } from "../../seed/demo/castings";
import { demoRows, isWeekend } from "../../seed/demo/measure";

const lots = castingLots();
const measured = [...demoRows()];

test("lots of the part that were machined before the weekend, each looked at before its first piece", () => {
  const firstPieces = new Map<string, number>();
  for (const row of measured)
    if (row.part === PORES.part && !isWeekend(row) && !firstPieces.has(row.lot))
      firstPieces.set(row.lot, row.takenAt);
  expect(lots.map(({ lot }) => lot)).toEqual([...firstPieces.keys()]);
  for (const { lot, takenAt } of lots) expect(takenAt).toBeLessThan(firstPieces.get(lot)!);
});

test("samples of many sizes, at the share that the story has, of which none signals", () => {
  expect(new Set(lots.map(({ inspected }) => inspected)).size).toBeGreaterThan(40);
  const found = lots.reduce((sum, { withPores }) => sum + withPores, 0);
  const inspected = lots.reduce((sum, one) => sum + one.inspected, 0);
  // Three standard errors of a share.
  const error = Math.sqrt((PORES.share * (1 - PORES.share)) / inspected);
  expect(Math.abs(found / inspected - PORES.share)).toBeLessThan(3 * error);

  const series = emptySeries(lots.length);
  series.inspected = noneInspected(lots.length);
  for (const [i, { takenAt, withPores, inspected: size }] of lots.entries()) {
    series.takenAt[i] = takenAt;
    series.value[i] = withPores;
    series.inspected[i] = size;
  }
  const { chart, subgroupSize, rules, counts } = PORES_ENTRY;
  const tolerance = { lower: null, upper: null };
  const plan = { chart, subgroupSize, rules, counts: counts!, tolerance, target: null, naturalBound: null };
  const setup = { plan: { ...plan, reduction: null }, unit: "none", versions: [], exclusions: [] } as const;
  expect(evaluate(series, setup).signals).toEqual([]);
});

test("its file has a row a lot, which take part in nothing else of the story", () => {
  const [header, ...rows] = castingsFile().text.trimEnd().split("\n");
  expect(header).toBe("lot,taken_at,part,feature,value,inspected");
  expect(rows).toHaveLength(lots.length);
  expect(measured.some(({ feature }) => feature === PORES.name)).toBe(false);
});
