import { use } from "react";
import type { AnsweredFlag, FlagRow } from "../../db/queries/drift";
import { datedSentence } from "../../lib/drift/flag-words";
import { nameOf } from "../../lib/drift/sentence";
import { dayIn, momentIn } from "../../lib/format/times";
import { Link } from "../fittings/link";
import { When } from "../fittings/when";
import { words } from "../language/language";
import styles from "./board.module.css";

/** A source that moved, in its one sentence; it leads to the evidence. */
export function MovingSource({ flag, zone, now }: { flag: FlagRow; zone: string; now: number }) {
  const { board, drift, times, trade } = use(words());
  const { id, source, latest } = flag;
  return (
    <li className={`${styles.row} ${styles.source}`}>
      <div className={styles.feature}>
        <Link href={`/drift?flag=${id}#evidence`}>{nameOf(source, drift)}</Link>
        <span className={styles.part}>{trade.sources[source.kind]}</span>
      </div>
      <div className={styles.why}>
        <p className={styles.reason}>
          {datedSentence(latest, dayIn(latest.onset.at, zone, times), { drift })}
        </p>
      </div>
      <dl className={styles.figures}>
        <div>
          <dt>{board.since}</dt>
          <dd>
            <When at={latest.onset.at} zone={zone} as="ago" now={now} />
          </dd>
        </div>
      </dl>
    </li>
  );
}

/** The sources that move a feature, with how far. */
export function SuspectLine({ flags }: { flags: readonly FlagRow[] }) {
  const { board, drift } = use(words());
  if (flags.length === 0) return null;
  return (
    <p className={styles.also}>
      {board.suspected}{" "}
      {flags.map(({ id, source, latest }, i) => (
        <span key={id}>
          {i > 0 ? ", " : ""}
          <Link href={`/drift?flag=${id}#evidence`}>{nameOf(source, drift)}</Link>,{" "}
          {board.sinceLot(latest.onset.lot)}
        </span>
      ))}
    </p>
  );
}

/** The sources that moved a feature until somebody put them right, while its alarm is still open. */
export function AnsweredLine({ flags, zone }: { flags: readonly AnsweredFlag[]; zone: string }) {
  const { board, drift, times, trade } = use(words());
  if (flags.length === 0) return null;
  return (
    <p className={styles.also}>
      {board.wasSuspected}{" "}
      {flags.map(({ id, source, latest, answer, endedAt }, i) => (
        <span key={id}>
          {i > 0 ? ", " : ""}
          <Link href={`/drift?flag=${id}#evidence`}>{nameOf(source, drift)}</Link>,{" "}
          {board.answered(latest.onset.lot, trade.events[answer.event], momentIn(endedAt, zone, times))}
        </span>
      ))}
    </p>
  );
}
