import { StateShape } from "../fittings/state-word";
import { type Turner, TurnerLinks } from "../fittings/turner-links";
import styles from "./board.module.css";
import { BoardRows, type RowWords, type ShownRow } from "./board-rows";
import { GaugesDue, type ShownGauge } from "./gauges-due";
import { MovingSource, type ShownSource } from "./moving-source";

/** One of the upper two bands ready to be shown. Sources and gauges that are due stand around the first page's features. */
export type BandView = {
  isEmpty: boolean;
  count: string;
  /** Which of its features these are; null on the first page. */
  place: string | null;
  sources: ShownSource[];
  rows: ShownRow[];
  gauges: ShownGauge[];
  turner: Turner | null;
};

/** Every feature with its reason, the most urgent first. */
export function BandSection({
  band,
  view,
  head,
  words,
}: {
  band: "act" | "watch";
  view: BandView;
  head: { title: string; words: string };
  words: RowWords;
}) {
  const { isEmpty, count, place, sources, rows, gauges, turner } = view;
  return (
    <section className={`${styles.band} ${styles[band]}`} aria-labelledby={`band-${band}`}>
      <header className={styles.bandHead}>
        <h2 id={`band-${band}`}>
          <StateShape tone={band} /> {head.title}
        </h2>
        <p className={styles.count}>{count}</p>
        {place === null ? null : <p className={styles.count}>{place}</p>}
        {isEmpty ? null : <p className={styles.meaning}>{head.words}</p>}
      </header>
      {isEmpty ? null : (
        <ul className={styles.rows}>
          {sources.map((source) => (
            <MovingSource key={`source ${source.id}`} source={source} since={words.since} />
          ))}
          <BoardRows rows={rows} words={words} />
          <GaugesDue gauges={gauges} />
        </ul>
      )}
      <TurnerLinks turner={turner} />
    </section>
  );
}
