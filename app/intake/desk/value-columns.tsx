"use client";

import { useId, useState } from "react";
import { whole } from "../../../lib/format/numbers";
import type { Mapping, ValueColumn } from "../../../lib/intake/mapping";
import { freeColumns, newValueColumn } from "../../../lib/intake/switch-layout";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { Button } from "../../fittings/controls";
import { Note } from "../../fittings/note";
import { type Column, Table } from "../../fittings/table";
import { type FileStart, sampleOf } from "./columns-of";
import styles from "./editor.module.css";
import { useTypedNumber } from "./use-typed-number";

const UNITS = ["", "mm", "in", "deg"];

/** Fields are drawn for so many columns at a time: with those of 1,500, each letter that was typed took a second. */
const SHOWN_AT_ONCE = 60;

/** In the wide layout: which columns are features, what each is called and what the drawing says of it. */
export function ValueColumns({
  mapping,
  file,
  onChange,
  words: { values: said, editor },
}: {
  mapping: Mapping;
  file: FileStart;
  onChange: (mapping: Mapping) => void;
  words: Pick<Words["desk"], "values" | "editor">;
}) {
  // Those that were shown stay, and with them what was typed.
  const [most, setMost] = useState(SHOWN_AT_ONCE);
  const byColumn = new Map(mapping.valueColumns.map((value) => [value.column, value]));
  const free = freeColumns(mapping, file.header);
  const rows = free.flatMap((column) => byColumn.get(column) ?? []);
  const others = free.filter((column) => !byColumn.has(column));
  const set = (column: string, value: ValueColumn | null) => {
    const next = new Map(byColumn);
    if (value) next.set(column, value);
    else next.delete(column);
    const inOrder = file.header.flatMap((name) => next.get(name) ?? []);
    onChange({ ...mapping, valueColumns: inOrder });
  };
  const columns: Column<ValueColumn>[] = [
    {
      key: "column",
      head: said.column,
      names: true,
      cell: ({ column }) => (
        <span className={styles.valueColumn}>
          {column}
          <small>{sampleOf(file, column, editor)}</small>
        </span>
      ),
    },
    {
      key: "feature",
      head: said.feature,
      cell: (value) => (
        <input
          className={styles.cellText}
          aria-label={fill(said.featureOf, { column: value.column })}
          value={value.feature}
          onChange={(event) => set(value.column, { ...value, feature: event.target.value })}
        />
      ),
    },
    ...(["nominal", "lower", "upper"] as const).map(
      (key): Column<ValueColumn> => ({
        key,
        head: said.heads[key],
        cell: (value) => (
          <NumberCell
            label={fill(said.numbersOf[key], { column: value.column })}
            notNumber={said.notNumber}
            value={value[key]}
            onChange={(number) => set(value.column, { ...value, [key]: number })}
          />
        ),
      }),
    ),
    {
      key: "unit",
      head: said.unit,
      cell: (value) => (
        <select
          className={styles.cellUnit}
          aria-label={fill(said.unitOf, { column: value.column })}
          value={value.unit ?? ""}
          onChange={(event) => set(value.column, { ...value, unit: event.target.value || null })}
        >
          {(value.unit && !UNITS.includes(value.unit) ? [...UNITS, value.unit] : UNITS).map((unit) => (
            <option key={unit} value={unit}>
              {unit || "–"}
            </option>
          ))}
        </select>
      ),
    },
    {
      key: "leave",
      head: <span className="only-read-out">{said.leave}</span>,
      cell: ({ column }) => (
        <Button
          kind="quiet"
          size="dense"
          aria-label={fill(said.leaveColumn, { column })}
          onClick={() => set(column, null)}
        >
          {said.leave}
        </Button>
      ),
    },
  ];
  return (
    <div className={styles.valueColumns}>
      <Table
        caption={said.caption}
        columns={columns}
        rows={rows.slice(0, most)}
        rowKey={({ column }) => column}
        empty={<Note kind="not-yet">{said.none}</Note>}
      />
      {rows.length > most ? (
        <div className={styles.others}>
          <span>{fill(said.rest, { count: whole(rows.length - most) })}</span>
          <Button size="dense" onClick={() => setMost(most + SHOWN_AT_ONCE)}>
            {fill(said.showMore, { count: whole(Math.min(SHOWN_AT_ONCE, rows.length - most)) })}
          </Button>
        </div>
      ) : null}
      {others.length > 0 ? (
        <div className={styles.others}>
          <span>{said.notTaken}</span>
          {others.map((column) => (
            <Button
              key={column}
              size="dense"
              aria-label={fill(said.takeColumn, { column })}
              onClick={() => set(column, newValueColumn(column))}
            >
              + {column}
            </Button>
          ))}
        </div>
      ) : null}
    </div>
  );
}

function NumberCell({
  label,
  notNumber,
  value,
  onChange,
}: {
  label: string;
  notNumber: string;
  value: number | null;
  onChange: (value: number | null) => void;
}) {
  const { text, isFault, type } = useTypedNumber(value, { none: null, onChange });
  const fault = useId();
  return (
    <>
      <input
        className={styles.cellNumber}
        inputMode="decimal"
        autoComplete="off"
        aria-label={label}
        aria-invalid={isFault || undefined}
        aria-describedby={isFault ? fault : undefined}
        value={text}
        onChange={(event) => type(event.target.value)}
      />
      {isFault ? (
        <small id={fault} className={styles.cellFault}>
          {notNumber}
        </small>
      ) : null}
    </>
  );
}
