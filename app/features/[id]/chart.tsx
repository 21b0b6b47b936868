"use client";

import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef, useState } from "react";
import { useCommonWords } from "#common-words";
import { RIBBON } from "../../../lib/chart/chart-layout";
import type { ChartView } from "../../../lib/chart/chart-view";
import { movedBy } from "../../../lib/chart/overview-window";
import type { RibbonKind } from "../../../lib/chart/ribbons";
import { wholeTicks } from "../../../lib/chart/scale";
import { fixed, withUnit } from "../../../lib/format/numbers";
import { dayIn, shortMomentIn, type TimeWords } from "../../../lib/format/times";
import { fill } from "../../../lib/words/fill";
import { SelectField } from "../../fittings/fields";
import { KeepPicture } from "../../fittings/keep-picture";
import { Brackets } from "./brackets";
import styles from "./chart.module.css";
import { layoutOf, placesFor } from "./chart-places";
import { type ChartWords, extraPlaces, numberOf } from "./chart-view";
import { setFocusedPoint, useFocusedPoint } from "./focused-point";
import { Legend } from "./legend";
import { LimitLines } from "./limit-lines";
import { Marks } from "./marks";
import { EdgeFigures, OffAxis, type OffPoint, offAxis } from "./off-axis";
import { PlotAxes } from "./plot-axes";
import { PLOTS, PlotLines } from "./plot-lines";
import { PointPanel } from "./point-panel";
import { Ribbons } from "./ribbons";
import { useChartView, useSteps } from "./shown-history";
import { sourceLooks } from "./source-looks";
import { useWidth } from "./use-width";

/** Where the names of the plots begin. */
const NAMES_LEFT = 10;
/** On a phone the sentence below the chart needs all of its width. */
const NARROW = 420;

/**
 * The control chart: location above spread, ribbons of sources below, all on one axis of subgroups. One tab
 * stop; the arrow keys walk over the points of the whole history, and what is known of the chosen one stands beside the
 * chart.
 */
export function Chart({ colour, words }: { colour: RibbonKind | null; words: ChartWords }) {
  const view = useChartView();
  return view ? <DrawnChart view={view} colour={colour} words={words} /> : null;
}

