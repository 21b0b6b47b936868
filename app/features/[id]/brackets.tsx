import { memo } from "react";
import type { Bracket } from "../../../lib/chart/brackets";
import { LANE, type PlotPlace } from "../../../lib/chart/chart-layout";
import type { ChartView } from "../../../lib/chart/chart-view";
import { fill } from "../../../lib/words/fill";
import styles from "./chart.module.css";
import type { ChartPlaces } from "./chart-places";

const FOOT = 4;

/** A bracket over the members of each pattern, with its short phrase; stacked where they overlap. */
export const Brackets = memo(function Brackets({
  view,
  places,
  more,
}: {
  view: ChartView;
  places: ChartPlaces;
  /** For those that find no room: "+{count} more". */
  more: string;
}) {
  const { brackets } = view;
  const { location, spread } = places.layout;
  return (
    <>
      <Over
        brackets={brackets.filter(({ pattern }) => pattern.chart === "location")}
        plot={location}
        places={places}
        more={more}
      />
      <Over
        brackets={brackets.filter(({ pattern }) => pattern.chart === "spread")}
        plot={spread}
        places={places}
        more={more}
      />
    </>
  );
});

function Over({
  brackets,
  plot,
  places,
  more,
}: {
  brackets: readonly Bracket[];
  plot: PlotPlace;
  places: ChartPlaces;
  more: string;
}) {
  const shown = brackets.filter(({ lane }) => lane < plot.lanes);
  const hidden = brackets.length - shown.length;
  return (
    <g>
      {shown.map((bracket) => {
        const y = plot.top - 6 - bracket.lane * LANE;
        const x1 = places.x(bracket.from) - Math.min(3, places.step / 2);
        const x2 = places.x(bracket.to) + Math.min(3, places.step / 2);
        const foot = (open: boolean) => (open ? "" : `v${FOOT}`);
        return (
          <g key={`${bracket.pattern.rule} ${bracket.pattern.firstAt} ${bracket.pattern.direction}`}>
            <path
              className={styles.bracket}
              d={`M${x1} ${y}${foot(bracket.openLeft)}M${x1} ${y}H${x2}${foot(bracket.openRight)}`}
            />
            <text
              className={styles.phrase}
              x={Math.min(x1, places.right - bracket.phrase.length * 6.2)}
              y={y - 3}
            >
              {bracket.phrase}
            </text>
          </g>
        );
      })}
      {hidden > 0 ? (
        <text className={styles.more} x={places.right + 6} y={plot.lanesTop + 12}>
          {fill(more, { count: hidden })}
        </text>
      ) : null}
    </g>
  );
}
