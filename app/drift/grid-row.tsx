import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";
import type { CellView, GridView, RowView } from "./grid-view";
import styles from "./source-grid.module.css";

/** One source with its cells; `reachable` is the column that Tab leads to, if it is in this row. */
export function GridRow({
  row,
  place,
  lots,
  reachable,
  isChosen,
  onFocus,
  onPoint,
  words: said,
}: {
  row: RowView;
  place: number;
  lots: GridView["lots"];
  reachable: number | null;
  isChosen: boolean;
  onFocus: (column: number, words: string) => void;
  onPoint: (words: string) => void;
  words: Words["driftPage"]["grid"]["walk"];
}) {
  const ticks = (column: number) => row.ticks.filter((tick) => tick.place === column);
  return (
    <tr className={isChosen ? styles.chosen : undefined}>
      <th scope="row" className={styles.source}>
        {row.code}
      </th>
      {row.cells.map((cell, column) => {
        const before = ticks(column);
        const after = column === lots.length - 1 ? ticks(lots.length) : [];
        const words = wordsOf(row, cell, { lot: lots[column]!, events: [...before, ...after], column }, said);
        return (
          <td
            key={lots[column]!.code}
            data-cell={`${place} ${column}`}
            tabIndex={column === reachable ? 0 : -1}
            aria-label={words}
            className={classOf(cell, { isSince: row.since === column })}
            onFocus={() => onFocus(column, words)}
            onPointerEnter={() => onPoint(words)}
          >
            {before.length > 0 ? <EventTick side="start" /> : null}
            {cell === null || cell.strength === null ? null : (
              <span className={styles.figure}>{cell.figure}</span>
            )}
            {after.length > 0 ? <EventTick side="end" /> : null}
          </td>
        );
      })}
    </tr>
  );
}

/** A wedge on the boundary at which something was done to the source. */
function EventTick({ side }: { side: "start" | "end" }) {
  return (
    <svg
      className={side === "start" ? styles.tickStart : styles.tickEnd}
      viewBox="0 0 10 8"
      aria-hidden="true"
      focusable="false"
    >
      <path d="M0 0h10L5 8Z" />
    </svg>
  );
}

function wordsOf(
  row: RowView,
  cell: CellView | null,
  { lot, events, column }: { lot: GridView["lots"][number]; events: RowView["ticks"]; column: number },
  said: Words["driftPage"]["grid"]["walk"],
): string {
  const lines = [cell?.words ?? fill(said.didNotRun, { source: row.code, lot: lot.code, day: lot.day })];
  if (row.since === column) lines.push(said.moved);
  for (const { words } of events) lines.push(fill(said.logged, { words }));
  return lines.join(" ");
}

const LOW = ["level", "low1", "low2", "low3", "low4"] as const;
const HIGH = ["level", "high1", "high2", "high3", "high4"] as const;

function classOf(cell: CellView | null, { isSince }: { isSince: boolean }): string {
  const names = [styles.cell];
  if (isSince) names.push(styles.since);
  if (cell === null) names.push(styles.absent);
  else if (cell.strength === null) names.push(styles.alone);
  else names.push(styles[(cell.strength < 0 ? LOW : HIGH)[Math.abs(cell.strength)]!]);
  return names.join(" ");
}
