"use client";

import { headerKey, MAPPED_COLUMNS, type Mapping } from "../../../lib/intake/mapping";
import type { Words } from "../../../lib/words/words";
import type { Look } from "../look";
import { columnLabel } from "../tidy-columns";
import styles from "./editor.module.css";

const SAMPLES = 3;

/** Not something to press, but what scrolls must be reachable by keyboard (WCAG 2.2, 2.1.1). */
const REACHABLE = { tabIndex: 0 };

/** The file's own columns with what stands in them, and what each is taken for. */
export function FileColumns({
  look,
  mapping,
  words,
}: {
  look: Look;
  mapping: Mapping;
  words: Pick<Words["desk"], "tidy" | "editor">;
}) {
  const { editor: said } = words;
  const uses = usesOf(mapping, words);
  const columns = look.header.map((column, index) => ({ key: `${index} ${column}`, column, index }));
  return (
    <section className={styles.columns} aria-label={said.columns} {...REACHABLE}>
      <h4>{said.columns}</h4>
      <ol>
        {columns.map(({ key, column, index }) => {
          const use = uses.get(headerKey(column));
          return (
            <li key={key} className={use ? undefined : styles.unused}>
              <span className={styles.columnName}>{column || said.noHeader}</span>
              <span className={styles.columnUse}>{use?.join(", ") ?? said.notUsed}</span>
              <span className={styles.samples}>{samplesOf(look, index, said.empty)}</span>
            </li>
          );
        })}
      </ol>
    </section>
  );
}

function samplesOf(look: Look, index: number, empty: string): string {
  const texts = new Set(look.rows.map((row) => (row[index] ?? "").trim()).filter((text) => text !== ""));
  return [...texts].slice(0, SAMPLES).join(" · ") || empty;
}

function usesOf(
  mapping: Mapping,
  { tidy, editor }: Pick<Words["desk"], "tidy" | "editor">,
): Map<string, string[]> {
  const uses = new Map<string, string[]>();
  const add = (column: string, use: string) =>
    uses.set(headerKey(column), [...(uses.get(headerKey(column)) ?? []), use]);
  for (const column of mapping.piece) add(column, editor.piece);
  for (const field of MAPPED_COLUMNS) {
    const ref = mapping.columns[field];
    if (ref !== null && "column" in ref) add(ref.column, columnLabel(field, tidy));
  }
  if (mapping.timeOfDay !== null) add(mapping.timeOfDay, editor.timeOfDay);
  if (mapping.layout === "wide") for (const { column } of mapping.valueColumns) add(column, editor.aFeature);
  return uses;
}
