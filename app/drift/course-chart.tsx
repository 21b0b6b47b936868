import { use } from "react";
import type { LotDifference } from "../../lib/drift/difference-chart";
import { fixed } from "../../lib/format/numbers";
import { KeepPicture } from "../fittings/keep-picture";
import { words } from "../language/language";
import styles from "./course-chart.module.css";

const WIDTH = 860;
const HEIGHT = 210;
const LEFT = 52;
const RIGHT = 64;
const TOP = 14;
const BOTTOM = 30;

export type CourseView = {
  /** Lots of the parts concerned, in time. */
  lots: string[];
  /** Place of the first lot after the change, and the lots it may as well have begun in. */
  changedFrom: number;
  interval: { from: number; to: number };
  /** The source that moved comes first. */
  courses: { code: string; lots: LotDifference[] }[];
};

/**
 * Each source against the rest of its lots on the features that moved, lot by lot: the one that moved as filled
 * diamonds with its 90 % band, its neighbours as hollow marks. Plain SVG, drawn on the server.
 */
export function CourseChart({ view, summary }: { view: CourseView; summary: string }) {
  const { driftPage, figures } = use(words());
  const { evidence: said } = driftPage;
  const { lots, changedFrom, interval } = view;
  const places = new Map(lots.map((code, place) => [code, place]));
  const courses = view.courses.map(({ code, lots: ofSource }) => ({
    code,
    points: ofSource.flatMap((one) => {
      const place = places.get(one.code);
      return place === undefined ? [] : [{ ...one, place }];
    }),
  }));
  const own = courses[0]?.points ?? [];
  const values = [
    ...courses.flatMap(({ points }) => points.map(({ difference }) => difference)),
    ...own.flatMap(({ difference, halfWidth }) => [difference - halfWidth, difference + halfWidth]),
  ];
  const top = Math.max(1, Math.ceil(Math.max(...values)));
  const bottom = Math.min(-1, Math.floor(Math.min(...values)));
  const x = (place: number) => LEFT + ((place + 0.5) * (WIDTH - LEFT - RIGHT)) / lots.length;
  const y = (value: number) => TOP + ((top - value) * (HEIGHT - TOP - BOTTOM)) / (top - bottom);
  const boundary = (x(changedFrom) + x(changedFrom - 1)) / 2;
  const step = Math.max(1, Math.ceil((top - bottom) / 8));
  const ticks = Array.from({ length: top - bottom + 1 }, (_, k) => bottom + k).filter(
    (tick) => tick % step === 0,
  );
  const labels = labelAt(courses.map(({ points }) => y(points.at(-1)?.difference ?? 0)));
  const labelled = lots.map((_, place) => place).filter((place) => (lots.length - 1 - place) % 6 === 0);
  return (
    <KeepPicture title={said.picture(courses[0]?.code ?? "")}>
      <section className={styles.frame} aria-label={said.course} {...REACHABLE}>
        <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={summary} className={styles.chart}>
          {ticks.map((tick) => (
            <g key={tick}>
              <line
                className={tick === 0 ? styles.zero : styles.line}
                x1={LEFT}
                x2={WIDTH - RIGHT}
                y1={y(tick)}
                y2={y(tick)}
              />
              <text x={LEFT - 8} y={y(tick) + 4} textAnchor="end">
                {tick === 0 ? "0" : fixed(tick, 0, { signed: true })}
              </text>
            </g>
          ))}
          <text
            x={14}
            y={y((top + bottom) / 2)}
            textAnchor="middle"
            transform={`rotate(-90 14 ${y((top + bottom) / 2)})`}
          >
            {figures.sigma}
          </text>
          {labelled.map((place) => (
            <text key={place} x={x(place)} y={HEIGHT - 10} textAnchor="middle">
              {lots[place]}
            </text>
          ))}
          <rect
            className={styles.interval}
            x={x(interval.from - 0.5)}
            width={x(interval.to + 0.5) - x(interval.from - 0.5)}
            y={TOP - 8}
            height={HEIGHT - BOTTOM - TOP + 8}
          />
          {own.map(({ place, difference, halfWidth }) => (
            <line
              key={place}
              className={styles.band}
              x1={x(place)}
              x2={x(place)}
              y1={y(difference + halfWidth)}
              y2={y(difference - halfWidth)}
            />
          ))}
          <line className={styles.boundary} x1={boundary} x2={boundary} y1={TOP - 8} y2={HEIGHT - BOTTOM} />
          <text className={styles.boundaryText} x={boundary + 6} y={TOP + 2}>
            {said.later(lots[changedFrom] ?? "")}
          </text>
          {courses.map((course, i) => {
            const at = course.points.map(({ place, difference }) => ({ x: x(place), y: y(difference) }));
            const look = i === 0 ? styles.moved : LOOKS[(i - 1) % LOOKS.length];
            return (
              <g key={course.code} className={look}>
                <path
                  className={styles.path}
                  d={at
                    .map((point, n) => `${n === 0 ? "M" : "L"}${point.x.toFixed(1)} ${point.y.toFixed(1)}`)
                    .join("")}
                />
                {at.map((point) => (
                  <path key={point.x} className={styles.mark} d={markAt(point, i)} />
                ))}
                <text className={styles.name} x={WIDTH - RIGHT + 10} y={(labels[i] ?? 0) + 4}>
                  {course.code}
                </text>
              </g>
            );
          })}
        </svg>
      </section>
    </KeepPicture>
  );
}

/** Not something to press, but a frame that scrolls must be reachable by keyboard (WCAG 2.2, 2.1.1). */
const REACHABLE = { tabIndex: 0 };

const LOOKS = [styles.first, styles.second, styles.third];
const LABEL_HEIGHT = 15;

/** So low that a name keeps off the lots below the axis. */
const LOWEST_LABEL = HEIGHT - BOTTOM - 4;

/** Heights of names at the end of the lines, moved apart where they would overlap and up where they would leave. */
function labelAt(wanted: readonly number[]): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]!);
  const placed = [...wanted];
  let above = Number.NEGATIVE_INFINITY;
  for (const i of order) {
    placed[i] = Math.max(placed[i]!, above + LABEL_HEIGHT);
    above = placed[i];
  }
  let below = LOWEST_LABEL + LABEL_HEIGHT;
  for (const i of order.reverse()) {
    placed[i] = Math.min(placed[i]!, below - LABEL_HEIGHT);
    below = placed[i];
  }
  return placed;
}

/** A diamond for the one that moved; circle, square and triangle for its neighbours. */
function markAt({ x, y }: { x: number; y: number }, i: number): string {
  if (i === 0) return `M${x} ${y - 5}l5 5l-5 5l-5 -5Z`;
  if (i % 3 === 1) return `M${x - 3.5} ${y}a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0 -7 0Z`;
  if (i % 3 === 2) return `M${x - 3.2} ${y - 3.2}h6.4v6.4h-6.4Z`;
  return `M${x} ${y - 4}l4 7h-8Z`;
}
