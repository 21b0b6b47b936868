"use client";

import { useState } from "react";
import { USUAL_CUSUM, USUAL_EWMA } from "../../lib/plan/memory-chart";
import { CheckField, FieldGroup, SelectField, TextField } from "../fittings/fields";
import type { FeatureFields, FieldFaults } from "./feature-entry";

/** A chart with a memory that watches the feature all the time, for small lasting shifts. */
export function AlsoWatch({
  fields,
  faults,
  inForce,
}: {
  fields: FeatureFields;
  faults: FieldFaults;
  /** What the stored one costs and finds; empty without one. */
  inForce: string;
}) {
  const [kind, setKind] = useState(fields.alsoWatch || "none");
  return (
    <FieldGroup
      legend="Also watch with"
      hint="Beside the chart above and with the same limits: a chart that remembers finds small lasting shifts sooner, and large ones later. Each has false alarms of its own."
      fault={faults.alsoWatch}
    >
      <SelectField
        label="Chart with a memory"
        name="alsoWatch"
        value={kind}
        onChange={(event) => setKind(event.target.value)}
        choices={[
          { value: "none", label: "none" },
          { value: "ewma", label: "weighted average (EWMA)" },
          { value: "cusum", label: "cumulative sum (CUSUM)" },
        ]}
        hint={inForce === "" ? undefined : `In force: ${inForce}`}
      />
      {kind === "ewma" ? (
        <>
          <TextField
            label="λ, weight of the newest point"
            name="smoothing"
            inputMode="decimal"
            defaultValue={fields.smoothing}
            fault={faults.smoothing}
            hint={`0.01 to 1. Empty: ${USUAL_EWMA.smoothing}.`}
          />
          <TextField
            label="L, limits in sigma"
            name="width"
            inputMode="decimal"
            defaultValue={fields.width}
            fault={faults.width}
            hint={`Empty: ${USUAL_EWMA.width}.`}
          />
        </>
      ) : null}
      {kind === "cusum" ? (
        <>
          <TextField
            label="k, half the shift to find"
            name="reference"
            inputMode="decimal"
            defaultValue={fields.reference}
            fault={faults.reference}
            hint={`In sigma of the plotted point. Empty: ${USUAL_CUSUM.reference}.`}
          />
          <TextField
            label="h, where it signals"
            name="decisionInterval"
            inputMode="decimal"
            defaultValue={fields.decisionInterval}
            fault={faults.decisionInterval}
            hint={`In sigma of the plotted point. Empty: ${USUAL_CUSUM.decisionInterval}.`}
          />
          <CheckField
            label="Fast initial response"
            hint="Begins at h/2, so that a process that starts off centre is found sooner."
            name="headStart"
            defaultChecked={fields.headStart}
          />
        </>
      ) : null}
    </FieldGroup>
  );
}
