import { describe, expect, test } from "vitest";
import { type DriftScan, scanForDrift } from "../../../lib/drift/drift-scan";
import type { MeasuredPart, SourceEvent } from "../../../lib/drift/measured-part";
import { ScanMemory } from "../../../lib/drift/scan-memory";
import { emptySeries, type MeasurementSeries } from "../../../lib/measurements/series";
import type { Fault, LayoutName } from "../../drift/layouts";
import { scenario } from "../../drift/scenario";

const built = (layout: LayoutName, fault: Fault | null, severity: number, seed = 4116) =>
  scenario({ seed, layout, faults: fault === null ? [] : [fault], severity });

const scanOf = ({ parts, codeOf }: ReturnType<typeof built>, events: SourceEvent[] = []): DriftScan =>
  scanForDrift(parts, { codeOf, events });

describe("planted faults of 2 to 3 sigma are named with their onset", () => {
  test.each<[Fault, LayoutName, number]>([
    ["fixture_step", "rotate", 2],
    ["fixture_drift", "rotate", 3],
    ["fixture_spread", "rotate", 2],
    ["tool_wear", "small", 2],
    ["tool_wear_rate", "rotate", 2],
    ["tool_offset", "twoparts", 3],
    ["gauge_step", "onefix", 2],
    ["gauge_drift", "rotate", 2],
    ["temperature", "rotate", 2],
    ["operator_step", "rotate", 3],
    ["lot_shift", "rotate", 3],
  ])("%s in the layout %s", (fault, layout, severity) => {
    const shop = built(layout, fault, severity);
    const [planted] = shop.planted;
    const [flag, ...others] = scanOf(shop).flags;
    expect(flag?.source).toEqual(planted!.source);
    expect(flag?.kind).toBe(planted!.kind);
    expect(others).toEqual([]);
    const lots = shop.lots;
    expect(Math.abs(lots.indexOf(flag!.onset.lot) - planted!.onsetLot)).toBeLessThanOrEqual(3);
    // Nearly all features named did move.
    const wrong = flag!.features.filter(
      ({ part, feature }) => !planted!.features.includes(`${part}|${feature}`),
    );
    expect(wrong.length).toBeLessThanOrEqual(Math.max(1, 0.15 * flag!.features.length));
    expect(flag!.confidence).toBeGreaterThan(0.9);
  });
});

describe("a quiet shop", () => {
  test("is quiet, and every verdict says what would have been seen", () => {
    const scan = scanOf(built("confounded", null, 0));
    expect(scan.flags).toEqual([]);
    const fixtures = scan.sources.filter(({ source }) => source.kind === "fixture");
    expect(fixtures).toHaveLength(3);
    for (const { smallestShift } of fixtures) {
      expect(smallestShift).toBeGreaterThan(0.3);
      expect(smallestShift).toBeLessThan(3);
    }
  });

  test("standing offsets are listed, not flagged", () => {
    const { standing } = scanOf(built("rotate", null, 0));
    // The generator sets fixtures off by 0.3 sigma and operators by 0.08.
    const fixture = standing.filter(({ source }) => source.kind === "fixture");
    expect(fixture).toHaveLength(4);
    const size = Math.sqrt(fixture.reduce((sum, { sizeInSigma }) => sum + sizeInSigma ** 2, 0) / 4);
    expect(size).toBeGreaterThan(0.15);
    expect(size).toBeLessThan(0.5);
  });
});

