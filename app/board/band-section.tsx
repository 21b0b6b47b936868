import { use } from "react";
import type { BoardRow } from "../../db/queries/board";
import type { GaugeDue } from "../../lib/board/gauges-due";
import { paged } from "../../lib/format/paged";
import type { Words } from "../../lib/words/words";
import { PageTurner } from "../fittings/page-turner";
import { StateShape } from "../fittings/state-word";
import { words } from "../language/language";
import styles from "./board.module.css";
import { BoardRows, type RowWords } from "./board-rows";
import { GaugesDue } from "./gauges-due";
import { MovingSource } from "./moving-source";
import type { PlacedFlags } from "./placed-flags";
import { withReasons } from "./placed-rows";
import { shownRows } from "./shown-rows";

/** Five screens of a desk: as many as somebody goes through before they look for another way. */
const ROWS_ON_A_PAGE = 25;

/**
 * One of the upper two bands, every feature with its reason, the most urgent first. Sources and gauges that are due
 * stand around the features of the first page.
 */
export function BandSection({
  band,
  rows,
  page,
  toPage,
  gauges = [],
  flags,
  zone,
  now,
}: {
  band: "act" | "watch";
  rows: readonly BoardRow[];
  page: number;
  toPage: (page: number) => string;
  gauges?: readonly GaugeDue[];
  flags: PlacedFlags;
  zone: string;
  now: number;
}) {
  const said = use(words());
  const { board, figures } = said;
  const head = board.bands[band];
  const sources = flags.bands.get(band) ?? [];
  const isEmpty = rows.length === 0 && gauges.length === 0 && sources.length === 0;
  const shown = paged(rows, { page, size: ROWS_ON_A_PAGE });
  const isFirst = shown.page === 1;
  return (
    <section className={`${styles.band} ${styles[band]}`} aria-labelledby={`band-${band}`}>
      <header className={styles.bandHead}>
        <h2 id={`band-${band}`}>
          <StateShape tone={band} /> {head.title}
        </h2>
        <p className={styles.count}>
          {isEmpty
            ? head.none
            : board.counts({ sources: sources.length, features: rows.length, gauges: gauges.length })}
        </p>
        {isFirst ? null : (
          <p className={styles.count}>{board.turning.shown(shown.from, shown.to, shown.count)}</p>
        )}
        {isEmpty ? null : <p className={styles.meaning}>{head.words}</p>}
      </header>
      {isEmpty ? null : (
        <ul className={styles.rows}>
          {isFirst
            ? sources.map((flag) => (
                <MovingSource key={`source ${flag.id}`} flag={flag} zone={zone} now={now} />
              ))
            : null}
          <BoardRows
            rows={shownRows(withReasons(shown.rows, now, said), { flags, now, zone, words: said })}
            words={rowWords(board, figures.notComputed)}
          />
          {isFirst ? <GaugesDue gauges={gauges} /> : null}
        </ul>
      )}
      <PageTurner
        label={board.turning.of(head.title)}
        shown={shown}
        toPage={(other) => `${toPage(other)}#band-${band}`}
      />
    </section>
  );
}

function rowWords(
  { key, suspected, wasSuspected, latestFrom, ppkAtLeast, measured, since }: Words["board"],
  notComputed: string,
): RowWords {
  return { key, suspected, wasSuspected, latestFrom, ppkAtLeast, measured, since, notComputed };
}
