import { use } from "react";
import type { FlagRow } from "../../db/queries/drift";
import { datedSentence } from "../../lib/drift/flag-words";
import { nameOf } from "../../lib/drift/sentence";
import { dayIn } from "../../lib/format/times";
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
