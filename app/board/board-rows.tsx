import { Fragment } from "react";
import type { Words } from "../../lib/words/words";
import { DrawnStrip } from "../fittings/drawn-strip";
import { Link } from "../fittings/link";
import { type StateName, StateWord } from "../fittings/state-word";
import type { StripDrawing } from "../fittings/strip-drawing";
import styles from "./board.module.css";
import { AgoTime, type ShownMoment } from "./shown-moment";

/** A row of the board ready to be shown; see `shownRows`. */
export type ShownRow = {
  id: number;
  name: string;
  part: string;
  isKey: boolean;
  alarm: { id: number; state: StateName } | null;
  strip: StripDrawing;
  /** The first says why it stands in its band. */
  reasons: string[];
  /** Sources that move it, and those that did until somebody put them right. */
  suspects: Suspect[];
  answered: Suspect[];
  /** Where its latest measurement came from. */
  origins: { kind: string; code: string }[];
  ppkAtLeast: string | null;
  /** Whether `at` is the beginning of what is the matter, or its latest measurement. */
  isSince: boolean;
  at: ShownMoment | null;
};

export type Suspect = { id: number; name: string; since: string };

export type RowWords = Pick<
  Words["board"],
  "key" | "suspected" | "wasSuspected" | "latestFrom" | "ppkAtLeast" | "measured" | "since"
> & { notComputed: string };

/**
 * Features of one of the upper two bands, every one with its reason.
 *
 * In the browser, although nothing in it moves: what the server makes is sent twice, as the page and as the tree that
 * React goes on with, and for two hundred rows making, sending and taking up the tree cost three times what the page
 * did. So the tree holds what a row says, and the browser knows how a row is built.
 */
export function BoardRows({ rows, words }: { rows: readonly ShownRow[]; words: RowWords }) {
  return rows.map((row) => <BoardRow key={row.id} row={row} words={words} />);
}

function BoardRow({ row, words }: { row: ShownRow; words: RowWords }) {
  const { alarm, reasons, origins, at } = row;
  return (
    <li className={styles.row}>
      <div>
        <span className={styles.feature}>
          <Link href={`/features/${row.id}`}>{row.name}</Link>{" "}
          <span className={styles.part}>
            {`${row.part} `}
            {row.isKey ? <span className={styles.key}>{words.key}</span> : null}
          </span>
        </span>
        {alarm ? (
          <p className={styles.state}>
            <Link href={`/alarms/${alarm.id}`} className={styles.toAlarm}>
              <StateWord state={alarm.state} />
            </Link>
          </p>
        ) : null}
      </div>
      <DrawnStrip drawing={row.strip} />
      <div className={styles.why}>
        {reasons.map((reason, i) => (
          <p key={reason} className={i === 0 ? styles.reason : styles.also}>
            {reason}
          </p>
        ))}
        <Suspects head={words.suspected} suspects={row.suspects} />
        <Suspects head={words.wasSuspected} suspects={row.answered} />
        {origins.length > 0 ? (
          <p className={styles.origins}>
            <span className="only-read-out">{`${words.latestFrom} `}</span>
            {origins.map(({ kind, code }) => (
              <Fragment key={kind}>
                {`${kind}\u00a0`}
                <b>{code}</b>{" "}
              </Fragment>
            ))}
          </p>
        ) : null}
      </div>
      <dl className={styles.figures}>
        <div>
          <dt>{words.ppkAtLeast}</dt>
          <dd className={styles.bound}>{row.ppkAtLeast ?? <Missing words={words.notComputed} />}</dd>
        </div>
        <div>
          <dt>{row.isSince ? words.since : words.measured}</dt>
          <dd>
            <AgoTime at={at} />
          </dd>
        </div>
      </dl>
    </li>
  );
}

function Suspects({ head, suspects }: { head: string; suspects: readonly Suspect[] }) {
  if (suspects.length === 0) return null;
  return (
    <p className={styles.also}>
      {`${head} `}
      {suspects.map(({ id, name, since }, i) => (
        <span key={id}>
          {i > 0 ? ", " : ""}
          <Link href={`/drift?flag=${id}#evidence`}>{name}</Link>
          {`, ${since}`}
        </span>
      ))}
    </p>
  );
}

function Missing({ words }: { words: string }) {
  return (
    <>
      <span aria-hidden="true">–</span>
      <span className="only-read-out">{words}</span>
    </>
  );
}
