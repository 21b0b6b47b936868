"use client";

import { fixed } from "../../lib/format/numbers";
import { MATERIALS } from "../../lib/temperature/materials";
import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { unsent } from "../fittings/entry";
import { EntryForm } from "../fittings/entry-form";
import { FieldGroup, TextArea, TextField } from "../fittings/fields";
import { savePart } from "./actions";
import type { PartAnswer } from "./answers";
import type { PartFields } from "./part-entry";

const PER_MILLION = 1e6;

/** A part, to be changed or, without `id`, entered. */
export function PartForm({
  id,
  fields: stored,
  words,
}: {
  id?: number;
  fields: PartFields;
  words: Words["plan"]["partForm"];
}) {
  const [answer, action] = useAnswer<PartAnswer>(savePart, unsent(stored));
  const { fields, faults } = answer;
  const handbook = MATERIALS.map(
    ({ name, expansion }) =>
      `${words.materials[name] ?? name} ${fixed(expansion.coefficient * PER_MILLION, 1)}`,
  ).join(", ");
  return (
    <EntryForm
      answer={answer}
      action={action}
      submit={id === undefined ? words.enter : words.save}
      working={words.saving}
    >
      {id === undefined ? null : <input type="hidden" name="id" value={id} />}
      <FieldGroup legend={words.legend}>
        <TextField
          label={words.number}
          name="number"
          required
          defaultValue={fields.number}
          fault={faults.number}
        />
        <TextField
          label={words.revision}
          name="revision"
          defaultValue={fields.revision}
          fault={faults.revision}
        />
        <TextField label={words.name} name="name" defaultValue={fields.name} fault={faults.name} />
        <TextField label={words.line} name="line" defaultValue={fields.line} fault={faults.line} />
        <TextField
          label={words.material}
          name="material"
          defaultValue={fields.material}
          fault={faults.material}
        />
        <TextField
          label={words.expansion}
          name="expansion"
          inputMode="decimal"
          unit="10⁻⁶ / K"
          hint={fill(words.expansionHint, { handbook })}
          defaultValue={fields.expansion}
          fault={faults.expansion}
        />
      </FieldGroup>
      {id === undefined ? null : (
        <TextArea label={words.reason} name="reason" defaultValue={fields.reason} fault={faults.reason} />
      )}
    </EntryForm>
  );
}
