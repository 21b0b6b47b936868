import type { FlagRow } from "../../db/queries/drift";
import type { Alternative } from "../../lib/drift/drift-scan";
import { doubtWords } from "../../lib/drift/flag-words";
import { nameOf, runWords } from "../../lib/drift/sentence";
import { counted } from "../../lib/format/numbers";
import styles from "./drift.module.css";

/** What else could have done it, and the run that would tell. */
export function Alternatives({ flag: { source, latest } }: { flag: FlagRow }) {
  if (latest.alternatives.length === 0) {
    return (
      <p className={styles.remarkWide}>
        No other source ran on the same pieces closely enough to be taken for {nameOf(source)}.
      </p>
    );
  }
  return (
    <ul className={styles.alternatives}>
      {latest.alternatives.map((one) => (
        <li key={`${one.source.kind} ${one.source.id}`}>
          <p>
            <strong>{nameOf(one.source)}</strong>
            {one.aliased ? " ran on the same pieces" : " explains it nearly as well"}:{" "}
            {doubtWords(one.patternGap)}. To tell them apart, {runWords(one.suggested)}.
          </p>
          {one.table === null ? null : <Crossed table={one.table} />}
        </li>
      ))}
    </ul>
  );
}

/** How often each pair ran since the change; the pairs that never did are what a separating run would fill. */
function Crossed({ table: { rows, columns, since } }: { table: NonNullable<Alternative["table"]> }) {
  return (
    <table className={styles.crossed}>
      <caption>Pieces on each pair since the change</caption>
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
                  {count === 0 ? "never" : count}
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
  const { onset } = latest;
  const likely = [...onset.posterior].sort((a, b) => b.weight - a.weight).slice(0, 4);
  return (
    <p className={styles.remarkWide}>
      Changed in lot {onset.lot} most probably
      {onset.from === onset.to ? "" : `, with 90 % confidence between ${onset.from} and ${onset.to}`}
      {likely.length > 1
        ? `: ${likely.map(({ lot, weight }) => `${lot} ${Math.round(100 * weight)} %`).join(", ")}`
        : ""}
      . {counted(latest.evidence.own.filter(({ at }) => at >= onset.at).length, "lot")} of it since.
    </p>
  );
}
