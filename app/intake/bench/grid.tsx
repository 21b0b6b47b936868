"use client";

import { type KeyboardEvent, useEffect, useRef } from "react";
import { useCommonWords } from "#common-words";
import { toleranceWords, unitSign } from "../../../lib/format/numbers";
import {
  type BenchCell,
  type BenchFeature,
  readBenchCell,
  readInspectedCell,
} from "../../../lib/intake/bench-cell";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import styles from "./bench.module.css";
import { emptyRow, type GridColumn, gridColumns, type Place, placeAfter, type Sheet } from "./sheet";

/** Pieces down, features across. Every cell is reached by Tab, Enter and the arrow keys, number pad included. */
export function Grid({
  sheet,
  features,
  goesDown,
  onChange,
  words,
}: {
  sheet: Sheet;
  features: readonly BenchFeature[];
  goesDown: boolean;
  onChange: (sheet: Sheet) => void;
  words: Words["bench"]["sheet"];
}) {
  const { figures } = useCommonWords();
  const table = useRef<HTMLTableElement>(null);
  const wanted = useRef<Place | null>(null);
  const { rows } = sheet;
  const columns = gridColumns(features);

  // The row that a key led to may only be there after this picture.
  useEffect(() => {
    const place = wanted.current;
    if (!place) return;
    wanted.current = null;
    const cell = table.current?.querySelector<HTMLInputElement>(`[data-cell="${place.row}-${place.column}"]`);
    cell?.focus();
    cell?.select();
  });

  function write({ row, column }: Place, text: string): void {
    const of = columns[column];
    const next = rows.map((each, index) => {
      if (index !== row || of === undefined) return each;
      if (of.kind !== "value") return { ...each, [of.kind]: text };
      return { ...each, values: each.values.map((value, at) => (at === of.at ? text : value)) };
    });
    onChange({ ...sheet, rows: next });
  }

  function onKey(event: KeyboardEvent<HTMLInputElement>, place: Place): void {
    if (event.nativeEvent.isComposing) return;
    const next = placeAfter(event.key, place, { rows: rows.length, columns: columns.length, goesDown });
    if (!next) return;
    event.preventDefault();
    wanted.current = next;
    // Always a new object, so that there is a next picture after which the cell is looked for.
    const grown = next.row >= rows.length ? [...rows, emptyRow(features.length, rows.length + 1)] : [...rows];
    onChange({ ...sheet, rows: grown });
  }

  const nameOf = (feature: string, piece: string, row: number) =>
    piece.trim() === ""
      ? fill(words.cellRow, { feature, row: row + 1 })
      : fill(words.cell, { feature, piece: piece.trim() });
  const cell = (place: Place, value: string, label: string, read: BenchCell | null) => {
    return (
      <input
        type="text"
        inputMode={read ? "decimal" : "text"}
        autoComplete="off"
        spellCheck={false}
        enterKeyHint="next"
        maxLength={100}
        data-cell={`${place.row}-${place.column}`}
        data-kind={read?.kind ?? "value"}
        aria-label={label}
        aria-invalid={read?.kind === "fault" ? true : undefined}
        title={read && "words" in read ? read.words : undefined}
        className={styles.cell}
        value={value}
        onChange={(event) => write(place, event.target.value)}
        onKeyDown={(event) => onKey(event, place)}
        onFocus={(event) => event.target.select()}
      />
    );
  };

  return (
    <section className={styles.frame} aria-label={words.values}>
      <table ref={table} className={styles.grid}>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={keyOf(column)} scope="col">
                {column.kind === "piece" ? words.piece : null}
                {column.kind === "inspected" ? (
                  <>
                    <span className={styles.name}>{words.inspected}</span>
                    <span className={styles.tolerance}>{words.inspectedHint}</span>
                  </>
                ) : null}
                {column.kind === "value" ? <FeatureHead feature={column.feature} /> : null}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ number, piece, inspected, values }, row) => (
            <tr key={number}>
              {columns.map((of, column) => {
                const place = { row, column };
                if (of.kind === "piece")
                  return (
                    <th key={keyOf(of)} scope="row">
                      {cell(place, piece, fill(words.pieceOf, { row: row + 1 }), null)}
                    </th>
                  );
                const text = of.kind === "inspected" ? inspected : (values[of.at] ?? "");
                const read =
                  of.kind === "inspected"
                    ? readInspectedCell(text, words)
                    : readBenchCell(text, of.feature, { cells: words.cells, figures }, inspected);
                const name = of.kind === "inspected" ? words.inspected : of.feature.name;
                return <td key={keyOf(of)}>{cell(place, text, nameOf(name, piece, row), read)}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function keyOf(column: GridColumn): string {
  return column.kind === "value" ? String(column.feature.id) : column.kind;
}

function FeatureHead({ feature }: { feature: BenchFeature }) {
  const { figures } = useCommonWords();
  const { name, lower, upper, unit } = feature;
  const isBare = lower === null && upper === null && unitSign(unit) !== "";
  return (
    <>
      <span className={styles.name}>{name}</span>
      <span className={styles.tolerance}>
        {toleranceWords(feature, feature, figures)}
        {isBare ? `, ${unitSign(unit)}` : ""}
      </span>
    </>
  );
}
