"use client";

import { type ComponentProps, useState } from "react";
import { SelectField } from "../../fittings/fields";
import { columnChoices, type FileStart } from "./columns-of";

/** A file of more columns than these is offered in a list only once somebody turns to it. */
const FEW = 100;

/**
 * A list of a file's columns to choose from, after what else can be chosen.
 *
 * Twenty such lists of 1,500 columns are thirty thousand lines of which nobody reads one: they took most of the time in
 * which the editor opened. The focus comes before a list unfolds, by hand and by key.
 */
export function ColumnSelect({
  file,
  chosen,
  before,
  prefix = "",
  ...field
}: Omit<ComponentProps<typeof SelectField>, "choices"> & {
  file: FileStart;
  /** The column that is chosen; null for none. */
  chosen: string | null;
  before: ComponentProps<typeof SelectField>["choices"];
  /** Before a column's name in its value, so that none is taken for another choice. */
  prefix?: string;
}) {
  const [isTurnedTo, setTurnedTo] = useState(false);
  const isOffered = isTurnedTo || file.header.length <= FEW;
  const columns = isOffered ? columnChoices(file, chosen) : chosen === null ? [] : [chosen];
  return (
    <SelectField
      {...field}
      choices={[...before, ...columns.map((column) => ({ value: prefix + column, label: column }))]}
      onFocus={() => setTurnedTo(true)}
      onPointerDown={() => setTurnedTo(true)}
    />
  );
}
