"use client";

import type { Mapping, ValueColumn } from "../../../lib/intake/mapping";
import { freeColumns, newValueColumn } from "../../../lib/intake/switch-layout";
import { type Column, Table } from "../../fittings/table";
import { type FileStart, sampleOf } from "./columns-of";
import styles from "./editor.module.css";

const UNITS = ["", "mm", "in", "deg"];

type Row = { column: string; value: ValueColumn | null };

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
  const rows = freeColumns(mapping, file.header).map((column) => ({
    column,
    value: byColumn.get(column) ?? null,
  }));
  const set = (column: string, value: ValueColumn | null) => {
    const next = new Map(byColumn);
    if (value) next.set(column, value);
    else next.delete(column);
    const inOrder = file.header.flatMap((name) => next.get(name) ?? []);
    onChange({ ...mapping, valueColumns: inOrder });
  };
  const columns: Column<Row>[] = [
    {
      key: "column",
      head: "Column",
      cell: ({ column, value }) => (
        <label className={styles.valueColumn}>
          <input
            type="checkbox"
            checked={value !== null}
            onChange={(event) => set(column, event.target.checked ? newValueColumn(column) : null)}
          />
          <span>
            {column}
            <small>{sampleOf(file, column)}</small>
          </span>
        </label>
      ),
    },
    {
      key: "feature",
      head: "Feature",
      cell: ({ column, value }) =>
        value && (
          <input
            className={styles.cellText}
            aria-label={`Feature of column ${column}`}
            value={value.feature}
            onChange={(event) => set(column, { ...value, feature: event.target.value })}
          />
        ),
    },
    ...(["nominal", "lower", "upper"] as const).map(
      (key): Column<Row> => ({
        key,
        head: { nominal: "Nominal", lower: "Lower limit", upper: "Upper limit" }[key],
        cell: ({ column, value }) =>
          value && (
            <input
              className={styles.cellNumber}
              type="number"
              step="any"
              aria-label={`${{ nominal: "Nominal", lower: "Lower tolerance limit", upper: "Upper tolerance limit" }[key]} of ${column}`}
              value={value[key] ?? ""}
              onChange={(event) => set(column, { ...value, [key]: numberFrom(event.target.value) })}
            />
          ),
      }),
    ),
    {
      key: "unit",
      head: "Unit",
      cell: ({ column, value }) =>
        value && (
          <select
            className={styles.cellUnit}
            aria-label={`Unit of ${column}`}
            value={value.unit ?? ""}
            onChange={(event) => set(column, { ...value, unit: event.target.value || null })}
          >
            {(value.unit && !UNITS.includes(value.unit) ? [...UNITS, value.unit] : UNITS).map((unit) => (
              <option key={unit} value={unit}>
                {unit || "–"}
              </option>
            ))}
          </select>
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
      />
    </div>
  );
}

function numberFrom(text: string): number | null {
  return text.trim() === "" || !Number.isFinite(Number(text)) ? null : Number(text);
}
