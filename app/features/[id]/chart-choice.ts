import { z } from "zod";
import type { MemoryChart } from "../../../lib/plan/feature-plan";
import { USUAL_CUSUM, USUAL_EWMA } from "../../../lib/plan/memory-chart";
import type { Words } from "../../../lib/words/words";

/** The ways to look at a feature's points, by the word in the address. */
export const CHART_VIEWS = ["own", "ewma", "cusum", "short-run", "lots"] as const;
export type ChartViewName = (typeof CHART_VIEWS)[number];

export const SHORT_RUN_BASES = ["nominal", "centre"] as const;
export type ShortRunBasis = (typeof SHORT_RUN_BASES)[number];

/** Limits drawn on a chart of counts. */
export const COUNT_LIMITS = ["threeSigma", "probability"] as const;
export type CountLimitsKind = (typeof COUNT_LIMITS)[number];

/** What the address asks for. What does not suit is left at the usual figure, and `faults` says so. */
export type ChartChoice = {
  view: ChartViewName;
  ewma: MemoryChart & { kind: "ewma" };
  cusum: MemoryChart & { kind: "cusum" };
  shortRun: { basis: ShortRunBasis };
  countLimits: CountLimitsKind;
  faults: string[];
};

const figure = (least: number, most: number, isLeastIn = true) =>
  z
    .string()
    .trim()
    .regex(/^\d+([.,]\d+)?$/)
    .transform((text) => Number(text.replace(",", ".")))
    .pipe(isLeastIn ? z.number().min(least).max(most) : z.number().gt(least).max(most));

const FIGURES = {
  lambda: { name: "λ", schema: figure(0.01, 1) },
  L: { name: "L", schema: figure(0, 6, false) },
  k: { name: "k", schema: figure(0, 3) },
  h: { name: "h", schema: figure(0, 20, false) },
} as const;

type Query = Record<string, string | string[] | undefined>;

/**
 * Reads the view and its parameters from an address, such as `?chart=ewma&lambda=0.1&L=2.7`.
 *
 * @param planned the chart with a memory of the control plan; its figures are the usual ones where it is one
 *   of that kind
 */
export function chartChoice(
  asked: Query,
  planned: MemoryChart | null,
  words: Words["features"]["asked"],
): ChartChoice {
  const faults: string[] = [];
  const read = (key: keyof typeof FIGURES, usual: number): number => {
    const given = asked[key];
    if (given === undefined || given === "") return usual;
    const { name, schema } = FIGURES[key];
    const parsed = schema.safeParse(given);
    if (parsed.success) return parsed.data;
    faults.push(words.fault(name, words.needs[key], usual));
    return usual;
  };
  const ewma = planned?.kind === "ewma" ? planned : USUAL_EWMA;
  const cusum = planned?.kind === "cusum" ? planned : USUAL_CUSUM;
  const view = z.enum(CHART_VIEWS).catch("own").parse(asked.chart);
  const decisionInterval = read("h", cusum.decisionInterval);
  const isPlannedHeadStart = asked.h === undefined && asked.k === undefined;
  return {
    view,
    ewma: { kind: "ewma", smoothing: read("lambda", ewma.smoothing), width: read("L", ewma.width) },
    cusum: {
      kind: "cusum",
      reference: read("k", cusum.reference),
      decisionInterval,
      // The form of parameters always sends k and h, so that an unticked box is an answer.
      headStart: asked.fir === "on" ? decisionInterval / 2 : isPlannedHeadStart ? cusum.headStart : 0,
    },
    shortRun: { basis: z.enum(SHORT_RUN_BASES).catch("nominal").parse(asked.basis) },
    countLimits: z.enum(COUNT_LIMITS).catch("threeSigma").parse(asked.limits),
    faults,
  };
}
