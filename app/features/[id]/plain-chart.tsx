"use client";

import { type KeyboardEvent, type PointerEvent, useMemo, useRef, useState } from "react";
import { type AxisSpans, heldOn } from "../../../lib/chart/axis-spans";
import { AXIS_WIDTH, RIGHT_WIDTH, roomBeside } from "../../../lib/chart/chart-layout";
import { type Mark, markPath, SOURCE_MARKS } from "../../../lib/chart/mark-path";
import { linearScale, niceTicks, type Span, wholeTicks } from "../../../lib/chart/scale";
import { fixed } from "../../../lib/format/numbers";
import { KeepPicture } from "../../fittings/keep-picture";
import styles from "./chart.module.css";
import type { ChartWords } from "./chart-view";
import { EdgeFigures, OffAxis, type OffPoint, offAxis } from "./off-axis";
import { useWidth } from "./use-width";

/** One place on the axis. `values` has one figure for each line of points; null where there is none. */
export type PlainPoint = {
  /** As people count it. */
  number: number;
  values: (number | null)[];
  /** One for each of `values`. */
  beyond: boolean[];
  /** Which of the `groups` it belongs to; absent where there are none. */
  group?: number;
  /** Everything of the point in a breath. */
  spoken: string;
};

/** A chart that is ready to be drawn: one or two lines of points between limits that may step at every point. */
export type PlainView = {
  /** Of the axis, with its unit. */
  name: string;
  /** What is counted along the other axis: "Subgroup", "Lot". */
  along: string;
  places: number;
  axis: AxisSpans;
  points: PlainPoint[];
  limits: { name: string; kind: "limit" | "centre" | "faint"; values: (number | null)[] }[];
  /** Names of what the marks tell apart; empty where all are alike. */
  groups: string[];
};

const TOP = 26;
const HEIGHT = 250;
const AXIS = 44;
const MARGIN = 6;

/**
 * A chart with limits and marks. One tab stop; the arrow keys walk over the points, and the chosen one is told
 * in words below.
 */
