import { use } from "react";
import type { FeatureHistory } from "../../../db/queries/history";
import type { SuspectSubgroups } from "../../../lib/alarms/suspect-subgroups";
import { axisSpans, heldOn, isOff } from "../../../lib/chart/axis-spans";
import { type ChartPoint, chartPoints } from "../../../lib/chart/feature-chart";
import { limitRuns } from "../../../lib/chart/limit-runs";
import { markPath } from "../../../lib/chart/mark-path";
import { linearScale } from "../../../lib/chart/scale";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { joinSignals } from "../../../lib/evaluation/patterns";
import { fixed, measured, unitSign } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import type { ControlLimits } from "../../../lib/limits/limits-for-size";
import { countFigures, cutToPossible } from "../../../lib/plan/counts";
import type { CountPlan } from "../../../lib/plan/feature-plan";
import { KeepPicture } from "../../fittings/keep-picture";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import styles from "../alarm.module.css";

const WIDTH = 400;
const HEIGHT = 200;
const PLOT = { left: 6, top: 16, bottom: 168 };
/** Beside the plot, for the figures of limits: at least so much, and what a figure and its letters take. */
const BESIDE = { least: 72, gap: 8, letter: 8 };
/** Points of a glance; the whole chart is one press away. */
const SHOWN = 25;
/** Points after the latest signal, so that a return to normal shows. */
const AFTER = 6;

export type Glance = {
  points: ChartPoint[];
  runs: ReturnType<typeof limitRuns>;
  from: number;
  to: number;
  plot: "location" | "spread";
};

/** The last points up to the alarm's latest signal and some after it; of the chart on which it sounded. */
export function glanceAt(
  { series, setup }: FeatureHistory,
  evaluation: Evaluation,
  { latestAt, plot }: { latestAt: number; plot: "location" | "spread" },
): Glance | null {
  const { points, versions } = evaluation;
  if (points.count === 0) return null;
  let at = points.count - 1;
  while (at > 0 && points.at[at]! > latestAt) at--;
  const to = Math.min(points.count - 1, at + AFTER);
  const from = Math.max(0, to - SHOWN + 1);
  const window = { from, to };
  const { counts } = setup.plan;
  const shown = chartPoints(evaluation, { series, setup, patterns: joinSignals(evaluation.signals), window });
  const runs = limitRuns(points, { versions, window });
  return {
    points: counts ? shown.map((point) => plottedCount(point, counts)) : shown,
    runs: counts ? runs.map((run) => ({ ...run, location: plottedLimits(run.location, counts) })) : runs,
    plot,
    ...window,
  };
}

/** As the trade plots it: a share, a number per unit, or the number. */
function plottedCount(point: ChartPoint, counts: CountPlan): ChartPoint {
  return { ...point, mean: point.mean / countFigures(counts).per };
}

function plottedLimits(limits: ControlLimits, counts: CountPlan): ControlLimits {
  const { per } = countFigures(counts);
  const { lower, centre, upper } = cutToPossible(limits, counts);
  return { lower: lower / per, centre: centre / per, upper: upper / per };
}

