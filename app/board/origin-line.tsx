import type { BoardRow } from "../../db/queries/board";
import styles from "./board.module.css";
import { sourcesOf } from "./board-filter";

/** Where a feature's latest measurement came from, in one quiet line. */
export function OriginLine({ row }: { row: BoardRow }) {
  const origins: { kind: string; code: string }[] = sourcesOf(row);
  if (row.latestLot !== null) origins.push({ kind: "lot", code: row.latestLot });
  if (origins.length === 0) return null;
  return (
    <p className={styles.origins}>
      <span className="only-read-out">Latest measurement from </span>
      {origins.map(({ kind, code }) => (
        <span key={kind}>
          {kind} <b>{code}</b>{" "}
        </span>
      ))}
    </p>
  );
}
