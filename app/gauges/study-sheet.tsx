"use client";

import { type KeyboardEvent, useState } from "react";
import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";
import { TextField } from "../fittings/fields";
import styles from "./gauges.module.css";

const MOST = { parts: 50, trials: 10 };

/**
 * A ruled sheet for a crossed study: a row for each operator and trial, a column for each part, as it lies beside the
 * gauge. Enter goes to the next reading; what is typed goes to the server as a table.
 */
export function StudySheet({ words }: { words: Words["studyForm"]["form"]["sheet"] }) {
  const [parts, setParts] = useState("10");
  const [names, setNames] = useState("A, B, C");
  const [trials, setTrials] = useState("3");
  const [cells, setCells] = useState<Record<string, string>>({});
  const operators = [
    ...new Set(
      names
        .split(",")
        .map((name) => name.trim())
        .filter((name) => name !== ""),
    ),
  ];
  const columns = upTo(parts, MOST.parts);
  const rows = operators.flatMap((operator) =>
    upTo(trials, MOST.trials).map((trial) => ({ operator, trial })),
  );
  const keyOf = (operator: string, trial: number, part: number) => `${operator}\t${trial}\t${part}`;
  const table = [
    ["operator", "trial", ...columns].join("\t"),
    ...rows.map(({ operator, trial }) =>
      [operator, trial, ...columns.map((part) => cells[keyOf(operator, trial, part)] ?? "")].join("\t"),
    ),
  ].join("\n");
  return (
    <>
      <input type="hidden" name="table" value={table} />
      <div className={styles.ways}>
        <TextField
          label={words.parts}
          inputMode="numeric"
          value={parts}
          onChange={(event) => setParts(event.target.value)}
          hint={words.partsHint}
        />
        <TextField
          label={words.operators}
          value={names}
          onChange={(event) => setNames(event.target.value)}
          hint={words.operatorsHint}
        />
        <TextField
          label={words.trials}
          inputMode="numeric"
          value={trials}
          onChange={(event) => setTrials(event.target.value)}
          hint={words.trialsHint}
        />
      </div>
      <div className={styles.sheetFrame}>
        <table className={styles.sheet}>
          <thead>
            <tr>
              <th scope="col">{words.corner}</th>
              {columns.map((part) => (
                <th key={part} scope="col">
                  {fill(words.part, { part })}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ operator, trial }) => (
              <tr key={`${operator} ${trial}`}>
                <th scope="row">
                  {operator}, {trial}
                </th>
                {columns.map((part) => {
                  const key = keyOf(operator, trial, part);
                  return (
                    <td key={part}>
                      <input
                        aria-label={fill(words.cell, { part, operator, trial })}
                        inputMode="decimal"
                        autoComplete="off"
                        value={cells[key] ?? ""}
                        onChange={(event) => setCells({ ...cells, [key]: event.target.value })}
                        onKeyDown={toNext}
                      />
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

/** Enter sends no half-typed sheet: it goes on to the next cell. */
function toNext(event: KeyboardEvent<HTMLInputElement>): void {
  if (event.key !== "Enter") return;
  event.preventDefault();
  const all = [...(event.currentTarget.closest("table")?.querySelectorAll("input") ?? [])];
  all[all.indexOf(event.currentTarget) + 1]?.focus();
}

function upTo(text: string, most: number): number[] {
  const count = Number(text);
  return Array.from(
    { length: Number.isInteger(count) ? Math.min(most, Math.max(0, count)) : 0 },
    (_, i) => i + 1,
  );
}
