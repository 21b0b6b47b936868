import { type Columns, generalised, leave, withDense } from "./columns";
import type { Design, Prepared } from "./design";
import { middleBetween, middleOf } from "./middle";
import type { Ratios, Strata } from "./strata";
import {
  cellRatio,
  lotAutocorrelation,
  lotRatio,
  type ResidualMeans,
  residualMeans,
  shrunkCells,
  shrunkLots,
} from "./variance-ratios";

/** A piece that lies so far from its neighbours that only part of the distance is believed. */
export type Blunder = { feature: number; row: number; excess: number };

/** The static model of a table, feature by feature, in units of each feature's own scatter. */
export type Fit = {
  prepared: Prepared;
  /** Static columns of each design with those of faults already explained. */
  columns: Columns[];
  /** Scatter found within cells over short-term sigma. */
  scale: Float64Array;
  /** Clipped values, and what the static columns leave of them. */
  values: Float64Array[];
  residuals: Float64Array[];
  means: ResidualMeans[];
  ratios: Ratios[];
  /** Features are put in up to three classes of lot ratio; one set of sums serves a class. */
  classOf: Uint8Array;
  classes: Ratios[];
  autocorrelation: number;
  blunders: Blunder[];
};

const CELL_CLIP = 3.5;
const LOT_CLIP = 4;
const PIECES_FOR_CELL_CLIP = 3;
const FIRST_GUESS: Ratios = { lot: 0.15, cell: 0.02 };
const UNKNOWN_LOT_RATIO = 0.25;

/**
 * Fits what has always been different (fixtures, gauges, operators …) by generalised least squares, and learns
 * from the residuals how much lots and cells differ, in two passes; blunders are clipped before the second.
 *
 * @param explained regressors of faults found before, by design
 */
export function fitStatics(prepared: Prepared, explained: readonly (readonly Float64Array[])[]): Fit {
  const { features, designs } = prepared;
  const columns = columnsWith(designs, explained);
  const values = features.map(({ z }) => z.slice());
  const residuals = values.map((value) => new Float64Array(value.length));
  let ratios: Ratios[] = features.map(() => FIRST_GUESS);
  let means: ResidualMeans[] = [];
  let autocorrelation = 0;
  const blunders: Blunder[] = [];
  for (const pass of [0, 1]) {
    for (const [d, design] of designs.entries()) {
      const usual = {
        lot: middleOf(design.features.map((f) => ratios[f]!.lot)),
        cell: middleOf(design.features.map((f) => ratios[f]!.cell)),
      };
      const gls = generalised(design.strata, columns[d]!, usual);
      for (const f of design.features) leave(gls, values[f]!, residuals[f]!);
    }
    means = features.map(({ design }, f) => residualMeans(designs[design]!, residuals[f]!));
    const cells = shrunkCells(features.map(({ design }, f) => cellRatio(designs[design]!, means[f]!)));
    const own = features.map(({ design }, f) => lotRatio(designs[design]!, means[f]!, cells[f]!));
    const enough = own.every(({ differences }) => differences > 4);
    autocorrelation = enough ? middleOf(means.map(lotAutocorrelation)) : 0;
    const lots = enough ? shrunkLots(own, autocorrelation) : own.map(() => UNKNOWN_LOT_RATIO);
    ratios = features.map((_, f) => ({ lot: lots[f]!, cell: cells[f]! }));
    if (pass === 0) {
      for (const [f, { design }] of features.entries()) {
        clip(designs[design]!, residuals[f]!, values[f]!, (row, excess) =>
          blunders.push({ feature: f, row, excess }),
        );
      }
    }
  }
  const scale = rescale({ prepared, values, residuals, means });
  ratios = ratios.map(({ lot, cell }, f) => ({ lot: lot / scale[f]! ** 2, cell: cell / scale[f]! ** 2 }));
  return {
    prepared,
    columns,
    scale,
    values,
    residuals,
    means,
    ratios,
    ...classify(ratios),
    autocorrelation,
    blunders,
  };
}

/** Designs with the same static columns and the same regressors have their columns in common. */
function columnsWith(designs: readonly Design[], explained: readonly (readonly Float64Array[])[]): Columns[] {
  const made: Columns[] = [];
  for (const [d, { strata, columns }] of designs.entries()) {
    const dense = explained[d] ?? [];
    const like = designs.findIndex(
      (other, o) => o < d && other.columns === columns && isSameList(explained[o] ?? [], dense),
    );
    made.push(made[like] ?? withDense(strata, columns, dense));
  }
  return made;
}

