import { useCommonWords } from "#common-words";
import type { ChartView } from "../../../lib/chart/chart-view";
import { MIXED, RIBBON_KINDS } from "../../../lib/chart/ribbons";
import { fixed, withUnit } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import { fill } from "../../../lib/words/fill";
import styles from "./chart.module.css";
import { type ChartWords, extraPlaces, numberOf } from "./chart-view";
import { useReadingsOf } from "./shown-history";

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
  const { trade, times } = useCommonWords();
  const { sources } = trade;
  const { panel: said } = words;
  const { unit, places } = view;
  const extra = extraPlaces(view);
  const { readings, fault } = useReadingsOf(point.number);
  const figure = (value: number, more: number) => withUnit(fixed(value, places + more), unit);
  return (
    <>
      <h3>{fill(said.title, { number: numberOf(point.number) })}</h3>
      <p className={styles.soft}>{shortMomentIn(point.at, view.zone, times)}</p>
      {point.excluded ? <p>{fill(said.leftOut, { cause: point.cause ?? said.noCause })}</p> : null}
      <dl className={styles.facts}>
        <div>
          <dt>{words.location[view.chart]}</dt>
          <dd>
            {figure(point.mean, extra.location)}
            {point.z === null ? "" : ` (z ${fixed(point.z, 2, { signed: true })})`}
          </dd>
        </div>
        {point.spread === null ? null : (
          <div>
            <dt>{words.spread[view.chart]}</dt>
            <dd>
              {figure(point.spread, extra.spread)}
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
      {fault === null ? null : <p className={styles.soft}>{fill(said.notRead, { why: fault })}</p>}
      <table className={styles.readings}>
        <caption>
          {point.size === 1 ? said.reading : fill(said.readings, { count: readings?.length ?? point.size })}
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
          {readings?.map((reading) => (
            <tr key={reading.place}>
              <td>{reading.piece || "–"}</td>
              <td>{fixed(reading.value, places + extra.reading)}</td>
              {view.isReduced ? <td>{fixed(reading.measured, places)}</td> : null}
              <td>{reading.partTemp === null ? "–" : fixed(reading.partTemp, 1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
