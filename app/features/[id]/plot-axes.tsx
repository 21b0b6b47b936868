"use client";

import { CartesianGrid, ComposedChart, Line, XAxis, YAxis } from "recharts";
import type { PlotPlace } from "../../../lib/chart/chart-layout";
import { niceTicks, type Span } from "../../../lib/chart/scale";
import { fixed } from "../../../lib/format/numbers";
import styles from "./chart.module.css";
import { PLOT_MARGIN } from "./chart-places";

/**
 * Axis, grid and line of one of the two charts. Marks, limits and brackets lie over it and share its
 * scales; a fixed size, explicit ticks and no animation keep it quick.
 */
export function PlotAxes({
  place,
  width,
  left,
  right,
  domain,
  numbers,
  values,
  ticks,
}: {
  place: PlotPlace;
  width: number;
  /** Where the plot begins and ends. */
  left: number;
  right: number;
  domain: Span;
  numbers: readonly number[];
  values: readonly (number | null)[];
  ticks: readonly number[];
}) {
  const y = niceTicks(domain, place.height > 200 ? 6 : 4);
  const from = numbers[0] ?? 0;
  const to = numbers.at(-1) ?? 0;
  return (
    <div className={styles.plot} style={{ top: place.top, height: place.height }}>
      <ComposedChart
        width={width}
        height={place.height}
        margin={{ top: PLOT_MARGIN, bottom: PLOT_MARGIN, left: 0, right: width - right }}
        data={numbers.map((x, i) => ({ x, y: values[i] }))}
        accessibilityLayer={false}
      >
        <CartesianGrid stroke="var(--rule)" strokeWidth={1} vertical={true} />
        <XAxis dataKey="x" type="number" domain={[from - 0.5, to + 0.5]} ticks={[...ticks]} hide />
        <YAxis
          type="number"
          width={left}
          domain={[domain.low, domain.high]}
          ticks={y.values}
          tickFormatter={(value: number) => fixed(value, y.places)}
          tick={{ fill: "var(--ink-soft)", fontSize: 12 }}
          tickLine={false}
          axisLine={{ stroke: "var(--edge)" }}
          interval={0}
        />
        <Line
          dataKey="y"
          type="linear"
          stroke="var(--ink-soft)"
          strokeWidth={1}
          dot={false}
          activeDot={false}
          isAnimationActive={false}
          connectNulls
        />
      </ComposedChart>
    </div>
  );
}
