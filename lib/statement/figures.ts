import { type Histogram, histogram } from "../capability/histogram";
import { extendSpan, type Span } from "../capability/lot-spans";
import type { ModelName } from "../capability/models/model";
import { type ProbabilityPlot, probabilityPlot } from "../capability/probability-plot";
import { studyDistribution } from "../capability/study-distribution";
import type { Distribution } from "../distributions/distribution";
import type { StatedFeature, StatedReadings } from "./content";

/** Fewer readings than the test of normality takes have no shape to be drawn. */
const FEWEST_DRAWN = 5;

export type StatedLot = Span & { code: string };

export type StatedPictures = {
  /** Null with too few readings, or without variation. */
  shape: {
    histogram: Histogram;
    plot: ProbabilityPlot;
    distribution: Distribution;
    /** Null for the normal one. */
    model: ModelName | null;
  } | null;
  /** In the order in which they were first measured; readings that state no lot are in none. */
  lots: StatedLot[];
};

/** The pictures of a stated feature, from the readings that were signed with it. */
export function statedPictures(
  { study, plan, resolution }: StatedFeature,
  readings: StatedReadings,
  { confidence }: { confidence: number },
): StatedPictures {
  const values = readings.value;
  const distribution = studyDistribution(study, plan);
  const model = study.modelStudy?.fit.model ?? null;
  const bins =
    values.length < FEWEST_DRAWN ? null : histogram({ values, resolution, tolerance: plan.tolerance });
  const plot =
    values.length < FEWEST_DRAWN
      ? null
      : probabilityPlot({
          values,
          confidence,
          model: model === null ? undefined : (distribution ?? undefined),
        });
  return {
    shape:
      bins?.ok && plot?.ok && distribution !== null
        ? { histogram: bins.value, plot: plot.value, distribution, model }
        : null,
    lots: statedLots(readings),
  };
}

function statedLots({ value, lot, takenAt }: StatedReadings): StatedLot[] {
  const spans = new Map<string, Span>();
  for (const [i, each] of value.entries()) {
    const code = lot[i]!;
    if (code !== "") extendSpan(spans, code, { value: each, at: takenAt[i]! });
  }
  return Array.from(spans, ([code, span]) => ({ code, ...span }));
}
