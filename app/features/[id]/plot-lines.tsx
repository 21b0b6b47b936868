import { memo } from "react";
import type { ChartView } from "../../../lib/chart/chart-view";
import { at } from "../../../lib/chart/mark-path";
import styles from "./chart.module.css";
import { type ChartPlaces, PLOT_MARGIN } from "./chart-places";

export const PLOTS = ["location", "spread"] as const;

/** What moves with the window behind the marks: the lines of the grid at its ticks, and the line that joins the points. */
export const PlotLines = memo(function PlotLines({
  view,
  places,
  ticks,
}: {
  view: ChartView;
  places: ChartPlaces;
  /** Subgroups. */
  ticks: readonly number[];
}) {
  return PLOTS.map((plot) => {
    const { top, height } = places.layout[plot];
    const upright = `V${top + height - PLOT_MARGIN}`;
    return (
      <g key={plot}>
        <path
          className={styles.grid}
          d={ticks.map((tick) => `M${at(places.x(tick))} ${top + PLOT_MARGIN}${upright}`).join("")}
        />
        <path className={styles.joining} d={joined(view, places, plot)} />
      </g>
    );
  });
});

/** Points that are left out of the means are passed over. */
function joined({ points }: ChartView, places: ChartPlaces, plot: (typeof PLOTS)[number]): string {
  const corners = points.flatMap(({ number, mean, spread, excluded }) => {
    const value = plot === "spread" ? spread : excluded ? null : mean;
    return value === null ? [] : [`${at(places.x(number))} ${at(places[plot](value))}`];
  });
  return corners.length === 0 ? "" : `M${corners.join("L")}`;
}