function DrawnChart({
  view: given,
  colour: initialColour,
  words,
}: {
  view: ChartView;
  colour: RibbonKind | null;
  words: ChartWords;
}) {
  const { trade, times } = useCommonWords();
  const { sources } = trade;
  const frame = useRef<HTMLDivElement>(null);
  const width = useWidth(frame);
  const [colour, setColour] = useState<RibbonKind | null>(initialColour);
  const [isWhole, setWhole] = useState(false);
  const view = useMemo(() => (isWhole ? { ...given, domains: given.wholeDomains } : given), [given, isWhole]);
  const chosen = useFocusedPoint();
  const { count, go } = useSteps();
  const layout = useMemo(() => layoutOf(view), [view]);
  const places = useMemo(() => placesFor(view, { layout, width }), [view, layout, width]);
  const looks = useMemo(() => (colour === null ? null : sourceLooks(view, colour)), [view, colour]);
  const kinds = view.ribbons.map((ribbon) => ribbon.kind);
  const { from, to } = view.window;
  const point = view.points.find(({ number }) => number === chosen) ?? null;
  const off = useMemo(() => offPoints(given), [given]);
  const figure = (value: number) => fixed(value, view.places + 1);
  const ticks = useMemo(() => {
    const most = Math.max(3, Math.floor(width / 110));
    return wholeTicks({ low: numberOf(from), high: numberOf(to) }, most).map((tick) => tick - 1);
  }, [width, from, to]);

  useEffect(() => () => setFocusedPoint(null), []);

  function walk(event: KeyboardEvent): void {
    const at = point?.number ?? null;
    const next = stepFor(event.key, at, { from, to, last: count - 1 });
    if (next === undefined) return;
    event.preventDefault();
    setFocusedPoint(next);
    if (next === null || (next >= from && next <= to)) return;
    // Whoever walks past the end of the window takes it along.
    const window = movedBy(view.window, next < from ? next - from : next - to, { count });
    go(window, { asked: window });
  }

  function choose(event: PointerEvent<HTMLDivElement>): void {
    const box = event.currentTarget.getBoundingClientRect();
    const x = event.clientX - box.left;
    if (x < places.left - places.step || x > places.right + places.step) return;
    setFocusedPoint(places.subgroupAt(x));
  }

  return (
    <KeepPicture title={words.title} about={daysOf(view, times, words.about)}>
      <div className={styles.whole}>
        <div className={styles.tools}>
          <SelectField
            label={words.colourBy}
            value={colour ?? ""}
            onChange={(event) =>
              setColour(event.target.value === "" ? null : (event.target.value as RibbonKind))
            }
            choices={[
              { value: "", label: words.nothing },
              ...kinds.map((kind) => ({ value: kind, label: sources[kind] })),
            ]}
          />
          <Legend
            looks={looks}
            hasExcluded={view.points.some(({ excluded }) => excluded)}
            words={words.legend}
          />
        </div>
        <div className={styles.sides}>
          <div
            ref={frame}
            className={styles.frame}
            style={{ height: layout.height }}
            // A slider is what walking along one axis is, and what screen readers announce as such.
            role="slider"
            tabIndex={0}
            aria-label={words.walk}
            aria-valuemin={numberOf(from)}
            aria-valuemax={numberOf(to)}
            aria-valuenow={numberOf(point?.number ?? to)}
            aria-valuetext={spoken(view, point?.number ?? to, { words, times })}
            onKeyDown={walk}
            onPointerMove={(event) => event.pointerType === "mouse" && choose(event)}
            onPointerDown={choose}
          >
            {PLOTS.map((plot) => (
              <PlotAxes
                key={plot}
                top={layout[plot].top}
                height={layout[plot].height}
                width={width}
                left={places.left}
                right={places.right}
                low={view.domains[plot].low}
                high={view.domains[plot].high}
              />
            ))}
            <svg
              className={styles.over}
              width={width}
              height={layout.height}
              aria-hidden="true"
              focusable="false"
            >
              <PlotLines view={view} places={places} ticks={ticks} />
              <LimitLines view={view} places={places} />
              <Brackets view={view} places={places} more={words.more} />
              <Marks view={view} places={places} looks={looks} />
              {isWhole
                ? null
                : PLOTS.map((plot) => (
                    <EdgeFigures
                      key={plot}
                      off={off[plot]}
                      x={(number) => places.x(number - 1)}
                      y={places[plot]}
                      right={places.right}
                      figure={figure}
                    />
                  ))}
              <text className={styles.plotName} x={NAMES_LEFT} y={layout.location.top - 5}>
                {words.location[view.chart]}
                {view.unit ? `, ${view.unit}` : ""}
              </text>
              <text className={styles.plotName} x={NAMES_LEFT} y={layout.spread.top - 5}>
                {words.spread[view.chart]}
                {view.unit ? `, ${view.unit}` : ""}
              </text>
              {ticks.map((tick) => (
                <text key={tick} className={styles.tick} x={places.x(tick)} y={layout.axisTop + 14}>
                  {numberOf(tick)}
                </text>
              ))}
              <text
                className={styles.axisName}
                x={width < NARROW ? NAMES_LEFT : places.left}
                y={layout.axisTop + 31}
              >
                {daysOf(view, times, words.axis) || words.subgroup}
              </text>
              <Ribbons view={view} places={places} looks={looks} mixed={words.mixed} />
              {point ? (
                <line
                  data-passing=""
                  className={styles.cursor}
                  x1={places.x(point.number)}
                  x2={places.x(point.number)}
                  y1={layout.location.top}
                  y2={layout.ribbonsTop + view.ribbons.length * RIBBON}
                />
              ) : null}
            </svg>
          </div>
          <PointPanel view={view} point={point} words={words} />
        </div>
        <OffAxis
          off={off.location.length > 0 ? off.location : off.spread}
          figure={(value) => withUnit(figure(value), view.unit)}
          isWhole={isWhole}
          onWhole={setWhole}
          words={words.offAxis}
        />
      </div>
    </KeepPicture>
  );
}

function offPoints({ points, domains }: ChartView): Record<"location" | "spread", OffPoint[]> {
  const numbered = (figureOf: (point: ChartView["points"][number]) => number | null) =>
    points.map((point) => ({ number: numberOf(point.number), value: figureOf(point) }));
  return {
    location: offAxis(
      numbered(({ mean }) => mean),
      domains.location,
    ),
    spread: offAxis(
      numbered(({ spread }) => spread),
      domains.spread,
    ),
  };
}

function stepFor(
  key: string,
  at: number | null,
  { from, to, last }: { from: number; to: number; last: number },
): number | null | undefined {
  const within = (number: number) => Math.min(last, Math.max(0, number));
  switch (key) {
    case "ArrowRight":
    case "ArrowUp":
      return within(at === null ? to : at + 1);
    case "ArrowLeft":
    case "ArrowDown":
      return within(at === null ? to : at - 1);
    case "PageDown":
      return within((at ?? to) - 10);
    case "PageUp":
      return within((at ?? to) + 10);
    case "Home":
      return from;
    case "End":
      return to;
    case "Escape":
      return null;
    default:
      return undefined;
  }
}

/** One point in a breath, for who cannot see it. */
function spoken(
  view: ChartView,
  number: number,
  { words, times }: { words: ChartWords; times: TimeWords },
): string {
  const point = view.points.find((one) => one.number === number);
  if (!point) return words.noSubgroup;
  const parts = [
    `${numberOf(number)}`,
    shortMomentIn(point.at, view.zone, times),
    `${words.location[view.chart]} ${withUnit(fixed(point.mean, view.places + extraPlaces(view).location), view.unit)}`,
    point.excluded ? words.leftOut : point.beyond ? words.beyond : "",
    point.member && !point.beyond ? words.pattern : "",
  ];
  return parts.filter(Boolean).join(", ");
}

/** A text with the days of the window; empty where it has none. */
function daysOf({ points, part, zone }: ChartView, times: TimeWords, text: string): string {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return "";
  return fill(text, { part, from: dayIn(first.at, zone, times), to: dayIn(last.at, zone, times) });
}
