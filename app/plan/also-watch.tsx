"use client";

import { useState } from "react";
import { USUAL_CUSUM, USUAL_EWMA } from "../../lib/plan/memory-chart";
import { fill } from "../../lib/words/fill";
import { CheckField, FieldGroup, SelectField, TextField } from "../fittings/fields";
import type { FeatureFields, FieldFaults } from "./feature-entry";
import type { FormWords } from "./form-words";

/** A chart with a memory that watches the feature all the time, for small lasting shifts. */
export function AlsoWatch({
  fields,
  faults,
  inForce,
  words,
}: {
  fields: FeatureFields;
  faults: FieldFaults;
  /** What the stored one costs and finds; empty without one. */
  inForce: string;
  words: FormWords["memory"];
}) {
  const [kind, setKind] = useState(fields.alsoWatch || "none");
  return (
    <FieldGroup legend={words.legend} hint={words.hint} fault={faults.alsoWatch}>
      <SelectField
        label={words.chart}
        name="alsoWatch"
        value={kind}
        onChange={(event) => setKind(event.target.value)}
        choices={[
          { value: "none", label: words.kinds.none },
          { value: "ewma", label: words.kinds.ewma },
          { value: "cusum", label: words.kinds.cusum },
        ]}
        hint={inForce === "" ? undefined : fill(words.inForce, { words: inForce })}
      />
      {kind === "ewma" ? (
        <>
          <TextField
            label={words.lambda}
            name="smoothing"
            inputMode="decimal"
            defaultValue={fields.smoothing}
            fault={faults.smoothing}
            hint={fill(words.lambdaHint, { usual: USUAL_EWMA.smoothing })}
          />
          <TextField
            label={words.L}
            name="width"
            inputMode="decimal"
            defaultValue={fields.width}
            fault={faults.width}
            hint={fill(words.LHint, { usual: USUAL_EWMA.width })}
          />
        </>
      ) : null}
      {kind === "cusum" ? (
        <>
          <TextField
            label={words.k}
            name="reference"
            inputMode="decimal"
            defaultValue={fields.reference}
            fault={faults.reference}
            hint={fill(words.sigmaHint, { usual: USUAL_CUSUM.reference })}
          />
          <TextField
            label={words.h}
            name="decisionInterval"
            inputMode="decimal"
            defaultValue={fields.decisionInterval}
            fault={faults.decisionInterval}
            hint={fill(words.sigmaHint, { usual: USUAL_CUSUM.decisionInterval })}
          />
          <CheckField
            label={words.fast}
            hint={words.fastHint}
            name="headStart"
            defaultChecked={fields.headStart}
          />
        </>
      ) : null}
    </FieldGroup>
  );
}
