import { use } from "react";
import { Link } from "../../fittings/link";
import { StateShape } from "../../fittings/state-word";
import { words } from "../../language/language";
import styles from "../alarm.module.css";

export type ShownPiece = {
  id: number;
  serial: string;
  /** Its readings and when it was measured, in words. */
  values: string;
  /** Its lot and fixture, in words; empty where none are stated. */
  origin: string;
  isOutside: boolean;
  decision: "none" | "hold" | "release" | "scrap";
  /** Who decided so, and when. */
  decided: string;
  elsewhere: readonly number[];
};

const DECIDED = {
  none: null,
  hold: "watch",
  release: "done",
  scrap: "act",
} as const;

/** One piece: chosen by pressing anywhere on its row. */
export function PieceRow({
  id,
  serial,
  values,
  origin,
  isOutside,
  decision,
  decided,
  elsewhere,
  isChoice,
}: ShownPiece & { isChoice: boolean }) {
  const { pieces: said } = use(words()).alarms;
  const tone = DECIDED[decision];
  const line = (
    <span className={styles.pieceWords}>
      <span>
        <strong>{serial}</strong>
        {origin === "" ? "" : `, ${origin}`} <span className={styles.soft}>{values}</span>
      </span>
      {isOutside ? <span className={styles.outside}>{said.outside}</span> : null}
      {tone !== null && decision !== "none" ? (
        <span className={styles.decided}>
          <StateShape tone={tone} /> {said.decided[decision]} <span className={styles.soft}>{decided}</span>
        </span>
      ) : null}
    </span>
  );
  return (
    <div className={styles.piece}>
      {isChoice ? (
        <label className={styles.choice}>
          <input type="checkbox" name="pieces" value={id} />
          {line}
        </label>
      ) : (
        <span className={styles.choice}>{line}</span>
      )}
      {elsewhere.length > 0 ? (
        <p className={styles.elsewhere}>
          {elsewhere.map((alarm) => (
            <Link key={alarm} href={`/alarms/${alarm}`}>
              {said.elsewhere(alarm)}
            </Link>
          ))}
        </p>
      ) : null}
    </div>
  );
}
