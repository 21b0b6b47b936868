"use client";

import { type KeyboardEvent, useEffect, useRef, useState } from "react";
import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";
import { GridRow } from "./grid-row";
import type { GridView } from "./grid-view";
import styles from "./source-grid.module.css";

const STEPS: Record<string, readonly [rows: number, columns: number]> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/** A table in which the arrow keys lead from cell to cell is a grid (WAI-ARIA 1.2). */
const WALKED = { role: "grid" };

type Place = { row: number; column: number };

/**
 * Sources by lots. Each cell says its figure, and a line below the grid says everything about the cell that is
 * pointed at or reached with the arrow keys; Home and End lead to the ends of a row.
 */
export function SourceGrid({
  view,
  chosen,
  words: text,
}: {
  view: GridView;
  chosen: string | null;
  words: Words["driftPage"]["grid"]["walk"] & { title: string };
}) {
  const rows = view.groups.flatMap((group) => group.rows);
  const columns = view.lots.length;
  const frame = useRef<HTMLDivElement>(null);
  const first = rows.findIndex(({ source }) => source === chosen);
  const [current, setCurrent] = useState<Place>({ row: Math.max(0, first), column: columns - 1 });
  const [words, setWords] = useState("");

  // The newest lots stand at the end, and they are what is looked for.
  useEffect(() => {
    if (frame.current) frame.current.scrollLeft = frame.current.scrollWidth;
  }, []);

  function move(event: KeyboardEvent) {
    const to = target(event.key, current, { rows: rows.length, columns });
    if (!to) return;
    event.preventDefault();
    setCurrent(to);
    frame.current?.querySelector<HTMLElement>(`[data-cell="${to.row} ${to.column}"]`)?.focus();
  }

  return (
    <div className={styles.grid}>
      <div className={styles.frame} ref={frame}>
        <table {...WALKED} aria-label={text.title} className={styles.table} onKeyDown={move}>
          <thead>
            <tr>
              <th scope="col" className={styles.corner}>
                {text.source}
              </th>
              {view.lots.map(({ code, day }) => (
                <th key={code} scope="col" title={fill(text.from, { lot: code, day })} className={styles.lot}>
                  <span>{code}</span>
                </th>
              ))}
            </tr>
          </thead>
          {view.groups.map(({ kind, isCompared, rows: ofKind }) => (
            <tbody key={kind}>
              <tr>
                <th scope="rowgroup" colSpan={columns + 1} className={styles.kind}>
                  <span>
                    {text.kinds[kind]}
                    {isCompared ? "" : text.alone}
                  </span>
                </th>
              </tr>
              {ofKind.map((row) => {
                const place = rows.indexOf(row);
                return (
                  <GridRow
                    key={row.source}
                    row={row}
                    place={place}
                    lots={view.lots}
                    reachable={place === current.row ? current.column : null}
                    isChosen={row.source === chosen}
                    onFocus={(column, said) => {
                      setCurrent({ row: place, column });
                      setWords(said);
                    }}
                    onPoint={setWords}
                    words={text}
                  />
                );
              })}
            </tbody>
          ))}
        </table>
      </div>
      <p className={styles.words}>{words === "" ? text.point : words}</p>
    </div>
  );
}

/** Where a key leads; null for a key that leads nowhere. */
function target(key: string, { row, column }: Place, size: { rows: number; columns: number }): Place | null {
  if (key === "Home") return { row, column: 0 };
  if (key === "End") return { row, column: size.columns - 1 };
  const step = STEPS[key];
  if (!step) return null;
  return {
    row: Math.min(size.rows - 1, Math.max(0, row + step[0])),
    column: Math.min(size.columns - 1, Math.max(0, column + step[1])),
  };
}
