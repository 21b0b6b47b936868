"use client";

import {
  DATE_FORMATS,
  type DateFormat,
  type DecimalMark,
  type FileEncoding,
  type Mapping,
  type Separator,
} from "../../../lib/intake/mapping";
import { toLongLayout, toWideLayout } from "../../../lib/intake/switch-layout";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { type Choice, FieldGroup, SelectField, TextField } from "../../fittings/fields";
import type { FileStart } from "./columns-of";
import { useTypedNumber } from "./use-typed-number";

type FormatWords = Words["desk"]["format"];

const SEPARATORS: readonly { value: Separator; name: keyof FormatWords["separators"] }[] = [
  { value: ",", name: "comma" },
  { value: ";", name: "semicolon" },
  { value: "\t", name: "tab" },
];
const DECIMALS: readonly { value: DecimalMark; name: keyof FormatWords["decimals"] }[] = [
  { value: ".", name: "point" },
  { value: ",", name: "comma" },
];
const ENCODINGS: readonly (Choice & { value: FileEncoding })[] = [
  { value: "utf-8", label: "UTF-8" },
  { value: "windows-1252", label: "Windows-1252" },
  { value: "utf-16", label: "UTF-16" },
];
const PLANT = "";

/** How the file is written: layout, marks, encoding, times. */
export function FormatChoices({
  mapping,
  file,
  plantZone,
  onChange,
  words: { format: said, values },
}: {
  mapping: Mapping;
  file: FileStart;
  plantZone: string;
  onChange: (mapping: Mapping) => void;
  words: Pick<Words["desk"], "format" | "values">;
}) {
  const zones = [
    { value: PLANT, label: fill(said.plantZone, { zone: plantZone }) },
    ...["UTC", ...Intl.supportedValuesOf("timeZone")].map((zone) => ({ value: zone, label: zone })),
  ];
  return (
    <>
      <FieldGroup legend={said.legend}>
        <SelectField
          label={said.layout}
          value={mapping.layout}
          choices={(["long", "wide"] as const).map((value) => ({
            value,
            label: said.layouts[value],
          }))}
          hint={said.layoutHints[mapping.layout]}
          onChange={(event) =>
            onChange(
              event.target.value === "long" ? toLongLayout(mapping, file) : toWideLayout(mapping, file),
            )
          }
        />
        <SelectField
          label={said.separator}
          value={mapping.separator}
          choices={SEPARATORS.map(({ value, name }) => ({ value, label: said.separators[name] }))}
          onChange={(event) => onChange({ ...mapping, separator: event.target.value as Separator })}
        />
        <SelectField
          label={said.decimal}
          value={mapping.decimal}
          choices={DECIMALS.map(({ value, name }) => ({ value, label: said.decimals[name] }))}
          onChange={(event) => onChange({ ...mapping, decimal: event.target.value as DecimalMark })}
        />
        <SelectField
          label={said.encoding}
          value={mapping.encoding}
          choices={ENCODINGS}
          onChange={(event) => onChange({ ...mapping, encoding: event.target.value as FileEncoding })}
        />
        <SelectField
          label={said.dates}
          value={mapping.dateFormat}
          choices={DATE_FORMATS.map((value) => ({ value, label: said.dateFormats[value] }))}
          onChange={(event) => onChange({ ...mapping, dateFormat: event.target.value as DateFormat })}
        />
        <SelectField
          label={said.zone}
          value={mapping.zone ?? PLANT}
          choices={zones}
          hint={said.zoneHint}
          onChange={(event) => onChange({ ...mapping, zone: event.target.value || null })}
        />
      </FieldGroup>
      {mapping.columns.taken_at === null ? (
        <FieldGroup legend={said.times} hint={said.timesHint}>
          <TextField
            label={said.first}
            type="datetime-local"
            value={mapping.time?.start ?? ""}
            onChange={(event) => onChange({ ...mapping, time: timeFrom(event.target.value, mapping) })}
          />
          {mapping.time ? (
            <StepField
              label={said.step}
              seconds={mapping.time.stepSeconds}
              notNumber={values.notNumber}
              onChange={(stepSeconds) =>
                onChange({ ...mapping, time: mapping.time && { ...mapping.time, stepSeconds } })
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

function StepField({
  label,
  seconds,
  notNumber,
  onChange,
}: {
  label: string;
  seconds: number;
  notNumber: string;
  onChange: (seconds: number) => void;
}) {
  const { text, isFault, type } = useTypedNumber(seconds, {
    none: 0,
    onChange: (typed) => onChange(Math.max(0, typed)),
  });
  return (
    <TextField
      label={label}
      inputMode="decimal"
      unit="s"
      value={text}
      fault={isFault ? notNumber : undefined}
      onChange={(event) => type(event.target.value)}
    />
  );
}
