"use client";

import { useState } from "react";
import type { StudyKind } from "../../lib/measurement-systems/study-data";
import type { TableFault } from "../../lib/measurement-systems/study-table";
import { UNITS } from "../../lib/plan/feature-plan";
import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { EntryForm } from "../fittings/entry-form";
import { type Choice, FieldGroup, SelectField, TextArea, TextField } from "../fittings/fields";
import { Note } from "../fittings/note";
import { enterGaugeStudy } from "./actions";
import styles from "./gauges.module.css";
import type { StudyAnswer, StudyFaults, StudyFields } from "./study-entry";
import { StudySheet } from "./study-sheet";

type FormWords = Words["studyForm"]["form"];

const KINDS: readonly StudyKind[] = ["crossed", "type-1", "bias-linearity", "setup"];

const WAYS = ["text", "sheet", "file"] as const;
type Way = (typeof WAYS)[number];

/** What a request may hold besides the file, whose readings would fit a hundred times. */
const MOST_BYTES = 900_000;

/** A study to be entered: what was done, on what, and its readings in one of three ways. */
export function StudyForm({
  gaugeId,
  features,
  today,
  words,
}: {
  gaugeId: number;
  features: readonly Choice[];
  today: string;
  words: FormWords;
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
    <EntryForm answer={answer} action={action} submit={words.submit} working={words.working}>
      <input type="hidden" name="gauge" value={gaugeId} />
      <Fields {...answer} features={features} today={today} words={words} />
    </EntryForm>
  );
}

function Fields({
  fields,
  faults,
  tableFaults,
  features,
  today,
  words,
}: StudyAnswer & { features: readonly Choice[]; today: string; words: FormWords }) {
  const [kind, setKind] = useState<string>(fields.kind);
  const [feature, setFeature] = useState(fields.feature);
  return (
    <>
      <FieldGroup legend={words.what} isStacked>
        <SelectField
          label={words.kind}
          name="kind"
          choices={KINDS.map((value) => ({ value, label: words.kinds[value] }))}
          value={kind}
          onChange={(event) => setKind(event.target.value)}
          fault={faults.kind}
        />
        <TextField
          label={words.madeOn}
          name="madeOn"
          type="date"
          max={today}
          defaultValue={fields.madeOn}
          fault={faults.madeOn}
        />
      </FieldGroup>
      <FieldGroup legend={words.on} hint={words.onHint} isStacked>
        <SelectField
          label={words.feature}
          name="feature"
          choices={[...features, { value: "", label: words.noFeature }]}
          value={feature}
          onChange={(event) => setFeature(event.target.value)}
          fault={faults.feature}
        />
        {feature === "" ? <OwnTolerance fields={fields} faults={faults} words={words} /> : null}
        {kind === "type-1" ? (
          <TextField
            label={words.reference}
            name="reference"
            inputMode="decimal"
            defaultValue={fields.reference}
            fault={faults.reference}
            hint={words.referenceHint}
          />
        ) : null}
      </FieldGroup>
      <Readings kind={kind} text={fields.table} faults={tableFaults} words={words} />
      <TextArea
        label={words.note}
        name="note"
        hint={words.noteHint}
        defaultValue={fields.note}
        fault={faults.note}
      />
    </>
  );
}

function OwnTolerance({
  fields,
  faults,
  words,
}: {
  fields: StudyFields;
  faults: StudyFaults;
  words: FormWords;
}) {
  return (
    <>
      <SelectField
        label={words.unit}
        name="unit"
        choices={UNITS.map((value) => ({ value, label: words.units[value] }))}
        defaultValue={fields.unit}
        fault={faults.unit}
      />
      <TextField
        label={words.width}
        name="width"
        inputMode="decimal"
        defaultValue={fields.width}
        fault={faults.width}
        hint={words.widthHint}
      />
    </>
  );
}

function Readings({
  kind,
  text,
  faults,
  words,
}: {
  kind: string;
  text: string;
  faults: readonly TableFault[];
  words: FormWords;
}) {
  const [way, setWay] = useState<Way>("text");
  const [tooLarge, setTooLarge] = useState("");
  // A sheet is ruled for parts by operators; other studies are a list, which the field holds well.
  const ways = WAYS.filter((value) => value !== "sheet" || kind === "crossed");
  const chosen = ways.includes(way) ? way : "text";
  return (
    <FieldGroup legend={words.readings} hint={words.layouts[kind as StudyKind]} isStacked>
      <div className={styles.ways} role="radiogroup" aria-label={words.how}>
        {ways.map((value) => (
          <label key={value}>
            <input type="radio" name="way" checked={chosen === value} onChange={() => setWay(value)} />{" "}
            {words.ways[value]}
          </label>
        ))}
      </div>
      <TableFaults faults={faults} words={words} />
      {chosen === "text" ? (
        <div className={styles.table}>
          <TextArea
            label={words.table}
            name="table"
            rows={14}
            spellCheck={false}
            defaultValue={text}
            hint={words.tableHint}
          />
        </div>
      ) : null}
      {chosen === "sheet" ? <StudySheet words={words.sheet} /> : null}
      {chosen === "file" ? (
        <TextField
          label={words.file}
          name="file"
          type="file"
          accept=".csv,.txt,.xlsx"
          fault={tooLarge}
          hint={words.fileHint}
          onChange={(event) => {
            const file = event.target.files?.[0];
            const isTooLarge = file !== undefined && file.size > MOST_BYTES;
            setTooLarge(
              isTooLarge
                ? fill(words.tooLarge, {
                    name: file.name,
                    size: Math.round(file.size / 1000),
                    most: MOST_BYTES / 1000,
                  })
                : "",
            );
            if (isTooLarge) event.target.value = "";
          }}
        />
      ) : null}
    </FieldGroup>
  );
}

function TableFaults({ faults, words }: { faults: readonly TableFault[]; words: FormWords }) {
  if (faults.length === 0) return null;
  return (
    <Note kind="refused" title={words.notTaken}>
      <ul className={styles.faults}>
        {faults.map(({ line, column, why }) => (
          <li key={`${line} ${column} ${why}`}>
            {fill(column === null ? words.line : words.lineColumn, {
              line,
              column: column ?? "",
              why,
            })}
          </li>
        ))}
      </ul>
    </Note>
  );
}
