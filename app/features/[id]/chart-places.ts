import { heldOn } from "../../../lib/chart/axis-spans";
import {
  AXIS_WIDTH,
  type ChartLayout,
  chartLayout,
  MOST_LANES,
  RIGHT_WIDTH,
  roomBeside,
} from "../../../lib/chart/chart-layout";
import type { ChartView } from "../../../lib/chart/chart-view";
import { linearScale, niceTicks, type Span } from "../../../lib/chart/scale";
import { fixed } from "../../../lib/format/numbers";

/** Room above and below the figures inside a plot, shared with the charts' own margins. */
export const PLOT_MARGIN = 6;

/** On the axis of a plot of the larger height. */
const MOST_TICKS = 6;

/** Where everything of a chart lies, at a given width. */
export type ChartPlaces = {
  layout: ChartLayout;
  width: number;
  left: number;
  right: number;
  /** Pixels a subgroup is wide. */
  step: number;
  x: (subgroup: number) => number;
  /** What lies off its axis is held at the end of it. */
  location: (value: number) => number;
  spread: (value: number) => number;
  subgroupAt: (pixel: number) => number;
};

export function layoutOf(view: ChartView): ChartLayout {
  return chartLayout({
    locationLanes: Math.min(MOST_LANES, view.lanes.location),
    spreadLanes: Math.min(2, view.lanes.spread),
    ribbons: view.ribbons.length,
  });
}

export function placesFor(
  view: ChartView,
  { layout, width }: { layout: ChartLayout; width: number },
): ChartPlaces {
  const left = roomBeside(
    [...axisFigures(view.domains.location), ...axisFigures(view.domains.spread)],
    AXIS_WIDTH,
  );
  const right = Math.max(left + 40, width - roomBeside(limitFigures(view), RIGHT_WIDTH));
  const { from, to } = view.window;
  const x = linearScale({ low: from - 0.5, high: to + 0.5 }, { start: left, end: right });
  const vertical = (
    { top, height }: { top: number; height: number },
    domain: { low: number; high: number },
  ) => {
    const scale = linearScale(domain, { start: top + height - PLOT_MARGIN, end: top + PLOT_MARGIN });
    return (value: number) => scale(heldOn(domain, value));
  };
  const step = (right - left) / Math.max(1, to - from + 1);
  return {
    layout,
    width,
    left,
    right,
    step,
    x,
    location: vertical(layout.location, view.domains.location),
    spread: vertical(layout.spread, view.domains.spread),
    subgroupAt: (pixel) => Math.min(to, Math.max(from, Math.round(from - 0.5 + (pixel - left) / step))),
  };
}

function axisFigures(domain: Span): string[] {
  const { values, places } = niceTicks(domain, MOST_TICKS);
  return values.map((value) => fixed(value, places));
}

/** Of the limits that are written out beside the chart. */
function limitFigures({ runs, places }: ChartView): string[] {
  const last = runs.at(-1);
  if (!last) return [];
  const { location, spread } = last;
  return [location.upper, location.lower, spread?.upper ?? 0].map((value) => fixed(value, places + 1));
}
