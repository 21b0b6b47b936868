import { useCommonWords } from "#common-words";
import { MIXED, RIBBON_KINDS } from "../../../lib/chart/ribbons";
import { fixed } from "../../../lib/format/numbers";
import { fill } from "../../../lib/words/fill";
import styles from "./chart.module.css";
import { type ChartView, type ChartWords, numberOf } from "./chart-view";

type Point = ChartView["points"][number];

/** What is known of the chosen point. Its place is kept free, so that nothing moves when it fills. */
export function PointPanel({
  view,
  point,
  words,
}: {
  view: ChartView;
  point: Point | null;
  words: ChartWords;
}) {
  return (
    <aside className={styles.panel} aria-label={words.panel.label}>
      {point ? (
        <Known view={view} point={point} words={words} />
      ) : (
        <p className={styles.soft}>{words.panel.choose}</p>
      )}
    </aside>
  );
}

function Known({ view, point, words }: { view: ChartView; point: Point; words: ChartWords }) {
  const { sources } = useCommonWords().trade;
  const { panel: said } = words;
  const { unit, places } = view;
  const figure = (value: number, extra: number) => `${fixed(value, places + extra)}${unit ? ` ${unit}` : ""}`;
  return (
    <>
      <h3>{fill(said.title, { number: numberOf(point.number) })}</h3>
      <p className={styles.soft}>{point.when}</p>
      {point.excluded ? <p>{fill(said.leftOut, { cause: point.cause ?? said.noCause })}</p> : null}
      <dl className={styles.facts}>
        <div>
          <dt>{words.location[view.chart]}</dt>
          <dd>
            {figure(point.mean, view.chart === "i-mr" ? 0 : 1)}
            {point.z === null ? "" : ` (z ${fixed(point.z, 2, { signed: true })})`}
          </dd>
        </div>
        {point.spread === null ? null : (
          <div>
            <dt>{words.spread[view.chart]}</dt>
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
              <dt>{sources[kind]}</dt>
              <dd>{id === MIXED ? words.several : (view.names[kind][id] ?? "")}</dd>
            </div>
          );
        })}
      </dl>
      <table className={styles.readings}>
        <caption>
          {point.readings.length === 1 ? said.reading : fill(said.readings, { count: point.readings.length })}
        </caption>
        <thead>
          <tr>
            <th scope="col">{said.piece}</th>
            <th scope="col">{unit || said.value}</th>
            {view.isReduced ? <th scope="col">{said.asMeasured}</th> : null}
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
