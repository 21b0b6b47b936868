import { useCommonWords } from "#common-words";
import { RIBBON } from "../../../lib/chart/chart-layout";
import { MIXED } from "../../../lib/chart/ribbons";
import styles from "./chart.module.css";
import type { ChartPlaces } from "./chart-places";
import type { ChartView } from "./chart-view";
import type { SourceLooks } from "./source-looks";

const INSET = 4;
const LETTER = 6.2;

/**
 * One thin row for the lots and for each kind of source, aligned with the points. Neighbouring segments
 * take turns in tone, so that a change is seen; what was done to a source is a tick on its row.
 */
export function Ribbons({
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
        const height = RIBBON - INSET;
        return (
          <g key={kind}>
            <text className={styles.ribbonName} x={places.left - 8} y={top + height / 2 + 4}>
              {sources[kind]}
            </text>
            {runs.map((run, i) => {
              const x = places.x(run.from - 0.5);
              const width = places.x(run.to + 0.5) - x;
              const name = run.id === MIXED ? mixed : run.id === 0 ? "" : (view.names[kind][run.id] ?? "");
              const look = looks?.kind === kind && run.id > 0 ? looks.of(run.id) : null;
              const tone = run.id === 0 ? styles.unstated : i % 2 === 0 ? styles.even : styles.odd;
              return (
                <g key={run.from}>
                  <rect className={tone} x={x} y={top} width={Math.max(0.5, width)} height={height} />
                  {run.id === MIXED ? (
                    <rect fill="url(#mixed-sources)" x={x} y={top} width={width} height={height} />
                  ) : null}
                  {look ? (
                    <rect
                      x={x}
                      y={top + height - 4}
                      width={Math.max(0.5, width)}
                      height={4}
                      style={{ fill: look.colour }}
                    />
                  ) : null}
                  {width > name.length * LETTER + 6 ? (
                    <text className={styles.segment} x={x + 4} y={top + height / 2 + 4}>
                      {name}
                    </text>
                  ) : null}
                </g>
              );
            })}
            {events.map((event) => (
              <path
                key={`${event.place} ${event.label}`}
                className={styles.event}
                d={`M${places.x(event.place)} ${top - 2}V${top + height + 2}M${places.x(event.place) - 4} ${top - 2}h8`}
              >
                <title>{event.title}</title>
              </path>
            ))}
          </g>
        );
      })}
    </g>
  );
}
