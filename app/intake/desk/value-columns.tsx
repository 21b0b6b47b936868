"use client";

import type { Mapping, ValueColumn } from "../../../lib/intake/mapping";
import { freeColumns, newValueColumn } from "../../../lib/intake/switch-layout";
import { Button } from "../../fittings/controls";
import { Note } from "../../fittings/note";
import { type Column, Table } from "../../fittings/table";
import { type FileStart, sampleOf } from "./columns-of";
import styles from "./editor.module.css";

const NUMBER_WORDS = {
  nominal: "Nominal",
  lower: "Lower tolerance limit",
  upper: "Upper tolerance limit",
} as const;
const UNITS = ["", "mm", "in", "deg"];

/** In the wide layout: which columns are features, what each is called and what the drawing says of it. */
export function ValueColumns({
  mapping,
  file,
  onChange,
}: {
  mapping: Mapping;
  file: FileStart;
  onChange: (mapping: Mapping) => void;
}) {
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
      head: "Column",
      names: true,
      cell: ({ column }) => (
        <span className={styles.valueColumn}>
          {column}
          <small>{sampleOf(file, column)}</small>
        </span>
      ),
    },
    {
      key: "feature",
      head: "Feature",
      cell: (value) => (
        <input
          className={styles.cellText}
          aria-label={`Feature of column ${value.column}`}
          value={value.feature}
          onChange={(event) => set(value.column, { ...value, feature: event.target.value })}
        />
      ),
    },
    ...(["nominal", "lower", "upper"] as const).map(
      (key): Column<ValueColumn> => ({
        key,
        head: { nominal: "Nominal", lower: "Lower limit", upper: "Upper limit" }[key],
        cell: (value) => (
          <input
            className={styles.cellNumber}
            type="number"
            step="any"
            aria-label={`${NUMBER_WORDS[key]} of ${value.column}`}
            value={value[key] ?? ""}
            onChange={(event) => set(value.column, { ...value, [key]: numberFrom(event.target.value) })}
          />
        ),
      }),
    ),
    {
      key: "unit",
      head: "Unit",
      cell: (value) => (
        <select
          className={styles.cellUnit}
          aria-label={`Unit of ${value.column}`}
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
      head: <span className="only-read-out">Leave out</span>,
      cell: ({ column }) => (
        <Button
          kind="quiet"
          size="dense"
          aria-label={`Leave out ${column}`}
          onClick={() => set(column, null)}
        >
          Leave out
        </Button>
      ),
    },
  ];
  return (
    <div className={styles.valueColumns}>
      <Table
        caption="Columns of values: one feature each. Limits are absolute; what the control plan knows stays as it is there."
        columns={columns}
        rows={rows}
        rowKey={({ column }) => column}
        empty={<Note kind="not-yet">No column is a feature yet. Take one of the columns below.</Note>}
      />
      {others.length > 0 ? (
        <div className={styles.others}>
          <span>Not taken:</span>
          {others.map((column) => (
            <Button
              key={column}
              size="dense"
              aria-label={`Take ${column} as a feature`}
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

function numberFrom(text: string): number | null {
  return text.trim() === "" || !Number.isFinite(Number(text)) ? null : Number(text);
}
