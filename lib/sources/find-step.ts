import { normalUpperTail } from "../distributions/normal";
import { studentTQuantile } from "../distributions/student-t";
import type { FeatureCells, PartCells } from "./lot-cells";
import { type Contrast, contrastsOf, type Distrust } from "./neighbours";
import {
  added,
  lessened,
  NO_SUMS,
  type Step,
  type StepPoint,
  type Sums,
  stepBetween,
  stepOf,
} from "./step-split";

/** What a change has to reach. Common practice, no source: the simple forerunner of a scan over all sources. */
export const NAMED = {
  /** Standard errors beyond which a feature speaks for a change of its source. */
  errors: 4,
  /** Standard errors beyond which a further feature of a source that is named counts as moved with it. */
  errorsOfFurther: 3,
  /** In sigma within cells: what is smaller is too little to send anybody for. */
  least: 0.35,
  /** Features that have to speak, in the same direction; a tool may have only one. */
  features: 2,
  lotsBefore: 3,
  piecesBefore: 6,
  lotsAfter: 2,
} as const;

/** One feature of a source before and since a lot. Differences are in the unit where not in sigma. */
export type FeatureStep = {
  feature: number;
  sigma: number;
  /** Against the others in the same lots: since the change, less before it. */
  difference: number;
  standardError: number;
  differenceInSigma: number;
  /** Against the others in the same lots, since the change. */
  now: number;
  lotsBefore: number;
  lotsAfter: number;
  moved: boolean;
};

export type FoundStep = {
  /** Place of the first lot after the change, and of the last compared lot before it. */
  lot: number;
  lastBefore: number;
  lotsBefore: number;
  lotsAfter: number;
  /** 1 when the features that agree moved up, −1 when down. */
  direction: 1 | -1;
  /** Over the features that agree, in sigma. */
  difference: number;
  standardError: number;
  now: number;
  features: FeatureStep[];
  /** Features that moved in `direction`. */
  agree: number;
  /** Σ t² over the features that moved: how much the change explains. */
  explained: number;
  named: boolean;
};

type FeatureSeries = { cells: FeatureCells; sigma: number; contrasts: Contrast[] };

/**
 * The step that best explains a history, over all features together.
 *
 * For every lot that leaves enough lots on both sides, each feature has a step with its standard error; the
 * lot with the greatest sum of squared ratios is taken, which is least squares over all features with one
 * common lot. Squares, because a source can push one feature up and another down.
 *
 * Null when the history was compared in too few lots for any split.
 */
export function findStep(
  part: PartCells,
  {
    history,
    levels,
    distrusted,
    needed,
  }: { history: number; levels: readonly Float64Array[]; distrusted: readonly Distrust[]; needed: number },
): FoundStep | null {
  const series = seriesOf(part, { history, levels, distrusted });
  const lot = bestSplit(series, part.lots.length);
  if (lot === null) return null;
  const features = series.flatMap((one) => featureStep(one, lot) ?? []);
  const direction = directionOf(features);
  const agreeing = features.filter((one) => one.moved && Math.sign(one.difference) === direction);
  const speaking = agreeing.filter((one) => speaks(one, series, NAMED.errors));
  const enough = speaking.length >= Math.min(needed, features.length);
  const pooled = enough ? pooledStep(series, agreeing, lot) : null;
  const compared = new Set(series.flatMap(({ contrasts }) => contrasts.map((one) => one.lot)));
  const before = [...compared].filter((one) => one < lot);
  return {
    lot,
    lastBefore: Math.max(...before),
    lotsBefore: before.length,
    lotsAfter: compared.size - before.length,
    direction,
    difference: pooled?.step.difference ?? 0,
    standardError: pooled?.step.standardError ?? 0,
    now: pooled?.now ?? 0,
    features,
    agree: agreeing.length,
    explained: features
      .filter((one) => one.moved)
      .reduce((sum, one) => sum + (one.difference / one.standardError) ** 2, 0),
    named:
      pooled !== null &&
      Math.abs(pooled.step.difference) >= NAMED.least &&
      Math.abs(pooled.step.difference) > NAMED.errors * pooled.step.standardError,
  };
}

export function seriesOf(
  part: PartCells,
  {
    history,
    levels,
    distrusted,
  }: { history: number; levels: readonly Float64Array[]; distrusted: readonly Distrust[] },
): FeatureSeries[] {
  return part.features.flatMap((cells, place) => {
    if (!cells.sigma) return [];
    const contrasts = contrastsOf(part, cells, { history, levels: levels[place]!, distrusted });
    return contrasts.length > 0 ? [{ cells, sigma: cells.sigma, contrasts }] : [];
  });
}

/** Place of the first lot after the split that explains most. */
function bestSplit(series: readonly FeatureSeries[], lots: number): number | null {
  const explained = new Float64Array(lots);
  const possible = new Uint8Array(lots);
  for (const { contrasts, sigma } of series) {
    const points = contrasts.map((contrast) => inSigma(contrast, sigma));
    const whole = points.reduce(added, NO_SUMS);
    let before: Sums = NO_SUMS;
    let pieces = 0;
    for (let place = 0; place < points.length; place++) {
      const lotsAfter = points.length - place;
      const step =
        place >= NAMED.lotsBefore && pieces >= NAMED.piecesBefore && lotsAfter >= NAMED.lotsAfter
          ? stepOf(before, lessened(whole, before))
          : null;
      if (step) {
        // A feature that was not compared in some lots has the same step at every split within them.
        const from = contrasts[place - 1]!.lot + 1;
        for (let lot = from; lot <= contrasts[place]!.lot; lot++) {
          explained[lot]! += (step.difference / step.standardError) ** 2;
        }
        possible[contrasts[place]!.lot] = 1;
      }
      before = added(before, points[place]!);
      pieces += contrasts[place]!.count;
    }
  }
  let best: number | null = null;
  for (let lot = 0; lot < lots; lot++) {
    if (possible[lot] === 1 && (best === null || explained[lot]! > explained[best]!)) best = lot;
  }
  return best;
}