function isSameList(a: readonly Float64Array[], b: readonly Float64Array[]): boolean {
  return a.length === b.length && a.every((one, i) => one === b[i]);
}

function clip(
  { strata, rows }: Design,
  residual: Float64Array,
  value: Float64Array,
  onBlunder: (row: number, excess: number) => void,
): void {
  const shorten = (i: number, centre: number, reach: number) => {
    const off = residual[i]! - centre;
    const excess = off > reach ? off - reach : off < -reach ? off + reach : 0;
    if (excess === 0) return;
    value[i]! -= excess;
    onBlunder(rows[i]!, excess);
  };
  for (let lot = 0; lot < strata.lots; lot++) {
    const firstCell = strata.lotCells[lot]!;
    const endCell = strata.lotCells[lot + 1]!;
    if (firstCell === endCell) continue;
    let lotMiddle = Number.NaN;
    for (let c = firstCell; c < endCell; c++) {
      const from = strata.cellStart[c]!;
      const to = strata.cellStart[c + 1]!;
      if (to - from >= PIECES_FOR_CELL_CLIP) {
        // Most cells span less than a piece may be off, and need no median.
        if (rangeOf(residual, from, to) <= CELL_CLIP) continue;
        const centre = middleBetween(residual, from, to);
        for (let i = from; i < to; i++) shorten(i, centre, CELL_CLIP);
      } else {
        if (Number.isNaN(lotMiddle)) {
          lotMiddle = middleBetween(residual, strata.cellStart[firstCell]!, strata.cellStart[endCell]!);
        }
        for (let i = from; i < to; i++) shorten(i, lotMiddle, LOT_CLIP);
      }
    }
  }
}

function rangeOf(values: Float64Array, from: number, to: number): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = from; i < to; i++) {
    if (values[i]! < least) least = values[i]!;
    if (values[i]! > most) most = values[i]!;
  }
  return most - least;
}

const PRIOR_PIECES = 10;

/**
 * Brings every feature to unit scatter within cells: the short-term sigma saw neighbours only, the model's
 * tests rest on the scatter about the fitted cells. Where cells hold single pieces the short-term sigma stands.
 */
function rescale({
  prepared,
  values,
  residuals,
  means,
}: Pick<Fit, "prepared" | "values" | "residuals" | "means">): Float64Array {
  return Float64Array.from(prepared.features, ({ design }, f) => {
    const { strata } = prepared.designs[design]!;
    const residual = residuals[f]!;
    const { cells, lots } = means[f]!;
    const freedom = strata.pieces - strata.cells;
    let scale = 1;
    if (freedom > PRIOR_PIECES) {
      const squares = squaresWithin(strata, residual, cells);
      const variance = (squares + PRIOR_PIECES) / (freedom + PRIOR_PIECES);
      scale = Math.sqrt(Math.min(2.5, Math.max(0.6, variance)));
    }
    for (const part of [residual, values[f]!, cells, lots]) divide(part, scale);
    return scale;
  });
}

function squaresWithin({ cells, cellStart }: Strata, residual: Float64Array, means: Float64Array): number {
  let squares = 0;
  for (let c = 0; c < cells; c++) {
    const to = cellStart[c + 1]!;
    for (let i = cellStart[c]!; i < to; i++) {
      const deviation = residual[i]! - means[c]!;
      squares += deviation * deviation;
    }
  }
  return squares;
}

function divide(values: Float64Array, by: number): void {
  for (let i = 0; i < values.length; i++) values[i]! /= by;
}

const FEATURES_FOR_CLASSES = 12;

function classify(ratios: readonly Ratios[]): Pick<Fit, "classOf" | "classes"> {
  const count = ratios.length >= FEATURES_FOR_CLASSES ? 3 : 1;
  const order = Array.from(ratios.keys()).sort((a, b) => ratios[a]!.lot - ratios[b]!.lot || a - b);
  const classOf = new Uint8Array(ratios.length);
  const sums = new Float64Array(count);
  const sizes = new Float64Array(count);
  for (const [place, f] of order.entries()) {
    const k = Math.min(count - 1, Math.floor((place * count) / ratios.length));
    classOf[f] = k;
    sums[k]! += ratios[f]!.lot;
    sizes[k]!++;
  }
  const cell = ratios.length === 0 ? FIRST_GUESS.cell : middleOf(ratios.map((ratio) => ratio.cell));
  return { classOf, classes: Array.from(sums, (sum, k) => ({ lot: sum / Math.max(1, sizes[k]!), cell })) };
}
