/**
 * Heights and places of the control chart's parts, from top to bottom: phase labels, brackets, location
 * chart, brackets, spread chart, axis, ribbons. Everything is fixed before the width is known, so that
 * nothing jumps when the chart appears.
 */

export const AXIS_WIDTH = 84;
export const RIGHT_WIDTH = 88;
/** A digit at the size in which axes are written. */
const DIGIT = 7.2;

/** Room beside a plot for its longest figure: the usual one, or more where figures are very long. */
export function roomBeside(figures: readonly string[], usual: number): number {
  const longest = figures.reduce((most, text) => Math.max(most, text.length), 0);
  return Math.max(usual, Math.ceil(longest * DIGIT) + 16);
}

/** A letter of a bracket's phrase, and a chart on a tablet: room for words is settled before the width is known. */
const LETTER = 6.6;
const NARROW = 760;

/** How many subgroups a phrase is wide. */
export function phraseRoom({ from, to }: { from: number; to: number }): (phrase: string) => number {
  const step = (NARROW - AXIS_WIDTH - RIGHT_WIDTH) / Math.max(1, to - from + 1);
  return (phrase) => (phrase.length * LETTER + 8) / step;
}

const PHASES = 22;
export const LANE = 18;
const LOCATION = 236;
const SPREAD = 128;
const GAP = 14;
const AXIS = 40;
export const RIBBON = 22;
/** Between the last ribbon and the edge of the sheet. */
const FOOT = 8;
/** More stacked brackets than this are counted in words instead. */
export const MOST_LANES = 4;

export type PlotPlace = { top: number; height: number; lanes: number; lanesTop: number };
export type ChartLayout = {
  height: number;
  location: PlotPlace;
  spread: PlotPlace;
  axisTop: number;
  ribbonsTop: number;
};

export function chartLayout({
  locationLanes,
  spreadLanes,
  ribbons,
}: {
  locationLanes: number;
  spreadLanes: number;
  ribbons: number;
}): ChartLayout {
  const location = plot(PHASES, { lanes: locationLanes, height: LOCATION });
  const spread = plot(location.top + location.height + GAP, { lanes: spreadLanes, height: SPREAD });
  const axisTop = spread.top + spread.height;
  const ribbonsTop = axisTop + AXIS;
  return { height: ribbonsTop + ribbons * RIBBON + FOOT, location, spread, axisTop, ribbonsTop };
}

/** A row for the plot's name is there even without brackets. */
function plot(lanesTop: number, { lanes, height }: { lanes: number; height: number }): PlotPlace {
  const rows = Math.min(MOST_LANES, Math.max(1, lanes));
  return { top: lanesTop + rows * LANE, height, lanes: rows, lanesTop };
}
