"use client";

import { type KeyboardEvent, useState } from "react";
import { TextField } from "../fittings/fields";
import styles from "./gauges.module.css";

const MOST = { parts: 50, trials: 10 };

/**
 * A ruled sheet for a crossed study: a row for each operator and trial, a column for each part, as it lies beside the
 * gauge. Enter goes to the next reading; what is typed goes to the server as a table.
 */
export function StudySheet() {
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
          label="Parts"
          inputMode="numeric"
          value={parts}
          onChange={(event) => setParts(event.target.value)}
          hint="2 to 50."
        />
        <TextField
          label="Operators"
          value={names}
          onChange={(event) => setNames(event.target.value)}
          hint="Names, parted by commas."
        />
        <TextField
          label="Trials"
          inputMode="numeric"
          value={trials}
          onChange={(event) => setTrials(event.target.value)}
          hint="2 to 10."
        />
      </div>
      <div className={styles.sheetFrame}>
        <table className={styles.sheet}>
          <thead>
            <tr>
              <th scope="col">Operator, trial</th>
              {columns.map((part) => (
                <th key={part} scope="col">
                  Part {part}
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
                        aria-label={`Part ${part}, operator ${operator}, trial ${trial}`}
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
