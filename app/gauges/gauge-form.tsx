"use client";

import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { unsent } from "../fittings/entry";
import { EntryForm } from "../fittings/entry-form";
import { CheckField, FieldGroup, TextArea, TextField } from "../fittings/fields";
import { saveGaugeRecord } from "./actions";
import type { GaugeAnswer } from "./answers";
import type { GaugeFields } from "./gauge-entry";

/** The record of a gauge, to be changed or, without `gaugeId`, entered with its code. */
export function GaugeForm({
  gaugeId,
  fields: stored,
  words,
}: {
  gaugeId?: number;
  fields: GaugeFields;
  words: Words["gauges"]["form"];
}) {
  const { what, maker, calibration } = words;
  const [answer, action] = useAnswer<GaugeAnswer>(saveGaugeRecord, unsent(stored));
  const { fields, faults } = answer;
  return (
    <EntryForm
      answer={answer}
      action={action}
      submit={gaugeId === undefined ? words.enter : words.save}
      working={words.saving}
    >
      {gaugeId === undefined ? null : <input type="hidden" name="gauge" value={gaugeId} />}
      <FieldGroup legend={what.legend}>
        {gaugeId === undefined ? (
          <TextField
            label={what.code}
            name="code"
            required
            defaultValue={fields.code}
            fault={faults.code}
            hint={what.codeHint}
          />
        ) : null}
        <TextField
          label={what.label}
          name="what"
          defaultValue={fields.what}
          fault={faults.what}
          hint={what.hint}
        />
        <CheckField
          label={what.portable}
          hint={what.portableHint}
          name="portable"
          defaultChecked={fields.portable}
        />
      </FieldGroup>
      <FieldGroup legend={maker.legend} hint={maker.hint}>
        <TextField
          label={maker.resolution}
          name="resolution"
          inputMode="decimal"
          unit="mm"
          defaultValue={fields.resolution}
          fault={faults.resolution}
          hint={maker.resolutionHint}
        />
        <TextField
          label={maker.A}
          name="errorA"
          inputMode="decimal"
          unit="µm"
          defaultValue={fields.errorA}
          fault={faults.errorA}
          hint={maker.AHint}
        />
        <TextField
          label={maker.K}
          name="errorK"
          inputMode="decimal"
          unit={maker.KUnit}
          defaultValue={fields.errorK}
          fault={faults.errorK}
          hint={maker.KHint}
        />
      </FieldGroup>
      <FieldGroup legend={calibration.legend}>
        <TextField
          label={calibration.on}
          name="calibratedOn"
          type="date"
          defaultValue={fields.calibratedOn}
          fault={faults.calibratedOn}
        />
        <TextField
          label={calibration.due}
          name="calibrationDue"
          type="date"
          defaultValue={fields.calibrationDue}
          fault={faults.calibrationDue}
          hint={calibration.dueHint}
        />
      </FieldGroup>
      <TextArea label={words.note} name="note" defaultValue={fields.note} fault={faults.note} />
    </EntryForm>
  );
}
