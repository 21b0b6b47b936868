import { memo } from "react";
import type { ChartView } from "../../../lib/chart/chart-view";
import type { LimitRun } from "../../../lib/chart/limit-runs";
import { fixed } from "../../../lib/format/numbers";
import styles from "./chart.module.css";
import type { ChartPlaces } from "./chart-places";

const LABEL_GAP = 5;
const LABEL_HEIGHT = 13;

/** Limits and centre lines as steps, the baseline's ground, phase labels, and a marker where one was asked for. */
export const LimitLines = memo(function LimitLines({
  view,
  places,
}: {
  view: ChartView;
  places: ChartPlaces;
}) {
  const { layout } = places;
  const left = (number: number) => places.x(number - 0.5);
  const right = (number: number) => places.x(number + 0.5);
  const bottom = layout.spread.top + layout.spread.height;
  return (
    <g>
      {view.baseline ? (
        <rect
          className={styles.baseline}
          x={left(view.baseline.from)}
          width={right(view.baseline.to) - left(view.baseline.from)}
          y={layout.location.top}
          height={bottom - layout.location.top}
        />
      ) : null}
      {view.phases.map(({ from, to, label }, i) => (
        <g key={from}>
          {i > 0 ? (
            <line className={styles.phase} x1={left(from)} x2={left(from)} y1={4} y2={bottom} />
          ) : null}
          {right(to) - left(from) > label.length * 6 ? (
            <text className={styles.phaseName} x={left(from) + 4} y={14}>
              {label}
            </text>
          ) : null}
        </g>
      ))}
      {view.runs.map((run) => (
        <g key={run.from}>
          <Lines run={run} of="location" x={[left(run.from), right(run.to)]} y={places.location} />
          {run.spread ? (
            <Lines run={run} of="spread" x={[left(run.from), right(run.to)]} y={places.spread} />
          ) : null}
        </g>
      ))}
      <LastLabels view={view} places={places} />
      {view.marker ? (
        <g>
          <line
            className={styles.marker}
            x1={places.x(view.marker.place)}
            x2={places.x(view.marker.place)}
            y1={20}
            y2={layout.ribbonsTop}
          />
          <text
            className={styles.markerName}
            x={places.x(view.marker.place) + 4}
            y={layout.location.top + 12}
          >
            {view.marker.label}
          </text>
        </g>
      ) : null}
    </g>
  );
});

function Lines({
  run,
  of,
  x,
  y,
}: {
  run: LimitRun;
  of: "location" | "spread";
  x: [number, number];
  y: (value: number) => number;
}) {
  const limits = run[of];
  if (!limits) return null;
  const hasLower = of === "location" || limits.lower > 0;
  return (
    <>
      <path className={styles.limit} d={`M${x[0]} ${y(limits.upper)}H${x[1]}`} />
      <path className={styles.centre} d={`M${x[0]} ${y(limits.centre)}H${x[1]}`} />
      {hasLower ? <path className={styles.limit} d={`M${x[0]} ${y(limits.lower)}H${x[1]}`} /> : null}
    </>
  );
}

/** The limits of the last run in figures, on the right; pushed apart where they would touch. */
function LastLabels({ view, places }: { view: ChartView; places: ChartPlaces }) {
  const run = view.runs.at(-1);
  if (!run) return null;
  const labels = [
    ...labelsOf([run.location.upper, run.location.centre, run.location.lower], places.location),
    ...(run.spread
      ? labelsOf(
          run.spread.lower > 0
            ? [run.spread.upper, run.spread.centre, run.spread.lower]
            : [run.spread.upper, run.spread.centre],
          places.spread,
        )
      : []),
  ];
  return (
    <>
      {labels.map(({ value, y }) => (
        <text key={`${value} ${y}`} className={styles.limitName} x={places.right + LABEL_GAP} y={y + 4}>
          {fixed(value, view.places + 1)}
        </text>
      ))}
    </>
  );
}

function labelsOf(
  values: readonly number[],
  scale: (value: number) => number,
): { value: number; y: number }[] {
  let last = Number.NEGATIVE_INFINITY;
  return values.map((value) => {
    const y = Math.max(scale(value), last + LABEL_HEIGHT);
    last = y;
    return { value, y };
  });
}
