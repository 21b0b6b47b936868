import { use } from "react";
import type { BoardRow } from "../../../db/queries/board";
import type { FlagRow } from "../../../db/queries/drift";
import { latestNewsId } from "../../../db/queries/news";
import { shownState } from "../../../lib/alarms/alarm-state";
import type { GaugeDue } from "../../../lib/board/gauges-due";
import { datedSentence } from "../../../lib/drift/flag-words";
import { nameOf } from "../../../lib/drift/sentence";
import { partName } from "../../../lib/format/names";
import { agoWords, dayIn } from "../../../lib/format/times";
import { database } from "../../database";
import { FollowNews } from "../../fittings/follow-news";
import { StateShape, StateWord } from "../../fittings/state-word";
import { ToleranceStrip } from "../../fittings/tolerance-strip";
import { words } from "../../language/language";
import type { NewsAddress } from "../../news/this-tab";
import { plant } from "../../plant";
import { boardShown } from "../../shown/lengths";
import { type BoardFilter, filterBoard, sourcesOf } from "../board-filter";
import { BOARD_NEWS } from "../board-news";
import { gaugeDueWords, loadGaugesDue } from "../load-gauges";
import { placeFlags } from "../placed-flags";
import { latestOf, type PlacedRow, placeRows, withReasons } from "../placed-rows";
import styles from "./wall.module.css";
import { WallClock } from "./wall-clock";
import { WallPages } from "./wall-pages";

const CALM_MS = 10_000;

/** As many as are read from five metres on a screen of 16 : 9. */
const ROWS_ON_A_PAGE = 5;

/** Twelve pages, which come round in two and a half minutes; of more nobody would see the most urgent in time. */
const MOST_ROWS = 60;

/** The shift board for a screen on a wall: what needs a person, in large letters, and whether it is still true. */
export async function Wall({ filter, stream }: { filter: BoardFilter; stream: NewsAddress }) {
  const since = await latestNewsId(await database());
  const { name, now, zone, clock } = await plant();
  const said = await words();
  const { board, times } = said;
  const all = await boardShown(await database());
  const filtered = filterBoard(all, filter, said.charts.features);
  const { act, watch, quiet } = placeRows(filtered, now);
  const moving = (await placeFlags(await database(), filtered)).bands;
  const [actSources = [], watchSources = []] = [moving.get("act"), moving.get("watch")];
  const gauges = await loadGaugesDue(filtered, { now, zone });
  const things: (BoardRow | FlagRow | GaugeDue)[] = [
    ...actSources,
    ...act,
    ...watchSources,
    ...watch,
    ...gauges,
  ];
  const rows = things
    .slice(0, MOST_ROWS)
    .flatMap((thing): WallThing[] => ("feature" in thing ? withReasons([thing], now, said) : [thing]));
  const more = things.length - rows.length;
  const latest = latestOf(all);
  const pages = Array.from({ length: Math.ceil(rows.length / ROWS_ON_A_PAGE) }, (_, page) =>
    rows.slice(page * ROWS_ON_A_PAGE, (page + 1) * ROWS_ON_A_PAGE),
  );
  const place = Object.values(filter)
    .filter((text) => text !== "")
    .join(", ");

  return (
    <main id="content" tabIndex={-1} className={styles.wall} data-wall>
      <FollowNews since={since} kinds={BOARD_NEWS} calmMs={CALM_MS} stream={stream} />
      <header className={styles.head}>
        <h1>
          {name}
          {place ? <span className={styles.place}> {place}</span> : null}
        </h1>
        <ul className={styles.counts}>
          <Count tone="act" word={board.bands.act.title} count={actSources.length + act.length} />
          <Count
            tone="watch"
            word={board.bands.watch.title}
            count={watchSources.length + watch.length + gauges.length}
          />
          <Count tone="calm" word={board.quiet.title} count={quiet.length} />
        </ul>
        <WallClock
          madeAt={Date.now()}
          stoppedAt={clock}
          zone={zone}
          measured={latest === 0 ? board.noMeasurements : board.latest(agoWords(latest, now, times))}
          stream={stream}
          words={board.wall.clock}
        />
      </header>
      {pages.length === 0 ? (
        <p className={styles.nothing}>
          <StateShape tone="done" /> {all.length === 0 ? board.wall.noFeatures : board.wall.nothing}
        </p>
      ) : (
        <WallPages
          words={more > 0 ? `${board.wall.pages} ${board.wall.more(more)}` : board.wall.pages}
          pages={pages.map((page) => (
            <ul key={page[0] && keyOf(page[0])} className={styles.rows}>
              {page.map((row) =>
                "feature" in row ? (
                  <WallRow key={keyOf(row)} row={row} now={now} />
                ) : "code" in row ? (
                  <WallGauge key={keyOf(row)} gauge={row} />
                ) : (
                  <WallSource
                    key={keyOf(row)}
                    flag={row}
                    tone={actSources.includes(row) ? "act" : "watch"}
                    zone={zone}
                  />
                ),
              )}
            </ul>
          ))}
        />
      )}
    </main>
  );
}

type WallThing = PlacedRow | FlagRow | GaugeDue;

function keyOf(row: WallThing): string {
  if ("feature" in row) return `feature ${row.feature.id}`;
  return "code" in row ? `gauge ${row.id}` : `source ${row.id}`;
}

/** A gauge whose calibration is due. */
function WallGauge({ gauge }: { gauge: GaugeDue }) {
  const { board, trade } = use(words());
  return (
    <li className={`${styles.row} ${styles.watch}`}>
      <div>
        <h2>{gauge.code}</h2>
        <p className={styles.part}>{trade.sources.gauge}</p>
      </div>
      <p className={styles.reason}>{gaugeDueWords(gauge, board)}</p>
    </li>
  );
}

/** A source that moved, in its one sentence. */
function WallSource({ flag, tone, zone }: { flag: FlagRow; tone: "act" | "watch"; zone: string }) {
  const { drift, times, trade } = use(words());
  return (
    <li className={tone === "act" ? styles.row : `${styles.row} ${styles.watch}`}>
      <div>
        <h2>{nameOf(flag.source, drift)}</h2>
        <p className={styles.part}>{trade.sources[flag.source.kind]}</p>
      </div>
      <p className={`${styles.reason} ${styles.sentence}`}>
        {datedSentence(flag.latest, dayIn(flag.latest.onset.at, zone, times), { drift })}
      </p>
    </li>
  );
}

function Count({ tone, word, count }: { tone: "act" | "watch" | "calm"; word: string; count: number }) {
  return (
    <li>
      <StateShape tone={tone} /> <b>{count}</b> {word}
    </li>
  );
}

function WallRow({ row, now }: { row: PlacedRow; now: number }) {
  const { times } = use(words());
  const { feature, standing, alarm, placing } = row;
  const state = alarm && alarm.withdrawnAt === null ? shownState(alarm) : null;
  const sources = sourcesOf(row).map(({ code }) => code);
  return (
    <li className={placing.band === "act" ? styles.row : `${styles.row} ${styles.watch}`}>
      <div>
        <h2>{feature.name}</h2>
        <p className={styles.part}>
          {partName(feature.part)} {state ? <StateWord state={state} /> : null}
        </p>
      </div>
      <div>
        <p className={styles.reason}>{placing.reason}</p>
        <p className={styles.part}>
          {placing.since === null ? "" : `${agoWords(placing.since, now, times)}. `}
          {sources.slice(0, 3).join(" · ")}
        </p>
      </div>
      <ToleranceStrip feature={feature} standing={standing} />
    </li>
  );
}
