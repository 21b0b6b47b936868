import { Link } from "../../fittings/link";
import { StateShape } from "../../fittings/state-word";
import styles from "../alarm.module.css";

export type ShownPiece = {
  id: number;
  serial: string;
  /** Its readings and when it was measured, in words. */
  values: string;
  isOutside: boolean;
  decision: "none" | "hold" | "release" | "scrap";
  /** Who decided so, and when. */
  decided: string;
  elsewhere: readonly number[];
};

const DECIDED = {
  none: null,
  hold: { tone: "watch", word: "on hold" },
  release: { tone: "done", word: "released" },
  scrap: { tone: "act", word: "scrapped" },
} as const;

/** One piece: chosen by pressing anywhere on its row. */
export function PieceRow({
  id,
  serial,
  values,
  isOutside,
  decision,
  decided,
  elsewhere,
  isChoice,
}: ShownPiece & { isChoice: boolean }) {
  const state = DECIDED[decision];
  const words = (
    <span className={styles.pieceWords}>
      <span>
        <strong>{serial}</strong> <span className={styles.soft}>{values}</span>
      </span>
      {isOutside ? <span className={styles.outside}>outside tolerance</span> : null}
      {state ? (
        <span className={styles.decided}>
          <StateShape tone={state.tone} /> {state.word} <span className={styles.soft}>{decided}</span>
        </span>
      ) : null}
    </span>
  );
  return (
    <div className={styles.piece}>
      {isChoice ? (
        <label className={styles.choice}>
          <input type="checkbox" name="pieces" value={id} />
          {words}
        </label>
      ) : (
        <span className={styles.choice}>{words}</span>
      )}
      {elsewhere.length > 0 ? (
        <p className={styles.elsewhere}>
          {elsewhere.map((alarm) => (
            <Link key={alarm} href={`/alarms/${alarm}`}>
              also on hold under alarm {alarm}
            </Link>
          ))}
        </p>
      ) : null}
    </div>
  );
}
