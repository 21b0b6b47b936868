import { type Correlations, correlationsOf } from "./common-news";
import type { Design, PreparedFeature } from "./design";
import type { Fit } from "./fit";
import type { PieceTable } from "./piece-table";
import { type SpreadEvidence, type SpreadHypothesis, spreadEvidence } from "./spread";

/** What of a fit says how pieces scatter about it: plain columns, which another thread can be sent. */
export type Scatter = Pick<Fit, "residuals" | "means" | "ratios"> & {
  prepared: {
    table: Pick<PieceTable, "pieces" | "lots" | "lotOf"> & { levels: Pick<PieceTable["levels"], "fixture"> };
    features: Pick<PreparedFeature, "design">[];
    designs: ScatterDesign[];
  };
};

export type ScatterDesign = Pick<
  Design,
  "rows" | "strata" | "lotOf" | "cellOf" | "cellLot" | "fixture" | "operator" | "gauge" | "features"
>;

/** How pieces scatter: asked of a fit, where `known` are the sources already found to scatter more. */
export type ScatterOrder = {
  scatter: Scatter;
  known: readonly SpreadHypothesis[];
  /** Where they are known already. */
  correlations: Correlations | null;
};

export type ScatterAnswer = { correlations: Correlations; spread: SpreadEvidence };

/**
 * Answers an order, each part when it is asked for. Both parts need nothing of what else a scan works out on a fit, and
 * take a third of its time: so a caller with a processor to spare may have them worked out beside itself, with the same
 * digits (app/jobs/scatter-beside.ts).
 */
export type ScatterAsked = (order: ScatterOrder) => {
  [Part in keyof ScatterAnswer]: () => ScatterAnswer[Part];
};

/** In the caller's own thread. */
export const scatterHere: ScatterAsked = ({ scatter, known, ...given }) => {
  const correlations = once(() => given.correlations ?? correlationsOf(scatter));
  return { correlations, spread: once(() => spreadEvidence(scatter, correlations(), known)) };
};

/** The columns of a fit that say how pieces scatter, and no more, for what is sent is copied. */
export function scatterOf({ prepared, residuals, means, ratios }: Fit): Scatter {
  const { table, features, designs } = prepared;
  const { pieces, lots, lotOf, levels } = table;
  return {
    residuals,
    means,
    ratios,
    prepared: {
      table: { pieces, lots, lotOf, levels: { fixture: levels.fixture } },
      features: features.map(({ design }) => ({ design })),
      designs: designs.map(
        ({ rows, strata, lotOf: own, cellOf, cellLot, fixture, operator, gauge, features: of }) => ({
          rows,
          strata,
          lotOf: own,
          cellOf,
          cellLot,
          fixture,
          operator,
          gauge,
          features: of,
        }),
      ),
    },
  };
}

export function once<T>(make: () => T): () => T {
  let made: T | null = null;
  return () => {
    made ??= make();
    return made;
  };
}
