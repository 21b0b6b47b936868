"use client";

import { fixed } from "../../lib/format/numbers";
import { MATERIALS } from "../../lib/temperature/materials";
import { useAnswer } from "../fittings/answer";
import { unsent } from "../fittings/entry";
import { EntryForm } from "../fittings/entry-form";
import { FieldGroup, TextArea, TextField } from "../fittings/fields";
import { savePart } from "./actions";
import type { PartAnswer } from "./answers";
import type { PartFields } from "./part-entry";

const PER_MILLION = 1e6;

const HANDBOOK = MATERIALS.map(
  ({ name, expansion }) => `${name} ${fixed(expansion.coefficient * PER_MILLION, 1)}`,
).join(", ");

/** A part, to be changed or, without `id`, entered. */
export function PartForm({ id, fields: stored }: { id?: number; fields: PartFields }) {
  const [answer, action] = useAnswer<PartAnswer>(savePart, unsent(stored));
  const { fields, faults } = answer;
  return (
    <EntryForm
      answer={answer}
      action={action}
      submit={id === undefined ? "Enter this part" : "Save the change"}
    >
      {id === undefined ? null : <input type="hidden" name="id" value={id} />}
      <FieldGroup legend="The part">
        <TextField label="Number" name="number" required defaultValue={fields.number} fault={faults.number} />
        <TextField label="Revision" name="revision" defaultValue={fields.revision} fault={faults.revision} />
        <TextField label="Name" name="name" defaultValue={fields.name} fault={faults.name} />
        <TextField label="Line" name="line" defaultValue={fields.line} fault={faults.line} />
        <TextField label="Material" name="material" defaultValue={fields.material} fault={faults.material} />
        <TextField
          label="Expansion coefficient"
          name="expansion"
          inputMode="decimal"
          unit="10⁻⁶ / K"
          hint={`For features charted at 20 °C. Handbooks give about: ${HANDBOOK}.`}
          defaultValue={fields.expansion}
          fault={faults.expansion}
        />
      </FieldGroup>
      {id === undefined ? null : (
        <TextArea
          label="Reason for the change"
          name="reason"
          defaultValue={fields.reason}
          fault={faults.reason}
        />
      )}
    </EntryForm>
  );
}
