import { InvalidInput, requireFinite } from "../checks";

/** How one source of a kind (a fixture, a tool, a zone …) lies against its neighbours in the same lots. */
export type SourceDeviation = {
  source: number;
  /** Readings of this source. */
  count: number;
  /** Lots in which another source ran beside it. */
  lots: number;
  /** In the feature's unit; null when it was alone in all its lots. */
  deviation: number | null;
  /** The deviation in sigma within cells; null with it, or when nothing varies within cells. */
  deviationInSigma: number | null;
  /** Of `deviation`, in the feature's unit; null when no cell has two readings. */
  standardError: number | null;
  /**
   * Birge's ratio: how much more the lots disagree about the deviation than single readings would have it.
   * Near 1 the source repeats; 2 says it stands elsewhere in each lot. Null with `standardError` or one lot.
   */
  disagreement: number | null;
  /** A sentence where figures are missing; null where they are there. */
  reason: string | null;
};

/** One source in one lot: its mean less that of its neighbours, in sigma within cells. */
export type SourceCell = { source: number; lot: number; count: number; deviation: number | null };

export type LotAdjusted = {
  /** Pooled standard deviation within the cells source × lot, in the unit; null when no cell has two. */
  sigma: number | null;
  degreesOfFreedom: number;
  /** Both in the order of first appearance. */
  lots: number[];
  sources: SourceDeviation[];
  /** Cells that hold readings, by source, then lot. */
  cells: SourceCell[];
  /** Readings left out because their lot or source is not stated. */
  notStated: number;
};

/**
 * Which source sits off its neighbours, whatever the lots did?
 *
 * Each source is compared only with the others in the same lot, so that material and drift, which all
 * sources of the lot share, cancel:
 *
 *   d_l = mean of the source in lot l − mean over the other sources of their means in lot l
 *   w_l = 1 / ( 1/n + Σ 1/n_other / (number of others)² )        (the information of d_l, in 1/σ²)
 *   deviation      = Σ w_l d_l / Σ w_l
 *   standard error = σ / √Σ w_l, times Birge's ratio where the lots disagree
 *
 * σ is the pooled standard deviation within the cells source × lot. Birge's ratio, √(Σ w_l (d_l −
 * deviation)² / σ² / (lots − 1)), widens the error when it is above 1: when a source does not repeat from
 * lot to lot as well as single readings would have it.
 *
 * A deviation that has always been there shows here too: this is where a source stands, not that it moved.
 * Id 0 stands for "not stated" and is left out.
 *
 * Source: comparison within blocks, as in W. G. Cochran and G. M. Cox, Experimental Designs (1957);
 * R. T. Birge, Physical Review 40 (1932) 207-227 (both from memory).
 *
 * @throws InvalidInput when lengths differ or a value is not a finite number
 */
export function lotAdjusted({
  values,
  lots,
  sources,
}: {
  values: ArrayLike<number>;
  lots: ArrayLike<number>;
  sources: ArrayLike<number>;
}): LotAdjusted {
  const where = "lotAdjusted";
  for (const [field, ids] of Object.entries({ lots, sources })) {
    if (ids.length !== values.length) {
      throw new InvalidInput(where, `${field}.length`, ids.length, `the number of values, ${values.length}`);
    }
  }
  requireFinite(where, "values", values);

  const table = cellTable({ values, lots, sources });
  const sigma = table.degreesOfFreedom > 0 ? Math.sqrt(table.squares / table.degreesOfFreedom) : null;
  const cells: SourceCell[] = [];
  const found = table.sources.map((source, s) => {
    const compared: Comparison[] = [];
    let count = 0;
    let lotsHeld = 0;
    for (const [l, lot] of table.lots.entries()) {
      const held = table.counts[table.at(s, l)]!;
      if (held === 0) continue;
      count += held;
      lotsHeld++;
      const comparison = againstNeighbours(table, s, l);
      if (comparison !== null) compared.push(comparison);
      cells.push({ source, lot, count: held, deviation: inSigma(comparison?.difference ?? null, sigma) });
    }
    return sourceDeviation({ source, count, lotsHeld, compared, sigma });
  });
  return {
    sigma,
    degreesOfFreedom: table.degreesOfFreedom,
    lots: table.lots,
    sources: found,
    cells,
    notStated: table.notStated,
  };
}

/** Means and counts of the cells source × lot, with what varies within them. */
type CellTable = {
  lots: number[];
  sources: number[];
  at: (source: number, lot: number) => number;
  counts: Float64Array;
  means: Float64Array;
  squares: number;
  degreesOfFreedom: number;
  notStated: number;
};

