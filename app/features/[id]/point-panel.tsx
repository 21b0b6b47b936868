import { RIBBON_KINDS_WORDS } from "../../../lib/chart/chart-layout";
import { RIBBON_KINDS } from "../../../lib/chart/feature-chart";
import { MIXED } from "../../../lib/chart/ribbons";
import { fixed } from "../../../lib/format/numbers";
import styles from "./chart.module.css";
import { type ChartView, LOCATION_NAMES, numberOf, SPREAD_NAMES } from "./chart-view";

type Point = ChartView["points"][number];

/** What is known of the chosen point. Its place is kept free, so that nothing moves when it fills. */
export function PointPanel({ view, point }: { view: ChartView; point: Point | null }) {
  return (
    <aside className={styles.panel} aria-label="The chosen subgroup">
      {point ? (
        <Known view={view} point={point} />
      ) : (
        <p className={styles.soft}>
          Touch a point, or walk along the chart with the arrow keys, to see its pieces, sources and readings.
        </p>
      )}
    </aside>
  );
}

function Known({ view, point }: { view: ChartView; point: Point }) {
  const { unit, places } = view;
  const figure = (value: number, extra: number) => `${fixed(value, places + extra)}${unit ? ` ${unit}` : ""}`;
  return (
    <>
      <h3>Subgroup {numberOf(point.number)}</h3>
      <p className={styles.soft}>{point.when}</p>
      {point.excluded ? <p>Left out: {point.cause ?? "no cause stated"}.</p> : null}
      <dl className={styles.facts}>
        <div>
          <dt>{LOCATION_NAMES[view.chart]}</dt>
          <dd>
            {figure(point.mean, view.chart === "i-mr" ? 0 : 1)}
            {point.z === null ? "" : ` (z ${fixed(point.z, 2, { signed: true })})`}
          </dd>
        </div>
        {point.spread === null ? null : (
          <div>
            <dt>{SPREAD_NAMES[view.chart]}</dt>
            <dd>
              {figure(point.spread, view.chart === "xbar-s" ? 1 : 0)}
              {point.spreadZ === null ? "" : ` (z ${fixed(point.spreadZ, 2, { signed: true })})`}
            </dd>
          </div>
        )}
        {RIBBON_KINDS.map((kind) => {
          const id = point.sources[kind];
          if (id === 0) return null;
          return (
            <div key={kind}>
              <dt>{RIBBON_KINDS_WORDS[kind]}</dt>
              <dd>{id === MIXED ? "several" : (view.names[kind][id] ?? "")}</dd>
            </div>
          );
        })}
      </dl>
      <table className={styles.readings}>
        <caption>
          {point.readings.length === 1 ? "Its reading" : `Its ${point.readings.length} readings`}
        </caption>
        <thead>
          <tr>
            <th scope="col">piece</th>
            <th scope="col">{unit || "value"}</th>
            {view.isReduced ? <th scope="col">as measured</th> : null}
            <th scope="col">°C</th>
          </tr>
        </thead>
        <tbody>
          {point.readings.map((reading) => (
            <tr key={reading.position}>
              <td>{view.names.piece[reading.piece] ?? "–"}</td>
              <td>{fixed(reading.value, places + (view.isReduced ? 1 : 0))}</td>
              {view.isReduced ? <td>{fixed(reading.measured, places)}</td> : null}
              <td>{reading.partTemp === null ? "–" : fixed(reading.partTemp, 1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
