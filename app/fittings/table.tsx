import { type ReactNode, useId } from "react";
import { KeepTable } from "./keep-table";
import styles from "./table.module.css";

/** Not something to press, but a frame that scrolls must be reachable by keyboard (WCAG 2.2, 2.1.1). */
const REACHABLE = { tabIndex: 0 };

export type Column<Row> = {
  key: string;
  head: ReactNode;
  /** A row's content in this column. Figures come as `Num` with `alignTo`, so that decimal points align. */
  cell: (row: Row) => ReactNode;
  /** Figures stand at the end of their column, words at its start. */
  figures?: boolean;
  /** The column that names the row; the first one when none says so. */
  names?: boolean;
  /** Stays on one line: part numbers, tolerances, states. */
  tight?: boolean;
  /** A CSS width such as "16rem". */
  width?: string;
};

/**
 * A table for comparing: sticky head, one line a row where it fits, and a caption that says what is counted.
 *
 * On a narrow screen it scrolls inside its own frame, which can be reached by keyboard. It can be saved as CSV;
 * figures that come as `Num` and moments that come as `When` then carry all their digits.
 */
export function Table<Row>({
  caption,
  columns,
  rows,
  rowKey,
  rowClass,
  isCaptionShown = true,
  empty,
}: {
  caption: string;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  rowKey: (row: Row) => string | number;
  rowClass?: (row: Row) => string | undefined;
  isCaptionShown?: boolean;
  /** Shown instead of the table when there are no rows. */
  empty?: ReactNode;
}) {
  const named = useId();
  if (rows.length === 0 && empty !== undefined) return empty;
  const naming = columns.find((column) => column.names) ?? columns[0];
  return (
    <div className={styles.whole} data-table="">
      <div className={styles.bar}>
        <p id={named} className={isCaptionShown ? styles.caption : "only-read-out"}>
          {caption}
        </p>
        <KeepTable caption={caption} />
      </div>
      <section className={styles.frame} aria-labelledby={named} {...REACHABLE}>
        <table className={styles.table} aria-labelledby={named}>
          <thead>
            <tr>
              {columns.map((column) => (
                <th
                  key={column.key}
                  scope="col"
                  className={column.figures ? styles.figures : undefined}
                  style={column.width ? widthOf(column.width) : undefined}
                >
                  {column.head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={rowKey(row)} className={rowClass?.(row)}>
                {columns.map((column) =>
                  column === naming ? (
                    <th
                      key={column.key}
                      scope="row"
                      className={`${styles.name} ${column.tight ? styles.tight : ""}`}
                    >
                      {column.cell(row)}
                    </th>
                  ) : (
                    <td key={column.key} className={cellClass(column)}>
                      {column.cell(row)}
                    </td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </div>
  );
}

/** A width is a wish that long neighbours push aside; a name keeps room for two words of it beside them. */
function widthOf(width: string): { width: string; minWidth?: string } {
  return width.endsWith("rem") ? { width, minWidth: "8rem" } : { width };
}

function cellClass({ figures, tight }: { figures?: boolean; tight?: boolean }): string | undefined {
  if (figures) return styles.figures;
  return tight ? styles.tight : undefined;
}