export function PlainChart({
  view: given,
  label,
  words,
}: {
  view: PlainView;
  label: string;
  words: { about: string; noPoint: string; offAxis: ChartWords["offAxis"] };
}) {
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  /** By its number: where the window has moved on, the same place is another point. */
  const [chosenNumber, setChosenNumber] = useState<number | null>(null);
  const [isWhole, setWhole] = useState(false);
  const view = useMemo(
    () => ({ ...given, domain: isWhole ? given.axis.whole : given.axis.near }),
    [given, isWhole],
  );
  const { points, places } = view;
  const off = useMemo(() => offPoints(given), [given]);
  const figure = (value: number) => fixed(value, places);
  const last = points.length - 1;
  const chosenAt = points.findIndex(({ number }) => number === chosenNumber);
  const chosen = chosenAt < 0 ? null : chosenAt;
  const setChosen = (next: number) => setChosenNumber(points[next]?.number ?? null);
  const { x, y, left, right, step } = useMemo(() => scalesFor(view, width), [view, width]);
  const ticks = niceTicks(view.domain, 6);
  const along = wholeTicks(
    { low: points[0]?.number ?? 1, high: points[last]?.number ?? 1 },
    Math.max(3, Math.floor(width / 110)),
  );
  const first = points[0]?.number ?? 1;
  const at = chosen ?? last;

  function walk(event: KeyboardEvent): void {
    const moves: Record<string, number> = {
      ArrowRight: 1,
      ArrowUp: 1,
      ArrowLeft: -1,
      ArrowDown: -1,
      PageUp: 10,
      PageDown: -10,
    };
    const next =
      event.key === "Home"
        ? 0
        : event.key === "End"
          ? last
          : event.key in moves
            ? at + moves[event.key]!
            : null;
    if (next === null) return;
    event.preventDefault();
    setChosen(Math.min(last, Math.max(0, next)));
  }

  function choose(event: PointerEvent<HTMLDivElement>): void {
    const box = event.currentTarget.getBoundingClientRect();
    const place = Math.round((event.clientX - box.left - left) / step - 0.5);
    if (place >= 0 && place <= last) setChosen(place);
  }

  return (
    <KeepPicture title={view.name}>
      <div className={styles.whole}>
        {view.groups.length > 0 ? <Groups names={view.groups} about={words.about} /> : null}
        <div
          ref={frame}
          className={styles.frame}
          style={{ height: TOP + HEIGHT + AXIS }}
          // A slider is what walking along one axis is, and what screen readers announce as such.
          role="slider"
          tabIndex={0}
          aria-label={label}
          aria-valuemin={first}
          aria-valuemax={points[last]?.number ?? first}
          aria-valuenow={points[at]?.number ?? first}
          aria-valuetext={points[at]?.spoken ?? words.noPoint}
          onKeyDown={walk}
          onPointerDown={choose}
          onPointerMove={(event) => event.pointerType === "mouse" && choose(event)}
        >
          <svg
            className={styles.over}
            width={width}
            height={TOP + HEIGHT + AXIS}
            aria-hidden="true"
            focusable="false"
          >
            <text className={styles.plotName} x={10} y={TOP - 9}>
              {view.name}
            </text>
            {ticks.values.map((tick) => (
              <g key={tick}>
                <path className={styles.grid} d={`M${left} ${y(tick)}H${right}`} />
                <text className={styles.reading} x={left - 8} y={y(tick) + 4}>
                  {fixed(tick, ticks.places)}
                </text>
              </g>
            ))}
            {view.limits.map(({ name, kind, values }) => (
              <path key={name} className={styles[kind]} d={steps(values, x, y)} />
            ))}
            {lastLabels(view, y).map(({ value, place }) => (
              <text key={`${value} ${place}`} className={styles.limitName} x={right + 5} y={place + 4}>
                {fixed(value, places)}
              </text>
            ))}
            {linesOf(points).map(({ name, values }) => (
              <path key={name} className={styles.joining} d={joined(values, x, y)} />
            ))}
            {points.map((point, i) =>
              LINES.map((name, line) => {
                const value = point.values[line] ?? null;
                return value === null ? null : (
                  <PointMark
                    key={`${point.number} ${name}`}
                    beyond={point.beyond[line] ?? false}
                    group={point.group}
                    at={[x(i), y(value)]}
                    step={step}
                  />
                );
              }),
            )}
            {isWhole ? null : (
              <EdgeFigures off={off} x={(number) => x(number - first)} y={y} right={right} figure={figure} />
            )}
            {along.map((tick) => (
              <text key={tick} className={styles.tick} x={x(tick - first)} y={TOP + HEIGHT + 15}>
                {tick}
              </text>
            ))}
            <text className={styles.axisName} x={left} y={TOP + HEIGHT + 33}>
              {view.along}
            </text>
            {chosen === null ? null : (
              <path data-passing="" className={styles.cursor} d={`M${x(chosen)} ${TOP}V${TOP + HEIGHT}`} />
            )}
          </svg>
        </div>
        <p className={styles.told}>{points[at]?.spoken}</p>
        <OffAxis off={off} figure={figure} isWhole={isWhole} onWhole={setWhole} words={words.offAxis} />
      </div>
    </KeepPicture>
  );
}

function offPoints({ points, axis }: PlainView): OffPoint[] {
  return offAxis(
    points.flatMap(({ number, values }) => values.map((value) => ({ number, value }))),
    axis.near,
  );
}

