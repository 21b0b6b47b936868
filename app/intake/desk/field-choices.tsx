"use client";

import { Fragment } from "react";
import type { ColumnRef, MappedColumn, Mapping } from "../../../lib/intake/mapping";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { FieldGroup, TextField } from "../../fittings/fields";
import { PER_VALUE, TIDY_GROUPS } from "../tidy-columns";
import { ColumnSelect } from "./column-select";
import { type FileStart, sampleOf } from "./columns-of";
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
    const isMoment = column === "taken_at";
    const time = isMoment && ref !== null ? null : mapping.time;
    const timeOfDay = isMoment && ref === null ? null : mapping.timeOfDay;
    const valueColumns = withoutColumn(mapping.valueColumns, ref);
    onChange({ ...mapping, time, timeOfDay, valueColumns, columns: { ...mapping.columns, [column]: ref } });
  };
  const chooseTimeOfDay = (timeOfDay: string | null) => {
    const ref = timeOfDay === null ? null : { column: timeOfDay };
    onChange({ ...mapping, timeOfDay, valueColumns: withoutColumn(mapping.valueColumns, ref) });
  };
  return TIDY_GROUPS.map(({ group, columns }) => {
    // In the wide layout each value column has its own.
    const shown = columns.filter((column) => !(isWide && PER_VALUE.includes(column)) || column === "unit");
    return (
      <FieldGroup key={group} legend={words.tidy.legends[group]}>
        {shown.map((column) => (
          <Fragment key={column}>
            <FieldChoice
              column={column}
              value={mapping.columns[column]}
              file={file}
              onChange={(ref) => choose(column, ref)}
              words={words}
            />
            {column === "taken_at" && mapping.columns.taken_at !== null ? (
              <TimeOfDayChoice
                value={mapping.timeOfDay}
                file={file}
                onChange={chooseTimeOfDay}
                words={words}
              />
            ) : null}
          </Fragment>
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

/** The other half of the moment, where the column of times holds the date alone. */
function TimeOfDayChoice({
  value,
  file,
  onChange,
  words: { editor: said },
}: {
  value: string | null;
  file: FileStart;
  onChange: (column: string | null) => void;
  words: FieldWords;
}) {
  return (
    <ColumnSelect
      label={said.timeOfDay}
      value={value === null ? NONE : COLUMN + value}
      file={file}
      chosen={value}
      before={[{ value: NONE, label: said.none }]}
      prefix={COLUMN}
      hint={value === null ? said.timeOfDayHint : sampleOf(file, value, said)}
      onChange={({ target }) => onChange(target.value === NONE ? null : target.value.slice(COLUMN.length))}
    />
  );
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
  const before = [
    { value: NONE, label: said.none },
    ...(named === "value" || named === "taken_at" ? [] : [{ value: CONSTANT, label: said.constant }]),
  ];
  function choose(text: string) {
    if (text === NONE) onChange(null);
    else if (text === CONSTANT) onChange({ constant: "" });
    else onChange({ column: text.slice(COLUMN.length) });
  }
  return (
    <div className={styles.choice}>
      <ColumnSelect
        label={label}
        value={chosen}
        file={file}
        chosen={value !== null && "column" in value ? value.column : null}
        before={before}
        prefix={COLUMN}
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
