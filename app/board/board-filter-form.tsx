import { use } from "react";
import type { BoardRow } from "../../db/queries/board";
import { SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";
import { Button } from "../fittings/controls";
import { Link } from "../fittings/link";
import { words } from "../language/language";
import styles from "./board.module.css";
import { type BoardFilter, sourcesOf } from "./board-filter";

/** Filters by the address, so that a filtered board can be kept as a bookmark or opened on the wall. */
export function BoardFilterForm({ rows, filter }: { rows: readonly BoardRow[]; filter: BoardFilter }) {
  const { board, trade } = use(words());
  const said = board.filter;
  const lines = sorted(rows.map(({ feature }) => feature.part.line));
  const parts = sorted(rows.map(({ feature }) => feature.part.number));
  const sources = sorted(rows.flatMap((row) => sourcesOf(row).map(({ kind, code }) => `${kind} ${code}`)));
  const sourceIn = (value: string) =>
    value.replace(/^\w+/, (kind) => (isSourceKind(kind) ? trade.sources[kind] : kind));
  const isFiltered = filter.line !== "" || filter.part !== "" || filter.source !== "";
  return (
    <form action="/" className={styles.filter}>
      <Choice name="line" label={said.line} all={said.allLines} values={lines} chosen={filter.line} />
      <Choice name="part" label={said.part} all={said.allParts} values={parts} chosen={filter.part} />
      <Choice
        name="source"
        label={said.source}
        all={said.allSources}
        values={sources}
        shown={sourceIn}
        chosen={filter.source}
      />
      <Button type="submit">{said.show}</Button>
      {isFiltered ? <Link href="/">{said.showAll}</Link> : null}
    </form>
  );
}

function Choice({
  name,
  label,
  all,
  values,
  shown = (value) => value,
  chosen,
}: {
  name: keyof BoardFilter;
  label: string;
  all: string;
  values: readonly string[];
  shown?: (value: string) => string;
  chosen: string;
}) {
  if (values.length < 2 && chosen === "") return null;
  return (
    <label className={styles.choice}>
      <span>{label}</span>
      <select name={name} defaultValue={chosen} key={chosen}>
        <option value="">{all}</option>
        {values.map((value) => (
          <option key={value} value={value}>
            {shown(value)}
          </option>
        ))}
      </select>
    </label>
  );
}

function isSourceKind(text: string): text is SourceKind {
  return (SOURCE_KINDS as readonly string[]).includes(text);
}

function sorted(values: readonly string[]): string[] {
  return [...new Set(values)]
    .filter((value) => value !== "")
    .sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
}
