import { describe, expect, test } from "vitest";
import { chartChoice as choiceIn } from "../../app/features/[id]/chart-choice";
import { ENGLISH } from "../../lib/words/words";

const chartChoice = (asked: Parameters<typeof choiceIn>[0], planned: Parameters<typeof choiceIn>[1]) =>
  choiceIn(asked, planned, ENGLISH.features.asked);

describe("the chart that an address asks for", () => {
  test("nothing asked: the feature's own chart, and the usual figures for the others", () => {
    expect(chartChoice({}, null)).toEqual({
      view: "own",
      ewma: { kind: "ewma", smoothing: 0.2, width: 2.962 },
      cusum: { kind: "cusum", reference: 0.5, decisionInterval: 5, headStart: 0 },
      shortRun: { basis: "nominal" },
      countLimits: "threeSigma",
      faults: [],
    });
  });

  test("figures are taken with a point or a comma", () => {
    const { view, ewma, faults } = chartChoice({ chart: "ewma", lambda: "0,1", L: "2.7" }, null);
    expect([view, ewma.smoothing, ewma.width, faults]).toEqual(["ewma", 0.1, 2.7, []]);
  });

  test("the plan's own figures are the usual ones, and an unticked head start is an answer", () => {
    const planned = { kind: "cusum", reference: 0.25, decisionInterval: 8, headStart: 4 } as const;
    expect(chartChoice({ chart: "cusum" }, planned).cusum).toEqual(planned);
    expect(chartChoice({ chart: "cusum", k: "0.25", h: "8" }, planned).cusum.headStart).toBe(0);
    expect(chartChoice({ chart: "cusum", k: "0.25", h: "6", fir: "on" }, planned).cusum.headStart).toBe(3);
  });

  test.each([
    ["lambda", "2", "λ is a number, 0.01 to 1; 0.2 is used instead."],
    ["L", "0", "L is a number, above 0, at most 6; 2.962 is used instead."],
    ["k", "-1", "k is a number, 0 to 3; 0.5 is used instead."],
    ["h", "much", "h is a number, above 0, at most 20; 5 is used instead."],
  ])("%s=%s is not taken, and says so", (name, text, words) => {
    expect(chartChoice({ chart: "ewma", [name]: text }, null).faults).toEqual([words]);
  });

  test("an unknown chart, twice the same figure: the own chart, and the usual figure", () => {
    const { view, ewma } = chartChoice({ chart: "pie", lambda: ["0.1", "0.3"] }, null);
    expect([view, ewma.smoothing]).toEqual(["own", 0.2]);
  });
});