/** A small chart without controls: points, limits, and a ground under the subgroups that are in doubt. */
export function LastPoints({
  glance,
  suspect,
  history,
  zone,
}: {
  glance: Glance;
  suspect: SuspectSubgroups | null;
  history: FeatureHistory;
  zone: string;
}) {
  const { alarms, charts, times } = use(words());
  const said = alarms.points;
  const { points, runs, from, to, plot } = glance;
  const { feature } = history;
  const { counts } = history.setup.plan;
  const shown = (value: number) =>
    counts
      ? fixed(value, countFigures(counts).places)
      : measured(value, { resolution: feature.resolution, extra: 1 });
  const hasLower = ({ lower }: ControlLimits) => lower > 0 || (plot === "location" && !counts);
  const limitsOf = (run: (typeof runs)[number]) => (plot === "location" ? run.location : run.spread);
  const plotted = (point: ChartPoint) => (plot === "location" ? point.mean : point.spread);
  const kept = runs.flatMap((run) => {
    const limits = limitsOf(run);
    return limits ? [limits.lower, limits.upper] : [];
  });
  const { near } = axisSpans(
    points.flatMap((point) => plotted(point) ?? []),
    { kept, margin: 0 },
  );
  const last = runs.at(-1);
  const limits = last && limitsOf(last);
  const figures = limits ? [limits.upper, limits.centre, ...(hasLower(limits) ? [limits.lower] : [])] : [];
  const longest = figures.reduce((most, value) => Math.max(most, shown(value).length), 0);
  const right = WIDTH - Math.max(BESIDE.least, BESIDE.gap + BESIDE.letter * longest);
  const scale = linearScale(near, { start: PLOT.bottom, end: PLOT.top });
  // A reading far off is drawn at the end of the axis, with its figure.
  const y = (value: number) => scale(heldOn(near, value));
  const step = (right - PLOT.left) / Math.max(1, to - from + 1);
  const x = (number: number) => PLOT.left + (number - from + 0.5) * step;
  const drawn = points.filter((point) => plotted(point) !== null);
  const unit = unitSign(feature.unit);
  const name = counts ? charts.counts[counts.chart] : said.names[feature.plan.chart][plot];

  return (
    <figure className={styles.glance}>
      <figcaption className={styles.soft}>{captionWords()}</figcaption>
      <KeepPicture title={said.tableCaption(name, points.length)} size="touch">
        <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} className={styles.picture} role="img" aria-label={spokenOf()}>
          {suspect && suspect.to >= from && suspect.from <= to ? (
            <rect
              className={styles.doubt}
              x={x(Math.max(from, suspect.from)) - step / 2}
              width={(Math.min(to, suspect.to) - Math.max(from, suspect.from) + 1) * step}
              y={PLOT.top - 10}
              height={PLOT.bottom - PLOT.top + 20}
            />
          ) : null}
          <path className={styles.limit} d={stepsOf(({ upper }) => upper)} />
          <path className={styles.centre} d={stepsOf(({ centre }) => centre)} />
          <path className={styles.limit} d={stepsOf((lines) => (hasLower(lines) ? lines.lower : null))} />
          <polyline
            className={styles.trace}
            points={drawn
              .filter(({ excluded }) => !excluded)
              .map((point) => `${x(point.number)},${y(plotted(point) as number)}`)
              .join(" ")}
          />
          {drawn.map((point) => {
            const isBeyond = plot === "location" ? point.beyond : point.spreadBeyond;
            const isMember = plot === "location" ? point.member : point.spreadMember;
            const look = point.excluded
              ? styles.left
              : isBeyond
                ? styles.beyond
                : isMember
                  ? styles.member
                  : styles.within;
            return (
              <path
                key={point.number}
                className={look}
                d={markPath(
                  isBeyond ? "diamond" : "disc",
                  x(point.number),
                  y(plotted(point) as number),
                  isBeyond ? 5 : 3.2,
                )}
              />
            );
          })}
          {drawn.map((point) => {
            const value = plotted(point) as number;
            return isOff(near, value) ? (
              <text
                key={point.number}
                className={styles.off}
                x={x(point.number) + (x(point.number) > (PLOT.left + right) / 2 ? -8 : 8)}
                y={y(value) + (value > near.high ? 5 : 3)}
                textAnchor={x(point.number) > (PLOT.left + right) / 2 ? "end" : "start"}
              >
                {`${value > near.high ? "↑" : "↓"} ${shown(value)}`}
              </text>
            ) : null;
          })}
          {limits ? (
            <g className={styles.figures}>
              {labelsOf(figures, y).map(({ value, at }) => (
                <text key={value} x={right + BESIDE.gap} y={at + 4}>
                  {shown(value)}
                </text>
              ))}
            </g>
          ) : null}
          <text className={styles.axis} x={PLOT.left} y={HEIGHT - 8}>
            {shortMomentIn(points[0]?.at ?? 0, zone, times)}
          </text>
          <text className={styles.axis} x={right} y={HEIGHT - 8} textAnchor="end">
            {shortMomentIn(points.at(-1)?.at ?? 0, zone, times)}
          </text>
        </svg>
      </KeepPicture>
      <details className={styles.fold}>
        <summary>{said.asTable}</summary>
        <Table
          caption={said.tableCaption(name, points.length)}
          rows={[...points].reverse()}
          rowKey={({ number }) => number}
          columns={[
            { key: "at", head: said.measured, cell: ({ at }) => shortMomentIn(at, zone, times), tight: true },
            {
              key: "value",
              head: name,
              figures: true,
              cell: (point) => {
                const value = plotted(point);
                return value === null ? "–" : <data value={value}>{shown(value)}</data>;
              },
            },
            { key: "word", head: said.judged, cell: (point) => said.words[judged(point)] },
          ]}
        />
      </details>
    </figure>
  );

  /** One line over all runs, joined where neighbours of one version have another size. */
  function stepsOf(lineOf: (lines: ControlLimits) => number | null): string {
    let path = "";
    let before: { to: number; version: number } | null = null;
    for (const run of runs) {
      const lines = limitsOf(run);
      const value = lines && lineOf(lines);
      if (value === null) {
        before = null;
        continue;
      }
      const isJoined = before?.to === run.from - 1 && before.version === run.version;
      path += `${isJoined ? "V" : `M${x(run.from) - step / 2} `}${y(value)}H${x(run.to) + step / 2}`;
      before = run;
    }
    return path;
  }

  function captionWords(): string {
    return said.caption(`${name}${unit ? `, ${unit}` : ""}`, points.length, suspect !== null);
  }

  function judged(point: ChartPoint): keyof typeof said.words {
    if (point.excluded) return "out";
    if (plot === "location" ? point.beyond : point.spreadBeyond) return "beyond";
    return (plot === "location" ? point.member : point.spreadMember) ? "pattern" : "within";
  }

  function spokenOf(): string {
    const newest = drawn.at(-1);
    const beyond = points.filter((point) => judged(point) === "beyond").length;
    return [
      said.of(name, points.length),
      newest ? said.newest(`${shown(plotted(newest) as number)} ${unit}`) : "",
      limits ? said.limits(shown(limits.lower), shown(limits.upper)) : "",
      said.beyond(beyond),
    ]
      .filter((part) => part !== "")
      .join(", ");
  }
}

const LABEL_HEIGHT = 15;

/** Pushed apart where they would touch. */
function labelsOf(values: readonly number[], y: (value: number) => number): { value: number; at: number }[] {
  let last = Number.NEGATIVE_INFINITY;
  return values.map((value) => {
    last = Math.max(y(value), last + LABEL_HEIGHT);
    return { value, at: last };
  });
}
