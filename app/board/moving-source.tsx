import { Link } from "../fittings/link";
import styles from "./board.module.css";
import { AgoTime, type ShownMoment } from "./shown-moment";

/** A source that moved, ready to be shown. */
export type ShownSource = { id: number; name: string; kind: string; sentence: string; since: ShownMoment };

/** In its one sentence; it leads to the evidence. */
export function MovingSource({ source, since }: { source: ShownSource; since: string }) {
  return (
    <li className={`${styles.row} ${styles.source}`}>
      <div className={styles.feature}>
        <Link href={`/drift?flag=${source.id}#evidence`}>{source.name}</Link>
        <span className={styles.part}>{source.kind}</span>
      </div>
      <div className={styles.why}>
        <p className={styles.reason}>{source.sentence}</p>
      </div>
      <dl className={styles.figures}>
        <div>
          <dt>{since}</dt>
          <dd>
            <AgoTime at={source.since} />
          </dd>
        </div>
      </dl>
    </li>
  );
}
