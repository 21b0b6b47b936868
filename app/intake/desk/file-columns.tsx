"use client";

import { headerKey, MAPPED_COLUMNS, type Mapping } from "../../../lib/intake/mapping";
import type { Look } from "../look";
import { TIDY_COLUMNS } from "../tidy-columns";
import styles from "./editor.module.css";

const SAMPLES = 3;

/** Not something to press, but what scrolls must be reachable by keyboard (WCAG 2.2, 2.1.1). */
const REACHABLE = { tabIndex: 0 };

/** The file's own columns with what stands in them, and what each is taken for. */
export function FileColumns({ look, mapping }: { look: Look; mapping: Mapping }) {
  const uses = usesOf(mapping);
  const columns = look.header.map((column, index) => ({ key: `${index} ${column}`, column, index }));
  return (
    <section className={styles.columns} aria-label="Columns of the file" {...REACHABLE}>
      <h4>Columns of the file</h4>
      <ol>
        {columns.map(({ key, column, index }) => {
          const use = uses.get(headerKey(column));
          return (
            <li key={key} className={use ? undefined : styles.unused}>
              <span className={styles.columnName}>{column || "(no header)"}</span>
              <span className={styles.columnUse}>{use?.join(", ") ?? "not used"}</span>
              <span className={styles.samples}>{samplesOf(look, index)}</span>
            </li>
          );
        })}
      </ol>
    </section>
  );
}

function samplesOf(look: Look, index: number): string {
  const texts = new Set(look.rows.map((row) => (row[index] ?? "").trim()).filter((text) => text !== ""));
  return [...texts].slice(0, SAMPLES).join(" · ") || "empty in the first rows";
}

function usesOf(mapping: Mapping): Map<string, string[]> {
  const uses = new Map<string, string[]>();
  const add = (column: string, use: string) =>
    uses.set(headerKey(column), [...(uses.get(headerKey(column)) ?? []), use]);
  for (const column of mapping.piece) add(column, "piece");
  for (const field of MAPPED_COLUMNS) {
    const ref = mapping.columns[field];
    if (ref !== null && "column" in ref) add(ref.column, labelOf(field).toLowerCase());
  }
  if (mapping.layout === "wide") for (const { column } of mapping.valueColumns) add(column, "a feature");
  return uses;
}

function labelOf(field: string): string {
  return TIDY_COLUMNS.find(({ column }) => column === field)?.label ?? field;
}