describe("sources that ran on the same pieces", () => {
  const shop = built("confounded", "fixture_step", 2);
  const [flag] = scanOf(shop).flags;

  test("are named beside each other, with the run that would tell", () => {
    const [planted] = shop.planted;
    const alias = planted!.aliases[0]!;
    expect([flag!.source, ...flag!.alternatives.map(({ source }) => source)]).toEqual(
      expect.arrayContaining([planted!.source, alias]),
    );
    const [rival] = flag!.alternatives;
    expect(rival!.aliased).toBe(true);
    expect(rival!.suggested.run).toBe("pair");
    expect(rival!.suggested.pieces).toBeGreaterThanOrEqual(5);
  });

  test("the cross table holds every piece, and the suggested pair was not seen since", () => {
    const { table, suggested } = flag!.alternatives[0]!;
    const count = [...table!.since, ...table!.before].flat().reduce((a, b) => a + b, 0);
    const measured = shop.parts[0]!.features.map(({ series }) => series.count);
    expect(count).toBeLessThanOrEqual(Math.max(...measured));
    expect(count).toBeGreaterThanOrEqual(Math.min(...measured));
    if (suggested.run !== "pair") throw new Error("a pair was expected");
    const [a, b] = suggested.sources;
    const at = (kind: string, id: string) => {
      const row = table!.rows.findIndex((one) => one.kind === kind && one.id === id);
      return row >= 0
        ? { row }
        : { column: table!.columns.findIndex((one) => one.kind === kind && one.id === id) };
    };
    const place = { ...at(a.kind, a.id), ...at(b.kind, b.id) };
    expect(table!.since[place.row!]![place.column!]).toBe(0);
  });
});

describe("source events", () => {
  const shop = built("rotate", "fixture_step", 3);
  const [planted] = shop.planted;
  const at = shop.shop.pieces.find(({ lot }) => lot === planted!.onsetLot)!.takenAt;

  test("from a repair on the source is judged anew: what changed with it is no drift", () => {
    expect(scanOf(shop).flags[0]?.source).toEqual(planted!.source);
    const events: SourceEvent[] = [{ kind: "fixture", source: planted!.source.id, at, event: "repaired" }];
    expect(scanOf(shop, events).flags).toEqual([]);
  });

  test("an event on another source changes nothing about this one", () => {
    const other = shop.shop.parts[0]!.fixtures.find((code) => code !== planted!.source.id)!;
    const events: SourceEvent[] = [{ kind: "fixture", source: other, at, event: "adjusted" }];
    expect(scanOf(shop, events).flags[0]?.source).toEqual(planted!.source);
  });

  test("right after a repair there is no history yet, and nothing to say", () => {
    const end = shop.shop.pieces.at(-1)!.takenAt;
    const events: SourceEvent[] = [
      { kind: "fixture", source: planted!.source.id, at: end, event: "repaired" },
    ];
    expect(scanOf(shop, events).flags.map(({ source }) => source)).not.toContainEqual(planted!.source);
  });
});

describe("a forecast", () => {
  const shop = built("rotate", "fixture_drift", 3);
  const [flag] = scanOf(shop).flags;

  test("gives quantiles in order, for limits in order", () => {
    expect(flag!.forecast!.features.length).toBeGreaterThan(0);
    for (const { pieces, lots } of flag!.forecast!.features) {
      expect(pieces.low).toBeLessThanOrEqual(pieces.median);
      expect(pieces.median).toBeLessThanOrEqual(pieces.high);
      expect(lots).not.toBeNull();
    }
    const byFeature = new Map<string, Record<string, number>>();
    for (const { feature, limit, pieces } of flag!.forecast!.features) {
      byFeature.set(feature, { ...byFeature.get(feature), [limit]: pieces.median });
    }
    for (const { capability = 0, tolerance = 0 } of byFeature.values()) {
      expect(capability).toBeLessThanOrEqual(tolerance);
    }
  });

  test("a step has none", () =>
    expect(scanOf(built("rotate", "fixture_step", 3)).flags[0]!.forecast).toBeNull());
});

