"use client";

import { memo } from "react";
import { CartesianGrid, ComposedChart, XAxis, YAxis, type YAxisTickContentProps } from "recharts";
import { linearScale, niceTicks } from "../../../lib/chart/scale";
import { fixed } from "../../../lib/format/numbers";
import styles from "./chart.module.css";
import { PLOT_MARGIN } from "./chart-places";

/**
 * The upright axis of one of the two charts, with its grid. Line, marks, limits and brackets lie over it and share its
 * scale. It stays as it is while the window moves on, so that a step costs none of it: recharts draws in two passes, and
 * with the line among its parts that was nearly half of each step. Where grid and figures go is said here, for recharts
 * would measure each figure to find out, and that lays out the whole page.
 */
export const PlotAxes = memo(function PlotAxes({
  top,
  height,
  width,
  left,
  right,
  low,
  high,
}: {
  top: number;
  height: number;
  width: number;
  /** Where the plot begins and ends. */
  left: number;
  right: number;
  /** What the axis spans. */
  low: number;
  high: number;
}) {
  const y = niceTicks({ low, high }, height > 200 ? 6 : 4);
  const up = linearScale({ low, high }, { start: height - PLOT_MARGIN, end: PLOT_MARGIN });
  return (
    <div className={styles.plot} style={{ top, height }}>
      <ComposedChart
        width={width}
        height={height}
        margin={{ top: PLOT_MARGIN, bottom: PLOT_MARGIN, left: 0, right: width - right }}
        accessibilityLayer={false}
      >
        <CartesianGrid
          stroke="var(--rule)"
          strokeWidth={1}
          vertical={false}
          horizontalPoints={y.values.map(up)}
        />
        <XAxis type="number" domain={[0, 1]} allowDataOverflow hide />
        <YAxis
          type="number"
          width={left}
          domain={[low, high]}
          // Without data of its own recharts draws an axis only where its ends are final.
          allowDataOverflow
          ticks={y.values}
          tick={({ x, y: at, payload }: YAxisTickContentProps) => (
            <text x={x} y={Number(at) + 4} textAnchor="end" fill="var(--ink-soft)" fontSize={12}>
              {fixed(Number(payload.value), y.places)}
            </text>
          )}
          tickLine={false}
          axisLine={{ stroke: "var(--edge)" }}
          interval={0}
        />
      </ComposedChart>
    </div>
  );
});