function featureStep({ cells, sigma, contrasts }: FeatureSeries, lot: number): FeatureStep | null {
  const { earlier, later } = partedAt(contrasts, lot);
  if (!isEnough(earlier, later)) return null;
  const scaled = (side: readonly Contrast[]) => side.map((contrast) => inSigma(contrast, sigma));
  const step = stepBetween(scaled(earlier), scaled(later));
  if (!step) return null;
  const limit = criticalErrors(NAMED.errorsOfFurther, cells.degreesOfFreedom);
  return {
    feature: cells.feature,
    sigma,
    difference: step.difference * sigma,
    standardError: step.standardError * sigma,
    differenceInSigma: step.difference,
    now: weightedMean(later, (one) => one.plain),
    lotsBefore: step.lotsBefore,
    lotsAfter: step.lotsAfter,
    moved: Math.abs(step.difference) >= NAMED.least && Math.abs(step.difference) > limit * step.standardError,
  };
}

/**
 * One step over several features: their mean deviation in each lot, in sigma.
 *
 * Features of a piece share its clamping, so their errors are not independent. The scatter of the mean from
 * lot to lot shows what they share, and widens the error.
 */
function pooledStep(
  series: readonly FeatureSeries[],
  members: readonly FeatureStep[],
  lot: number,
): { step: Step; now: number } | null {
  const wanted = new Set(members.map(({ feature }) => feature));
  const chosen = series.filter(({ cells }) => wanted.has(cells.feature));
  const inLots = new Map<number, { point: StepPoint; plain: number }>();
  const byLot = new Map<number, { contrast: Contrast; sigma: number }[]>();
  for (const { contrasts, sigma } of chosen) {
    for (const contrast of contrasts) {
      const known = byLot.get(contrast.lot);
      if (known) known.push({ contrast, sigma });
      else byLot.set(contrast.lot, [{ contrast, sigma }]);
    }
  }
  for (const [place, inLot] of byLot) {
    let count = 0;
    let deviation = 0;
    let plain = 0;
    let variance = 0;
    for (const { contrast, sigma } of inLot) {
      count++;
      deviation += contrast.adjusted / sigma;
      plain += contrast.plain / sigma;
      variance += 1 / contrast.information;
    }
    const point = { deviation: deviation / count, information: (count * count) / variance };
    inLots.set(place, { point, plain: plain / count });
  }
  const all = [...inLots];
  const later = all.filter(([place]) => place >= lot).map(([, one]) => one);
  const earlier = all.filter(([place]) => place < lot).map(([, one]) => one);
  const points = (side: (typeof all)[number][1][]) => side.map(({ point }) => point);
  const step = stepBetween(points(earlier), points(later));
  if (!step) return null;
  const weight = later.reduce((sum, { point }) => sum + point.information, 0);
  const now = later.reduce((sum, { point, plain }) => sum + point.information * plain, 0) / weight;
  return { step, now };
}

function speaks(one: FeatureStep, series: readonly FeatureSeries[], errors: number): boolean {
  const freedom = series.find(({ cells }) => cells.feature === one.feature)!.cells.degreesOfFreedom;
  return Math.abs(one.difference) > criticalErrors(errors, freedom) * one.standardError;
}

function directionOf(features: readonly FeatureStep[]): 1 | -1 {
  const pull = features
    .filter((one) => one.moved)
    .reduce((sum, one) => sum + Math.sign(one.difference) * (one.difference / one.standardError) ** 2, 0);
  return pull < 0 ? -1 : 1;
}

const criticals = new Map<string, number>();

/**
 * How many standard errors are as rare as `errors` of a known sigma, where sigma itself is estimated: the
 * quantile of Student's t with the same tail.
 */
export function criticalErrors(errors: number, degreesOfFreedom: number): number {
  const key = `${errors} ${degreesOfFreedom}`;
  const known = criticals.get(key);
  if (known !== undefined) return known;
  const critical = studentTQuantile(1 - normalUpperTail(errors), degreesOfFreedom);
  criticals.set(key, critical);
  return critical;
}

export function inSigma({ adjusted, information }: Contrast, sigma: number): StepPoint {
  return { deviation: adjusted / sigma, information };
}

function partedAt(contrasts: readonly Contrast[], lot: number) {
  return {
    earlier: contrasts.filter((one) => one.lot < lot),
    later: contrasts.filter((one) => one.lot >= lot),
  };
}

function isEnough(earlier: readonly Contrast[], later: readonly Contrast[]): boolean {
  const pieces = earlier.reduce((sum, { count }) => sum + count, 0);
  return (
    earlier.length >= NAMED.lotsBefore && pieces >= NAMED.piecesBefore && later.length >= NAMED.lotsAfter
  );
}

function weightedMean(contrasts: readonly Contrast[], of: (one: Contrast) => number): number {
  let sum = 0;
  let weight = 0;
  for (const one of contrasts) {
    sum += one.information * of(one);
    weight += one.information;
  }
  return sum / weight;
}
