import { memo } from "react";
import { useCommonWords } from "#common-words";
import { RIBBON } from "../../../lib/chart/chart-layout";
import type { ChartView } from "../../../lib/chart/chart-view";
import { at } from "../../../lib/chart/mark-path";
import { MIXED, type RibbonRun } from "../../../lib/chart/ribbons";
import styles from "./chart.module.css";
import type { ChartPlaces } from "./chart-places";
import type { SourceLooks } from "./source-looks";

const INSET = 4;
const HEIGHT = RIBBON - INSET;
const LETTER = 6.2;
/** Of the colour of a source, along the foot of its segment. */
const FOOT = 4;

/**
 * One thin row for the lots and for each kind of source, aligned with the points. Neighbouring segments
 * take turns in tone, so that a change is seen; what was done to a source is a tick on its row.
 */
export const Ribbons = memo(function Ribbons({
  view,
  places,
  looks,
  mixed,
}: {
  view: ChartView;
  places: ChartPlaces;
  looks: SourceLooks | null;
  /** What a subgroup from several sources is called. */
  mixed: string;
}) {
  const { sources } = useCommonWords().trade;
  const { ribbonsTop } = places.layout;
  return (
    <g>
      <defs>
        <pattern
          id="mixed-sources"
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <path className={styles.hatch} d="M0 0V6" />
        </pattern>
      </defs>
      {view.ribbons.map(({ kind, runs, events }, row) => {
        const top = ribbonsTop + row * RIBBON + INSET / 2;
        return (
          <g key={kind}>
            <text className={styles.ribbonName} x={places.left - 8} y={top + HEIGHT / 2 + 4}>
              {sources[kind]}
            </text>
            {drawn(runs, { places, top, looks: looks?.kind === kind ? looks : null }).map(
              ({ key, className, fill, path }) => (
                <path key={key} className={className} d={path} style={fill ? { fill } : undefined} />
              ),
            )}
            {runs.map((run) => {
              const x = places.x(run.from - 0.5);
              const name = run.id === MIXED ? mixed : (view.names[kind][run.id] ?? "");
              return name !== "" && places.x(run.to + 0.5) - x > name.length * LETTER + 6 ? (
                <text
                  key={run.from}
                  className={`${styles.segment} ${run.id === MIXED ? styles.onHatch : ""}`}
                  x={x + 4}
                  y={top + HEIGHT / 2 + 4}
                >
                  {name}
                </text>
              ) : null;
            })}
            {events.map((event) => (
              <path
                key={event.id}
                className={styles.event}
                d={`M${places.x(event.place)} ${top - 2}V${top + HEIGHT + 2}M${places.x(event.place) - 4} ${top - 2}h8`}
              >
                <title>{event.title}</title>
              </path>
            ))}
          </g>
        );
      })}
    </g>
  );
});

type Drawn = { key: string; className?: string; fill?: string; path: string };

/** Segments of one look are one path: on a line whose fixtures take turns there is a segment for each point. */
function drawn(
  runs: readonly RibbonRun[],
  { places, top, looks }: { places: ChartPlaces; top: number; looks: SourceLooks | null },
): Drawn[] {
  const byLook = new Map<string, Drawn>();
  const add = (key: string, look: Omit<Drawn, "key" | "path">, path: string) => {
    const known = byLook.get(key);
    byLook.set(key, { key, ...look, path: (known?.path ?? "") + path });
  };
  const tones = { unstated: styles.unstated, even: styles.even, odd: styles.odd };
  runs.forEach((run, i) => {
    const x = places.x(run.from - 0.5);
    const width = Math.max(0.5, places.x(run.to + 0.5) - x);
    const box = (y: number, height: number) => `M${at(x)} ${y}h${at(width)}v${height}h${at(-width)}z`;
    const tone = run.id === 0 ? "unstated" : i % 2 === 0 ? "even" : "odd";
    add(tone, { className: tones[tone] ?? "" }, box(top, HEIGHT));
    if (run.id === MIXED) add("mixed", { fill: "url(#mixed-sources)" }, box(top, HEIGHT));
    if (looks && run.id > 0) {
      const { colour } = looks.of(run.id);
      add(colour, { fill: colour }, box(top + HEIGHT - FOOT, FOOT));
    }
  });
  return [...byLook.values()];
}
