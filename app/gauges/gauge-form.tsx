"use client";

import { useAnswer } from "../fittings/answer";
import { unsent } from "../fittings/entry";
import { EntryForm } from "../fittings/entry-form";
import { CheckField, FieldGroup, TextArea, TextField } from "../fittings/fields";
import { saveGaugeRecord } from "./actions";
import type { GaugeAnswer } from "./answers";
import type { GaugeFields } from "./gauge-entry";

/** The record of a gauge, to be changed or, without `gaugeId`, entered with its code. */
export function GaugeForm({ gaugeId, fields: stored }: { gaugeId?: number; fields: GaugeFields }) {
  const [answer, action] = useAnswer<GaugeAnswer>(saveGaugeRecord, unsent(stored));
  const { fields, faults } = answer;
  return (
    <EntryForm
      answer={answer}
      action={action}
      submit={gaugeId === undefined ? "Enter this gauge" : "Save the record"}
    >
      {gaugeId === undefined ? null : <input type="hidden" name="gauge" value={gaugeId} />}
      <FieldGroup legend="What it is">
        {gaugeId === undefined ? (
          <TextField
            label="Code"
            name="code"
            required
            defaultValue={fields.code}
            fault={faults.code}
            hint="As measurement files name it."
          />
        ) : null}
        <TextField
          label="What it is"
          name="what"
          defaultValue={fields.what}
          fault={faults.what}
          hint="For example: bench station with master ring."
        />
        <CheckField
          label="Portable"
          hint="Set up anew at each place; its setups are sources of their own."
          name="portable"
          defaultChecked={fields.portable}
        />
      </FieldGroup>
      <FieldGroup
        legend="What its maker states"
        hint="For an error that does not grow with length leave K empty."
      >
        <TextField
          label="Resolution"
          name="resolution"
          inputMode="decimal"
          unit="mm"
          defaultValue={fields.resolution}
          fault={faults.resolution}
          hint="Smallest step it shows."
        />
        <TextField
          label="Permissible error, A"
          name="errorA"
          inputMode="decimal"
          unit="µm"
          defaultValue={fields.errorA}
          fault={faults.errorA}
          hint="Of A + L/K: 1.7 in “1.7 + L/300”."
        />
        <TextField
          label="Permissible error, K"
          name="errorK"
          inputMode="decimal"
          unit="mm per µm"
          defaultValue={fields.errorK}
          fault={faults.errorK}
          hint="300 in “1.7 + L/300”."
        />
      </FieldGroup>
      <FieldGroup legend="Calibration">
        <TextField
          label="Calibrated on"
          name="calibratedOn"
          type="date"
          defaultValue={fields.calibratedOn}
          fault={faults.calibratedOn}
        />
        <TextField
          label="Due"
          name="calibrationDue"
          type="date"
          defaultValue={fields.calibrationDue}
          fault={faults.calibrationDue}
          hint="The board shows it from 30 days before."
        />
      </FieldGroup>
      <TextArea label="Note" name="note" defaultValue={fields.note} fault={faults.note} />
    </EntryForm>
  );
}
