import { use } from "react";
import type { FlagRow } from "../../db/queries/drift";
import type { Alternative } from "../../lib/drift/drift-scan";
import { doubtWords } from "../../lib/drift/flag-words";
import { nameOf, runWords } from "../../lib/drift/sentence";
import { words } from "../language/language";
import styles from "./drift.module.css";

/** What else could have done it, and the run that would tell. */
export function Alternatives({ flag: { source, latest } }: { flag: FlagRow }) {
  const { driftPage, drift } = use(words());
  const said = driftPage.alternatives;
  if (latest.alternatives.length === 0) {
    return <p className={styles.remarkWide}>{said.none(nameOf(source, drift))}</p>;
  }
  return (
    <ul className={styles.alternatives}>
      {latest.alternatives.map((one) => (
        <li key={`${one.source.kind} ${one.source.id}`}>
          <p>
            <strong>{nameOf(one.source, drift)}</strong>
            {one.aliased ? said.aliased : said.alike}:{" "}
            {said.tell(doubtWords(one.patternGap, said.doubts), runWords(one.suggested, drift))}
          </p>
          {one.table === null ? null : <Crossed table={one.table} />}
        </li>
      ))}
    </ul>
  );
}

/** How often each pair ran since the change; the pairs that never did are what a separating run would fill. */
function Crossed({ table: { rows, columns, since } }: { table: NonNullable<Alternative["table"]> }) {
  const { alternatives: said } = use(words()).driftPage;
  return (
    <table className={styles.crossed}>
      <caption>{said.pairs}</caption>
      <thead>
        <tr>
          <td />
          {columns.map(({ id }) => (
            <th key={id} scope="col">
              {id}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ id }, r) => (
          <tr key={id}>
            <th scope="row">{id}</th>
            {columns.map((column, c) => {
              const count = since[r]?.[c] ?? 0;
              return (
                <td key={column.id} className={count === 0 ? styles.never : undefined}>
                  {count === 0 ? said.never : count}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Lots that may hold the beginning, the likeliest first, as far as they make up nine tenths. */
export function OnsetWords({ flag: { latest } }: { flag: FlagRow }) {
  const { alternatives: said } = use(words()).driftPage;
  const { onset } = latest;
  const likely = [...onset.posterior].sort((a, b) => b.weight - a.weight).slice(0, 4);
  return (
    <p className={styles.remarkWide}>
      {said.onset(onset.lot)}
      {onset.from === onset.to ? "" : said.between(onset.from, onset.to)}
      {likely.length > 1
        ? `: ${likely.map(({ lot, weight }) => `${lot} ${Math.round(100 * weight)} %`).join(", ")}`
        : ""}
      . {said.lots(latest.evidence.own.filter(({ at }) => at >= onset.at).length)}
    </p>
  );
}
