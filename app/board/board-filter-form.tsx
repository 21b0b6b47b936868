import type { Words } from "../../lib/words/words";
import { Button } from "../fittings/controls";
import { Link } from "../fittings/link";
import styles from "./board.module.css";
import type { BoardChoices, BoardFilter } from "./board-filter";

export type FilterWords = Words["board"]["filter"] & { kinds: Readonly<Record<string, string>> };

/** Filters by the address, so that a filtered board can be kept as a bookmark or opened on the wall. */
export function BoardFilterForm({
  choices,
  filter,
  words: said,
}: {
  choices: BoardChoices;
  filter: BoardFilter;
  words: FilterWords;
}) {
  const sourceIn = (value: string) => value.replace(/^\w+/, (kind) => said.kinds[kind] ?? kind);
  const isFiltered = Object.values(filter).some((value) => value !== "");
  return (
    <form action="/" className={styles.filter}>
      <label className={styles.choice}>
        <span>{said.find}</span>
        <input type="search" name="find" defaultValue={filter.find} key={filter.find} />
      </label>
      <Choice name="line" label={said.line} all={said.allLines} values={choices.lines} chosen={filter.line} />
      <Choice name="part" label={said.part} all={said.allParts} values={choices.parts} chosen={filter.part} />
      <Choice
        name="source"
        label={said.source}
        all={said.allSources}
        values={choices.sources}
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
  name: Exclude<keyof BoardFilter, "find">;
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
