import { describe, expect, test } from "vitest";
import type { DriftFlag, DriftScan } from "../../../lib/drift/drift-scan";
import { answerTo, FAINT_SCANS, flagChanges, type KeptFlag } from "../../../lib/drift/flag-life";
import { datedSentence, quantileWords } from "../../../lib/drift/flag-words";
import type { SourceEvent } from "../../../lib/drift/measured-part";

/*
 * The life of a flag as DRIFT of the program states it: open until a person closes it or the evidence stays below
 * log(number of sources) for three scans. Worked out by hand; no source.
 */

const LOTS = ["L-1", "L-2", "L-3", "L-4"].map((code, i) => ({ code, at: 1000 * (i + 1) }));

function flagOn(id: string, { lot = "L-2", from = "L-2" } = {}): DriftFlag {
  const at = LOTS.find(({ code }) => code === lot)?.at ?? 0;
  return {
    source: { kind: "fixture", id },
    kind: "step",
    onset: { lot, at, from, to: lot, posterior: [] },
  } as unknown as DriftFlag;
}

function keptOf(id: string, more: Partial<KeptFlag> = {}): KeptFlag {
  return {
    id: 1,
    source: { kind: "fixture", id },
    openedAt: 0,
    latest: flagOn(id),
    latestAt: 0,
    faintScans: 0,
    state: "open",
    ...more,
  };
}

/** A scan of twenty sources: log 20 is 3.0. */
function scanWith(flags: DriftFlag[], logEvidence = 0) {
  const sources = [{ source: { kind: "fixture", id: "FX-2" }, logEvidence }];
  return { flags, sources, scanned: 20, lots: LOTS } as unknown as DriftScan;
}

describe("a flag", () => {
  test("by hand: named for the first time opens, named again goes on", () => {
    const flag = flagOn("FX-2");
    expect(flagChanges(scanWith([flag]), []).open).toEqual([flag]);
    const again = flagChanges(scanWith([flag]), [keptOf("FX-2")]);
    expect(again).toEqual({ open: [], goOn: [{ id: 1, flag }], faint: [], fade: [] });
  });

  test("by hand: evidence of 2.9 is below log 20 and counts, 3.1 is not and begins the count anew", () => {
    const before = keptOf("FX-2", { faintScans: 1 });
    expect(flagChanges(scanWith([], 2.9), [before]).faint).toEqual([{ id: 1, faintScans: 2 }]);
    expect(flagChanges(scanWith([], 3.1), [before]).faint).toEqual([{ id: 1, faintScans: 0 }]);
    const last = keptOf("FX-2", { faintScans: FAINT_SCANS - 1 });
    expect(flagChanges(scanWith([], 2.9), [last]).fade).toEqual([{ id: 1 }]);
    expect(flagChanges(scanWith([], 3.1), [last]).fade).toEqual([]);
  });

  test("closed by a person: the same change stays closed, a later one opens anew", () => {
    const closed = keptOf("FX-2", { state: "closed" });
    const same = flagOn("FX-2", { lot: "L-3", from: "L-2" });
    expect(flagChanges(scanWith([same]), [closed]).open).toEqual([]);
    const later = flagOn("FX-2", { lot: "L-4", from: "L-3" });
    expect(flagChanges(scanWith([later]), [closed]).open).toEqual([later]);
  });

  test("is answered by the first event of its source after it moved, and by no other", () => {
    const event = (more: Partial<SourceEvent>): SourceEvent => ({
      kind: "fixture",
      source: "FX-2",
      at: 2500,
      event: "repaired",
      ...more,
    });
    const flag = keptOf("FX-2");
    expect(answerTo(flag, [event({ at: 3500 }), event({})])?.at).toBe(2500);
    expect(
      answerTo(flag, [event({ at: 1999 }), event({ source: "FX-1" }), event({ kind: "gauge" })]),
    ).toBeNull();
    const tool = keptOf("T-1", {
      source: { kind: "tool", id: "T-1" },
      latest: { ...flagOn("T-1"), source: { kind: "tool", id: "T-1" } },
    });
    const edge = { kind: "tool", source: "T-1", event: "changed" } as const;
    expect(answerTo(tool, [event(edge)])).toBeNull();
    expect(answerTo(tool, [event({ ...edge, event: "adjusted" })])?.at).toBe(2500);
  });
});

describe("words", () => {
  test("the day of the lot goes into the sentence, with or without an interval", () => {
    const onset = { lot: "L-2" } as DriftFlag["onset"];
    const sentence = "FX-2 has moved +0.02 mm since lot L-2 (between L-1 and L-3); 5 of 7 agree.";
    expect(datedSentence({ sentence, onset }, "11 Nov")).toBe(
      "FX-2 has moved +0.02 mm since lot L-2 (11 Nov, between L-1 and L-3); 5 of 7 agree.",
    );
    expect(datedSentence({ sentence: "It moved since lot L-2; all agree.", onset }, "11 Nov")).toBe(
      "It moved since lot L-2 (11 Nov); all agree.",
    );
  });

  test("a forecast without an end says so instead of a figure", () => {
    expect(quantileWords({ median: 60.4, low: 40.2, high: 95 }, "piece")).toBe("about 60 pieces (40 to 95)");
    expect(quantileWords({ median: 60, low: 40, high: Number.POSITIVE_INFINITY }, "lot")).toBe(
      "about 60 lots (40 to many more)",
    );
    const never = { median: Number.POSITIVE_INFINITY, low: 70, high: Number.POSITIVE_INFINITY };
    expect(quantileWords(never, "lot")).toBe("more than 70 lots");
    expect(quantileWords({ median: 0, low: 0, high: 0 }, "lot")).toBe("reached");
  });
});
