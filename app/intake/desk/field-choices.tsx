"use client";

import type { ColumnRef, MappedColumn, Mapping } from "../../../lib/intake/mapping";
import { FieldGroup, SelectField, TextField } from "../../fittings/fields";
import { PER_VALUE, TIDY_GROUPS, type TidyColumn } from "../tidy-columns";
import { columnChoices, type FileStart, sampleOf } from "./columns-of";
import styles from "./editor.module.css";

const NONE = "none";
const CONSTANT = "constant";
const COLUMN = "column:";

/** For each column of the tidy file: which column of this one, the same text in every row, or nothing. */
export function FieldChoices({
  mapping,
  file,
  onChange,
}: {
  mapping: Mapping;
  file: FileStart;
  onChange: (mapping: Mapping) => void;
}) {
  const isWide = mapping.layout === "wide";
  const choose = (column: MappedColumn, ref: ColumnRef) => {
    const time = column === "taken_at" && ref !== null ? null : mapping.time;
    const valueColumns = withoutColumn(mapping.valueColumns, ref);
    onChange({ ...mapping, time, valueColumns, columns: { ...mapping.columns, [column]: ref } });
  };
  return TIDY_GROUPS.map(({ legend, columns }) => {
    // In the wide layout each value column has its own.
    const shown = columns.filter(
      ({ column }) => !(isWide && PER_VALUE.includes(column)) || column === "unit",
    );
    return (
      <FieldGroup key={legend} legend={legend}>
        {shown.map((tidy) => (
          <FieldChoice
            key={tidy.column}
            tidy={tidy}
            value={mapping.columns[tidy.column]}
            file={file}
            onChange={(ref) => choose(tidy.column, ref)}
          />
        ))}
      </FieldGroup>
    );
  });
}

/** A column that becomes a lot or a temperature is no feature any more. */
function withoutColumn(valueColumns: Mapping["valueColumns"], ref: ColumnRef): Mapping["valueColumns"] {
  if (ref === null || "constant" in ref) return valueColumns;
  return valueColumns.filter(({ column }) => column !== ref.column);
}

function FieldChoice({
  tidy,
  value,
  file,
  onChange,
}: {
  tidy: TidyColumn;
  value: ColumnRef;
  file: FileStart;
  onChange: (ref: ColumnRef) => void;
}) {
  const isConstant = value !== null && "constant" in value;
  const chosen = value === null ? NONE : isConstant ? CONSTANT : COLUMN + value.column;
  const choices = [
    { value: NONE, label: "– not in this file" },
    ...(tidy.column === "value" || tidy.column === "taken_at"
      ? []
      : [{ value: CONSTANT, label: "= the same in every row" }]),
    ...columnChoices(file, value !== null && "column" in value ? value.column : null).map((column) => ({
      value: COLUMN + column,
      label: column,
    })),
  ];
  function choose(text: string) {
    if (text === NONE) onChange(null);
    else if (text === CONSTANT) onChange({ constant: "" });
    else onChange({ column: text.slice(COLUMN.length) });
  }
  return (
    <div className={styles.choice}>
      <SelectField
        label={tidy.label}
        value={chosen}
        choices={choices}
        hint={isConstant ? null : value === null ? tidy.holds : sampleOf(file, value.column)}
        onChange={(event) => choose(event.target.value)}
      />
      {isConstant ? (
        <TextField
          label={`${tidy.label} in every row`}
          value={value.constant}
          onChange={(event) => onChange({ constant: event.target.value })}
        />
      ) : null}
    </div>
  );
}