describe("memory", () => {
  const shop = built("twoparts", "tool_offset", 2);
  const upTo = (last: number): MeasuredPart[] =>
    shop.parts.map(({ part, features }) => ({
      part,
      features: features.map((feature) => ({ ...feature, series: cut(feature.series, last + 1) })),
    }));

  test("lot after lot, a scan with memory is the scan without", () => {
    const memory = new ScanMemory();
    const { codeOf } = shop;
    for (let last = shop.lots.length - 2; last < shop.lots.length; last++) {
      const parts = upTo(last);
      expect(scanForDrift(parts, { codeOf, memory })).toEqual(scanForDrift(parts, { codeOf }));
    }
  });

  test.each([
    ["a fault that is explained and a window that moves on", "fixture_step", []],
    ["scatter that is explained", "fixture_spread", []],
    ["a logged event", "gauge_step", ["calibrated"]],
  ] as const)(
    "the same with %s",
    (_name, fault, logged) => {
      const moving = scenario({ seed: 4711, layout: "small", faults: [fault], severity: 3, lots: 62 });
      const { codeOf } = moving;
      const half = moving.shop.pieces[moving.shop.pieces.length >> 1]!.takenAt;
      const events = logged.map(
        (event): SourceEvent => ({ kind: "gauge", source: codeOf("gauge", 1), at: half, event }),
      );
      const memory = new ScanMemory();
      for (let last = moving.lots.length - 2; last < moving.lots.length; last++) {
        const parts = moving.parts.map(({ part, features }) => ({
          part,
          features: features.map((feature) => ({ ...feature, series: cut(feature.series, last + 1) })),
        }));
        const found = scanForDrift(parts, { codeOf, events, memory });
        expect(found.lots).toHaveLength(60);
        if (logged.length === 0) expect(found.flags).not.toEqual([]);
        expect(found).toEqual(scanForDrift(parts, { codeOf, events }));
      }
    },
    30_000,
  );

  test("a corrected value is seen", () => {
    const memory = new ScanMemory();
    const { codeOf } = shop;
    const parts = upTo(shop.lots.length - 1);
    const before = scanForDrift(parts, { codeOf, memory });
    const value = Float64Array.from(parts[0]!.features[0]!.series.value);
    value[value.length - 1]! += 0.02;
    const [first, ...rest] = parts[0]!.features;
    const corrected = [
      { ...parts[0]!, features: [{ ...first!, series: { ...first!.series, value } }, ...rest] },
      ...parts.slice(1),
    ];
    const after = scanForDrift(corrected, { codeOf, memory });
    expect(after).toEqual(scanForDrift(corrected, { codeOf }));
    expect(after).not.toEqual(before);
  });
});

function cut(series: MeasurementSeries, lastLot: number): MeasurementSeries {
  const kept = Array.from(series.lot.keys()).filter((i) => series.lot[i]! <= lastLot);
  const out = emptySeries(kept.length);
  for (const column of Object.keys(out) as (keyof MeasurementSeries)[]) {
    if (column === "count" || column === "inspected") continue;
    for (const [k, i] of kept.entries()) out[column][k] = series[column][i]!;
  }
  return out;
}

describe("too little", () => {
  test("a part of seven pieces is left out, and the reason has its numbers", () => {
    const series = emptySeries(7);
    for (let i = 0; i < 7; i++) {
      series.takenAt[i] = i;
      series.value[i] = i % 3;
      series.piece[i] = i + 1;
      series.lot[i] = i + 1;
    }
    const { flags, leftOut } = scanForDrift(
      [
        {
          part: "H-1",
          features: [
            { name: "bore", kind: "size", nominal: 5, lower: 4, upper: 6, unit: "mm", resolution: 1, series },
          ],
        },
      ],
      { codeOf: (_, id) => `L${id}` },
    );
    expect(flags).toEqual([]);
    expect(leftOut[0]).toMatchObject({ part: "H-1", feature: "bore" });
    expect(leftOut[0]!.reason).toContain("7 pieces in 7 lots");
  });

  test("nothing at all is no fault of the program", () => {
    const { flags, sources } = scanForDrift([], { codeOf: () => "" });
    expect({ flags, sources }).toEqual({ flags: [], sources: [] });
  });
});
