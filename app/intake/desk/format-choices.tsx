"use client";

import type { DateFormat, DecimalMark, FileEncoding, Mapping, Separator } from "../../../lib/intake/mapping";
import { toLongLayout, toWideLayout } from "../../../lib/intake/switch-layout";
import { type Choice, FieldGroup, SelectField, TextField } from "../../fittings/fields";
import type { FileStart } from "./columns-of";

const LAYOUTS: readonly (Choice & { value: Mapping["layout"] })[] = [
  { value: "long", label: "one measurement a row" },
  { value: "wide", label: "one piece a row" },
];
const SEPARATORS: readonly (Choice & { value: Separator })[] = [
  { value: ",", label: "comma" },
  { value: ";", label: "semicolon" },
  { value: "\t", label: "tab" },
];
const DECIMALS: readonly (Choice & { value: DecimalMark })[] = [
  { value: ".", label: "point: 62.008" },
  { value: ",", label: "comma: 62,008" },
];
const ENCODINGS: readonly (Choice & { value: FileEncoding })[] = [
  { value: "utf-8", label: "UTF-8" },
  { value: "windows-1252", label: "Windows-1252" },
  { value: "utf-16", label: "UTF-16" },
];
const FORMATS: readonly (Choice & { value: DateFormat })[] = [
  { value: "iso", label: "2026-11-13 06:50" },
  { value: "day-first", label: "13.11.2026 or 13/11/2026" },
  { value: "month-first", label: "11/13/2026" },
  { value: "serial", label: "45385.25 (spreadsheet)" },
];
const PLANT = "";

/** How the file is written: layout, marks, encoding, times. */
export function FormatChoices({
  mapping,
  file,
  plantZone,
  onChange,
}: {
  mapping: Mapping;
  file: FileStart;
  plantZone: string;
  onChange: (mapping: Mapping) => void;
}) {
  const zones = [
    { value: PLANT, label: `the plant's, ${plantZone}` },
    ...["UTC", ...Intl.supportedValuesOf("timeZone")].map((zone) => ({ value: zone, label: zone })),
  ];
  return (
    <>
      <FieldGroup legend="How the file is written">
        <SelectField
          label="Layout"
          value={mapping.layout}
          choices={LAYOUTS}
          hint={mapping.layout === "wide" ? "a column for each feature" : "a column names the feature"}
          onChange={(event) =>
            onChange(
              event.target.value === "long" ? toLongLayout(mapping, file) : toWideLayout(mapping, file),
            )
          }
        />
        <SelectField
          label="Separator"
          value={mapping.separator}
          choices={SEPARATORS}
          onChange={(event) => onChange({ ...mapping, separator: event.target.value as Separator })}
        />
        <SelectField
          label="Decimal mark"
          value={mapping.decimal}
          choices={DECIMALS}
          onChange={(event) => onChange({ ...mapping, decimal: event.target.value as DecimalMark })}
        />
        <SelectField
          label="Encoding"
          value={mapping.encoding}
          choices={ENCODINGS}
          onChange={(event) => onChange({ ...mapping, encoding: event.target.value as FileEncoding })}
        />
        <SelectField
          label="Dates look like"
          value={mapping.dateFormat}
          choices={FORMATS}
          onChange={(event) => onChange({ ...mapping, dateFormat: event.target.value as DateFormat })}
        />
        <SelectField
          label="Zone of the times"
          value={mapping.zone ?? PLANT}
          choices={zones}
          hint="for times that state none"
          onChange={(event) => onChange({ ...mapping, zone: event.target.value || null })}
        />
      </FieldGroup>
      {mapping.columns.taken_at === null ? (
        <FieldGroup
          legend="Times, as the file states none"
          hint="Left empty, the rows follow each other by a minute from the start of today, in the order of the file."
        >
          <TextField
            label="Time of the first row"
            type="datetime-local"
            value={mapping.time?.start ?? ""}
            onChange={(event) => onChange({ ...mapping, time: timeFrom(event.target.value, mapping) })}
          />
          {mapping.time ? (
            <TextField
              label="From one row to the next"
              type="number"
              min={0}
              step="any"
              unit="s"
              value={mapping.time.stepSeconds}
              onChange={(event) =>
                onChange({
                  ...mapping,
                  time: mapping.time && {
                    ...mapping.time,
                    stepSeconds: Math.max(0, Number(event.target.value) || 0),
                  },
                })
              }
            />
          ) : null}
        </FieldGroup>
      ) : null}
    </>
  );
}

function timeFrom(start: string, { time }: Mapping): Mapping["time"] {
  return start === "" ? null : { start, stepSeconds: time?.stepSeconds ?? 60 };
}