function cellTable({
  values,
  lots,
  sources,
}: {
  values: ArrayLike<number>;
  lots: ArrayLike<number>;
  sources: ArrayLike<number>;
}): CellTable {
  const lotIndex = new Map<number, number>();
  const sourceIndex = new Map<number, number>();
  for (let i = 0; i < values.length; i++) {
    if (lots[i] === 0 || sources[i] === 0) continue;
    if (!lotIndex.has(lots[i]!)) lotIndex.set(lots[i]!, lotIndex.size);
    if (!sourceIndex.has(sources[i]!)) sourceIndex.set(sources[i]!, sourceIndex.size);
  }
  const at = (source: number, lot: number) => source * lotIndex.size + lot;
  const cellOf = (i: number) =>
    lots[i] === 0 || sources[i] === 0 ? -1 : at(sourceIndex.get(sources[i]!)!, lotIndex.get(lots[i]!)!);

  const size = lotIndex.size * sourceIndex.size;
  const counts = new Float64Array(size);
  const means = new Float64Array(size);
  const residuals = new Float64Array(size);
  let used = 0;
  // Differences from one reading, so that a large common offset costs no digits.
  const origin = values.length > 0 ? values[0]! : 0;
  for (let i = 0; i < values.length; i++) {
    const cell = cellOf(i);
    if (cell < 0) continue;
    counts[cell]!++;
    means[cell]! += values[i]! - origin;
    used++;
  }
  let filled = 0;
  for (let cell = 0; cell < size; cell++) {
    if (counts[cell] === 0) continue;
    means[cell]! /= counts[cell]!;
    filled++;
  }
  let squares = 0;
  for (let i = 0; i < values.length; i++) {
    const cell = cellOf(i);
    if (cell < 0) continue;
    const residual = values[i]! - origin - means[cell]!;
    squares += residual * residual;
    residuals[cell]! += residual;
  }
  for (let cell = 0; cell < size; cell++) {
    if (counts[cell] === 0) continue;
    const correction = residuals[cell]! / counts[cell]!;
    means[cell]! += correction;
    squares -= correction * residuals[cell]!;
  }
  return {
    lots: [...lotIndex.keys()],
    sources: [...sourceIndex.keys()],
    at,
    counts,
    means,
    squares: Math.max(0, squares),
    degreesOfFreedom: used - filled,
    notStated: values.length - used,
  };
}

/** A source against its neighbours in one lot; `information` is in 1/σ². */
type Comparison = { difference: number; information: number };

function againstNeighbours(table: CellTable, source: number, lot: number): Comparison | null {
  let others = 0;
  let sum = 0;
  let reciprocals = 0;
  for (let s = 0; s < table.sources.length; s++) {
    const cell = table.at(s, lot);
    if (s === source || table.counts[cell] === 0) continue;
    others++;
    sum += table.means[cell]!;
    reciprocals += 1 / table.counts[cell]!;
  }
  if (others === 0) return null;
  const own = table.at(source, lot);
  return {
    difference: table.means[own]! - sum / others,
    information: 1 / (1 / table.counts[own]! + reciprocals / (others * others)),
  };
}

function sourceDeviation({
  source,
  count,
  lotsHeld,
  compared,
  sigma,
}: {
  source: number;
  count: number;
  lotsHeld: number;
  compared: readonly Comparison[];
  sigma: number | null;
}): SourceDeviation {
  const lots = compared.length;
  if (lots === 0) {
    const its = lotsHeld === 1 ? "its only lot" : `all ${lotsHeld} of its lots`;
    const reason = `Alone in ${its}: nothing ran beside it, so the lot and the source cannot be told apart.`;
    return {
      source,
      count,
      lots,
      deviation: null,
      deviationInSigma: null,
      standardError: null,
      disagreement: null,
      reason,
    };
  }
  let information = 0;
  let weighted = 0;
  for (const one of compared) {
    information += one.information;
    weighted += one.information * one.difference;
  }
  const deviation = weighted / information;
  let scatter = 0;
  for (const one of compared) scatter += one.information * (one.difference - deviation) ** 2;
  const betweenLots = lots > 1 ? Math.sqrt(scatter / (lots - 1)) : 0;
  return {
    source,
    count,
    lots,
    deviation,
    deviationInSigma: inSigma(deviation, sigma),
    standardError: sigma === null ? null : Math.max(sigma, betweenLots) / Math.sqrt(information),
    disagreement: sigma === null || sigma === 0 || lots < 2 ? null : betweenLots / sigma,
    reason:
      sigma === null
        ? "Every source has a single reading in each lot: how far readings scatter by themselves is not known."
        : sigma === 0
          ? "Readings of one source in one lot are all alike: no variation at this resolution to compare with."
          : null,
  };
}

function inSigma(difference: number | null, sigma: number | null): number | null {
  return difference === null || sigma === null || sigma === 0 ? null : difference / sigma;
}