function scalesFor(
  { points, domain, limits, places }: Omit<PlainView, "axis"> & { domain: Span },
  width: number,
) {
  const ticks = niceTicks(domain, 6);
  const left = roomBeside(
    ticks.values.map((tick) => fixed(tick, ticks.places)),
    AXIS_WIDTH,
  );
  const beside = limits.flatMap(({ values }) => values.findLast((value) => value !== null) ?? []);
  const room = roomBeside(
    beside.map((value) => fixed(value, places)),
    RIGHT_WIDTH,
  );
  const right = Math.max(left + 40, width - room);
  const up = linearScale(domain, { start: TOP + HEIGHT - MARGIN, end: TOP + MARGIN });
  return {
    left,
    right,
    step: (right - left) / Math.max(1, points.length),
    x: linearScale({ low: -0.5, high: points.length - 0.5 }, { start: left, end: right }),
    y: (value: number) => up(heldOn(domain, value)),
  };
}

type Scale = (value: number) => number;

/** A level piece for each point, joined where neighbours have one. */
function steps(values: readonly (number | null)[], x: Scale, y: Scale): string {
  let path = "";
  let isDown = false;
  values.forEach((value, i) => {
    if (value === null) {
      isDown = false;
      return;
    }
    path += `${isDown ? "V" : `M${x(i - 0.5)} `}${y(value)}H${x(i + 0.5)}`;
    isDown = true;
  });
  return path;
}

function joined(values: readonly (number | null)[], x: Scale, y: Scale): string {
  const places = values.flatMap((value, i) => (value === null ? [] : [`${x(i)} ${y(value)}`]));
  return places.length === 0 ? "" : `M${places.join("L")}`;
}

/** At most two lines of points, as of the upper and the lower cumulative sum. */
const LINES = ["first", "second"] as const;

function linesOf(points: readonly PlainPoint[]): { name: string; values: (number | null)[] }[] {
  return LINES.map((name, line) => ({ name, values: points.map(({ values }) => values[line] ?? null) }));
}

const LABEL_HEIGHT = 13;

/** The latest limits in figures; pushed apart where they would touch. */
function lastLabels({ limits }: PlainView, y: Scale): { value: number; place: number }[] {
  const values = limits
    .filter(({ kind }) => kind !== "faint")
    .flatMap(({ values: all }) => all.findLast((value) => value !== null) ?? [])
    .sort((a, b) => b - a);
  let before = Number.NEGATIVE_INFINITY;
  return values.map((value) => {
    const place = Math.max(y(value), before + LABEL_HEIGHT);
    before = place;
    return { value, place };
  });
}

function PointMark({
  beyond,
  group,
  at,
  step,
}: {
  beyond: boolean;
  group: number | undefined;
  at: [number, number];
  step: number;
}) {
  const radius = Math.max(1.8, Math.min(4, step * 0.42));
  if (group === undefined) {
    const mark: Mark = beyond ? "diamond" : "disc";
    return (
      <path
        className={beyond ? styles.beyond : styles.within}
        d={markPath(mark, at[0], at[1], beyond ? Math.max(4, radius + 0.8) : radius)}
      />
    );
  }
  return (
    <>
      {beyond ? <path className={styles.about} d={markPath("diamond", at[0], at[1], radius + 3.5)} /> : null}
      <path
        className={styles.coloured}
        style={{ fill: groupColour(group) }}
        d={markPath(groupMark(group), at[0], at[1], radius + 0.4)}
      />
    </>
  );
}

function groupMark(group: number): Mark {
  return SOURCE_MARKS[group % SOURCE_MARKS.length]!;
}

function groupColour(group: number): string {
  return `var(--series-${(group % SOURCE_MARKS.length) + 1})`;
}

function Groups({ names, about }: { names: readonly string[]; about: string }) {
  return (
    <ul className={styles.legend} data-legend="">
      {names.map((name, group) => (
        <li key={name}>
          <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true" focusable="false">
            <path d={markPath(groupMark(group), 8, 8, 4)} style={{ fill: groupColour(group) }} />
          </svg>{" "}
          {name}
        </li>
      ))}
      <li>
        <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true" focusable="false">
          <path className={styles.about} d={markPath("diamond", 8, 8, 6)} />
        </svg>{" "}
        {about}
      </li>
    </ul>
  );
}
