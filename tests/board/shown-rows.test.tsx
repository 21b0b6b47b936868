import { renderToString } from "react-dom/server";
import { describe, expect, test } from "vitest";
import { BoardRows } from "../../app/board/board-rows";
import type { PlacedFlags } from "../../app/board/placed-flags";
import { placeRows, withReasons } from "../../app/board/placed-rows";
import { shownRows } from "../../app/board/shown-rows";
import type { BoardRow } from "../../db/queries/board";
import { ENGLISH } from "../../lib/words/words";

/*
 * What a row of the board weighs, for a page has fifty of them and fifty screens look again all day. The bars are our
 * own: a quarter above what a full row took when they were set. Whoever has to raise one says what for.
 */

const NOW = Date.UTC(2026, 0, 5, 8);
const NO_FLAGS: PlacedFlags = { bands: new Map(), of: () => [], answeredFor: () => [] };

/** A row with all that a row usually has: limits, 25 means, an alarm and every source. */
function fullRow(id: number): BoardRow {
  const part = { number: "H-210", revision: "C", name: "housing", line: "line 1", material: "" };
  const plan = {
    chart: "xbar-r",
    tolerance: { lower: 9.97, upper: 10.03 },
    naturalBound: null,
  } as unknown as BoardRow["feature"]["plan"];
  return {
    feature: {
      id,
      partId: 1,
      part,
      name: `bearing bore ${id}`,
      kind: "size",
      unit: "mm",
      resolution: 0.001,
      keyCharacteristic: true,
      plan,
    } as BoardRow["feature"],
    standing: {
      readings: 1500,
      subgroups: 300,
      lastAt: NOW - 3_600_000,
      limitsVersion: 1,
      centre: 10,
      sigma: 0.005,
      tooFewForFinal: false,
      means: Array.from({ length: 25 }, (_, i) => 10 + 0.012 * Math.sin(7 * i + id)),
      size: 5,
      ppk: 1.2,
      ppkAtLeast: 1.1,
      recentReadings: 125,
    } as BoardRow["standing"],
    alarm: {
      id,
      featureId: id,
      state: "unacknowledged",
      words: "Beyond 3 sigma above; 9 above centre",
      firstAt: NOW - 2 * 3_600_000,
      latestAt: NOW - 3_600_000,
      returnedAt: null,
      withdrawnAt: null,
    } as BoardRow["alarm"],
    sources: { fixture: "FX-2", tool: "T-114/3", machine: "M-1", gauge: "G-2", operator: "OP-7" },
    latestLot: "L-0231",
  };
}

const ROWS = placeRows(
  Array.from({ length: 50 }, (_, i) => fullRow(i + 1)),
  NOW,
).act;
const SHOWN = shownRows(withReasons(ROWS, NOW, ENGLISH), {
  flags: NO_FLAGS,
  now: NOW,
  zone: "UTC",
  words: ENGLISH,
});
const { board, figures } = ENGLISH;
const HTML = renderToString(
  <BoardRows rows={SHOWN} words={{ ...board, notComputed: figures.notComputed }} />,
);

describe("what fifty rows weigh", () => {
  test("all of them are rows", () => {
    expect(HTML.match(/<li/g)).toHaveLength(50);
  });

  test.each([
    ["bytes of data a row", JSON.stringify(SHOWN).length / 50, 1525],
    ["elements a row", HTML.match(/<[a-z]/g)!.length / 50, 51],
    ["bytes of HTML a row", HTML.length / 50, 2700],
  ])("%s: %d, at most %d", (_what, weight, most) => {
    expect(weight).toBeLessThan(most);
    // A bar far above what there is would let a row double unseen.
    expect(weight).toBeGreaterThan(most / 2);
  });
});

test("a row says what it is, why it stands there and where it leads", () => {
  const text = HTML.slice(0, HTML.indexOf("</li>")).replaceAll(/<[^>]*>/g, " ");
  expect(text).toContain("bearing bore");
  expect(text).toContain("H-210 rev C");
  expect(text).toContain("Beyond 3 sigma above; 9 above centre.");
  expect(text).toContain("L-0231");
  expect(text).toContain("1.10");
  expect(HTML).toMatch(/href="\/features\/\d+"/);
  expect(HTML).toMatch(/href="\/alarms\/\d+"/);
});
