import type { BoardRow } from "../../db/queries/board";
import { Button } from "../fittings/controls";
import { Link } from "../fittings/link";
import styles from "./board.module.css";
import { type BoardFilter, sourcesOf } from "./board-filter";

/** Filters by the address, so that a filtered board can be kept as a bookmark or opened on the wall. */
export function BoardFilterForm({ rows, filter }: { rows: readonly BoardRow[]; filter: BoardFilter }) {
  const lines = sorted(rows.map(({ feature }) => feature.part.line));
  const parts = sorted(rows.map(({ feature }) => feature.part.number));
  const sources = sorted(rows.flatMap((row) => sourcesOf(row).map(({ kind, code }) => `${kind} ${code}`)));
  const isFiltered = filter.line !== "" || filter.part !== "" || filter.source !== "";
  return (
    <form action="/" className={styles.filter}>
      <Choice name="line" all="all lines" values={lines} chosen={filter.line} />
      <Choice name="part" all="all parts" values={parts} chosen={filter.part} />
      <Choice name="source" all="all sources" values={sources} chosen={filter.source} />
      <Button type="submit">Show</Button>
      {isFiltered ? <Link href="/">Show all</Link> : null}
    </form>
  );
}

const NAMES = { line: "Line", part: "Part", source: "Source" } as const;

function Choice({
  name,
  all,
  values,
  chosen,
}: {
  name: keyof typeof NAMES;
  all: string;
  values: readonly string[];
  chosen: string;
}) {
  if (values.length < 2 && chosen === "") return null;
  return (
    <label className={styles.choice}>
      <span>{NAMES[name]}</span>
      <select name={name} defaultValue={chosen} key={chosen}>
        <option value="">{all}</option>
        {values.map((value) => (
          <option key={value} value={value}>
            {value}
          </option>
        ))}
      </select>
    </label>
  );
}

function sorted(values: readonly string[]): string[] {
  return [...new Set(values)]
    .filter((value) => value !== "")
    .sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
}
