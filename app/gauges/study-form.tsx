"use client";

import { useState } from "react";
import type { StudyKind } from "../../lib/measurement-systems/study-data";
import type { TableFault } from "../../lib/measurement-systems/study-table";
import { useAnswer } from "../fittings/answer";
import { EntryForm } from "../fittings/entry-form";
import { type Choice, FieldGroup, SelectField, TextArea, TextField } from "../fittings/fields";
import { Note } from "../fittings/note";
import { enterGaugeStudy } from "./actions";
import styles from "./gauges.module.css";
import type { StudyAnswer, StudyFaults, StudyFields } from "./study-entry";
import { StudySheet } from "./study-sheet";

const KINDS: readonly (Choice & { value: StudyKind; layout: string })[] = [
  {
    value: "crossed",
    label: "crossed study: several people, several parts, several trials",
    layout:
      "Name the columns in the first row: part, operator, value, and trial if you like. Or as on paper: operator, trial and one column for each part.",
  },
  {
    value: "type-1",
    label: "type-1 study: one known piece, measured often",
    layout: "One reading on each line, 25 or more.",
  },
  {
    value: "bias-linearity",
    label: "bias and linearity: pieces of known size over the range",
    layout: "Name the columns in the first row: reference and value.",
  },
  {
    value: "setup",
    label: "setup study: a portable gauge set up anew",
    layout: "Name the columns in the first row: setup, value, and part where several were measured.",
  },
];

const WAYS = [
  { value: "text", label: "Paste or type a table" },
  { value: "sheet", label: "Type into a sheet" },
  { value: "file", label: "Take a file (CSV, XLSX)" },
] as const;
type Way = (typeof WAYS)[number]["value"];

/** What a request may hold besides the file, whose readings would fit a hundred times. */
const MOST_BYTES = 900_000;

/** A study to be entered: what was done, on what, and its readings in one of three ways. */
export function StudyForm({
  gaugeId,
  features,
  today,
}: {
  gaugeId: number;
  features: readonly Choice[];
  today: string;
}) {
  const [answer, action] = useAnswer<StudyAnswer>(enterGaugeStudy, {
    done: false,
    message: "",
    faults: {},
    tableFaults: [],
    fields: {
      kind: "crossed",
      feature: features[0]?.value ?? "",
      unit: "mm",
      width: "",
      reference: "",
      madeOn: today,
      note: "",
      table: "",
    },
    attempt: 0,
  });
  return (
    <EntryForm answer={answer} action={action} submit="Enter this study" working="Working out …">
      <input type="hidden" name="gauge" value={gaugeId} />
      <Fields {...answer} features={features} today={today} />
    </EntryForm>
  );
}

function Fields({
  fields,
  faults,
  tableFaults,
  features,
  today,
}: StudyAnswer & { features: readonly Choice[]; today: string }) {
  const [kind, setKind] = useState<string>(fields.kind);
  const [feature, setFeature] = useState(fields.feature);
  return (
    <>
      <FieldGroup legend="What was done" isStacked>
        <SelectField
          label="Kind of study"
          name="kind"
          choices={KINDS}
          value={kind}
          onChange={(event) => setKind(event.target.value)}
          fault={faults.kind}
        />
        <TextField
          label="Made on"
          name="madeOn"
          type="date"
          max={today}
          defaultValue={fields.madeOn}
          fault={faults.madeOn}
        />
      </FieldGroup>
      <FieldGroup
        legend="On what"
        hint="A feature of the control plan brings its unit and tolerance along."
        isStacked
      >
        <SelectField
          label="Feature"
          name="feature"
          choices={[...features, { value: "", label: "none of the control plan" }]}
          value={feature}
          onChange={(event) => setFeature(event.target.value)}
          fault={faults.feature}
        />
        {feature === "" ? <OwnTolerance fields={fields} faults={faults} /> : null}
        {kind === "type-1" ? (
          <TextField
            label="Size of the known piece"
            name="reference"
            inputMode="decimal"
            defaultValue={fields.reference}
            fault={faults.reference}
            hint="From its calibration certificate, in the unit of the readings."
          />
        ) : null}
      </FieldGroup>
      <Readings kind={kind} text={fields.table} faults={tableFaults} />
      <TextArea
        label="Note"
        name="note"
        hint="Who measured, where, at what temperature: what a reader in a year would ask."
        defaultValue={fields.note}
        fault={faults.note}
      />
    </>
  );
}

function OwnTolerance({ fields, faults }: { fields: StudyFields; faults: StudyFaults }) {
  return (
    <>
      <SelectField
        label="Unit"
        name="unit"
        choices={[
          { value: "mm", label: "mm" },
          { value: "in", label: "in" },
          { value: "deg", label: "degrees" },
          { value: "none", label: "no unit" },
        ]}
        defaultValue={fields.unit}
        fault={faults.unit}
      />
      <TextField
        label="Width of the tolerance"
        name="width"
        inputMode="decimal"
        defaultValue={fields.width}
        fault={faults.width}
        hint="Upper less lower limit. Empty: per cent of the tolerance is left out."
      />
    </>
  );
}

function Readings({ kind, text, faults }: { kind: string; text: string; faults: readonly TableFault[] }) {
  const [way, setWay] = useState<Way>("text");
  const [tooLarge, setTooLarge] = useState("");
  // A sheet is ruled for parts by operators; other studies are a list, which the field holds well.
  const ways = WAYS.filter(({ value }) => value !== "sheet" || kind === "crossed");
  const chosen = ways.some(({ value }) => value === way) ? way : "text";
  return (
    <FieldGroup legend="Readings" hint={KINDS.find(({ value }) => value === kind)?.layout} isStacked>
      <div className={styles.ways} role="radiogroup" aria-label="How the readings come in">
        {ways.map(({ value, label }) => (
          <label key={value}>
            <input type="radio" name="way" checked={chosen === value} onChange={() => setWay(value)} />{" "}
            {label}
          </label>
        ))}
      </div>
      <TableFaults faults={faults} />
      {chosen === "text" ? (
        <div className={styles.table}>
          <TextArea
            label="Table"
            name="table"
            rows={14}
            spellCheck={false}
            defaultValue={text}
            hint="Columns parted by tabs, as a spreadsheet copies them, or by semicolons or commas. A decimal comma will do where commas do not part the columns."
          />
        </div>
      ) : null}
      {chosen === "sheet" ? <StudySheet /> : null}
      {chosen === "file" ? (
        <TextField
          label="File"
          name="file"
          type="file"
          accept=".csv,.txt,.xlsx"
          fault={tooLarge}
          hint="Its first sheet that holds anything. It can be mended here when it is refused."
          onChange={(event) => {
            const file = event.target.files?.[0];
            const isTooLarge = file !== undefined && file.size > MOST_BYTES;
            setTooLarge(
              isTooLarge
                ? `${file.name} has ${Math.round(file.size / 1000)} kB; a gauge study has at most ${MOST_BYTES / 1000}. Export its readings alone.`
                : "",
            );
            if (isTooLarge) event.target.value = "";
          }}
        />
      ) : null}
    </FieldGroup>
  );
}

function TableFaults({ faults }: { faults: readonly TableFault[] }) {
  if (faults.length === 0) return null;
  return (
    <Note kind="refused" title="The table could not be taken">
      <ul className={styles.faults}>
        {faults.map(({ line, column, why }) => (
          <li key={`${line} ${column} ${why}`}>
            Line {line}
            {column === null ? "" : `, column ${column}`}: {why}
          </li>
        ))}
      </ul>
    </Note>
  );
}
