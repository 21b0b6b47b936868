import { use } from "react";
import type { BoardRow } from "../../db/queries/board";
import type { SourceKind } from "../../lib/measurements/series";
import { words } from "../language/language";
import styles from "./board.module.css";
import { sourcesOf } from "./board-filter";

/** Where a feature's latest measurement came from, in one quiet line. */
export function OriginLine({ row }: { row: BoardRow }) {
  const { board, trade } = use(words());
  const origins: { kind: SourceKind | "lot"; code: string }[] = sourcesOf(row);
  if (row.latestLot !== null) origins.push({ kind: "lot", code: row.latestLot });
  if (origins.length === 0) return null;
  return (
    <p className={styles.origins}>
      <span className="only-read-out">{board.latestFrom} </span>
      {origins.map(({ kind, code }) => (
        <span key={kind}>
          {trade.sources[kind]} <b>{code}</b>{" "}
        </span>
      ))}
    </p>
  );
}
