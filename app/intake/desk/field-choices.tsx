"use client";

import type { ColumnRef, MappedColumn, Mapping } from "../../../lib/intake/mapping";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { FieldGroup, SelectField, TextField } from "../../fittings/fields";
import { PER_VALUE, TIDY_GROUPS } from "../tidy-columns";
import { columnChoices, type FileStart, sampleOf } from "./columns-of";
import styles from "./editor.module.css";

type FieldWords = Pick<Words["desk"], "tidy" | "editor">;

const NONE = "none";
const CONSTANT = "constant";
const COLUMN = "column:";

/** For each column of the tidy file: which column of this one, the same text in every row, or nothing. */
export function FieldChoices({
  mapping,
  file,
  onChange,
  words,
}: {
  mapping: Mapping;
  file: FileStart;
  onChange: (mapping: Mapping) => void;
  words: FieldWords;
}) {
  const isWide = mapping.layout === "wide";
  const choose = (column: MappedColumn, ref: ColumnRef) => {
    const time = column === "taken_at" && ref !== null ? null : mapping.time;
    const valueColumns = withoutColumn(mapping.valueColumns, ref);
    onChange({ ...mapping, time, valueColumns, columns: { ...mapping.columns, [column]: ref } });
  };
  return TIDY_GROUPS.map(({ group, columns }) => {
    // In the wide layout each value column has its own.
    const shown = columns.filter((column) => !(isWide && PER_VALUE.includes(column)) || column === "unit");
    return (
      <FieldGroup key={group} legend={words.tidy.legends[group]}>
        {shown.map((column) => (
          <FieldChoice
            key={column}
            column={column}
            value={mapping.columns[column]}
            file={file}
            onChange={(ref) => choose(column, ref)}
            words={words}
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
  column: named,
  value,
  file,
  onChange,
  words: { tidy, editor: said },
}: {
  column: MappedColumn;
  value: ColumnRef;
  file: FileStart;
  onChange: (ref: ColumnRef) => void;
  words: FieldWords;
}) {
  const { label, holds } = tidy.columns[named];
  const isConstant = value !== null && "constant" in value;
  const chosen = value === null ? NONE : isConstant ? CONSTANT : COLUMN + value.column;
  const choices = [
    { value: NONE, label: said.none },
    ...(named === "value" || named === "taken_at" ? [] : [{ value: CONSTANT, label: said.constant }]),
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
        label={label}
        value={chosen}
        choices={choices}
        hint={isConstant ? null : value === null ? holds : sampleOf(file, value.column, said)}
        onChange={(event) => choose(event.target.value)}
      />
      {isConstant ? (
        <TextField
          label={fill(said.inEveryRow, { label })}
          value={value.constant}
          onChange={(event) => onChange({ constant: event.target.value })}
        />
      ) : null}
    </div>
  );
}
