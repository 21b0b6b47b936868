"use client";

import { useState } from "react";
import type { RuleCost } from "../../lib/alarm-budget/rule-cost";
import { CHART_WORDS, COUNT_CHART_WORDS } from "../../lib/format/names";
import { unitSign } from "../../lib/format/numbers";
import { ATTRIBUTE_CHARTS, CHART_KINDS, FEATURE_KINDS, UNITS } from "../../lib/plan/feature-plan";
import { RULES } from "../../lib/rules/known-rules";
import { useAnswer } from "../fittings/answer";
import { unsent } from "../fittings/entry";
import { EntryForm } from "../fittings/entry-form";
import { CheckField, FieldGroup, SelectField, TextArea, TextField } from "../fittings/fields";
import { saveFeature } from "./actions";
import { AlsoWatch } from "./also-watch";
import type { FeatureAnswer } from "./answers";
import type { CostAnswer } from "./cost-answer";
import type { FeatureFields, FieldFaults } from "./feature-entry";
import { RuleCostPanel } from "./rule-cost-panel";

/** What the control plan says of a feature, to be changed or, without `featureId`, entered for a part. */
export function FeatureForm({
  featureId,
  partId,
  fields: stored,
  partExpansion,
  ruleCost = null,
  watchWords = "",
}: {
  featureId?: number;
  partId: number;
  fields: FeatureFields;
  /** The part's own coefficient as text, which holds where the feature states none. */
  partExpansion: string;
  /** What the stored rules cost. */
  ruleCost?: RuleCost | null;
  /** What the stored chart with a memory costs and finds; empty without one. */
  watchWords?: string;
}) {
  const [answer, action] = useAnswer<FeatureAnswer>(saveFeature, unsent(stored));
  const { fields, faults } = answer;
  return (
    <EntryForm
      answer={answer}
      action={action}
      submit={featureId === undefined ? "Enter this feature" : "Save the change"}
    >
      <input type="hidden" name="part" value={partId} />
      {featureId === undefined ? null : <input type="hidden" name="feature" value={featureId} />}
      <WhatItIs fields={fields} faults={faults} />
      <Tolerance fields={fields} faults={faults} />
      <Charting fields={fields} faults={faults} />
      <Rules fields={fields} faults={faults} ruleCost={ruleCost} />
      <AlsoWatch fields={fields} faults={faults} inForce={watchWords} />
      <Temperature fields={fields} faults={faults} partExpansion={partExpansion} />
      {featureId === undefined ? null : (
        <TextArea
          label="Reason for the change"
          hint="Needed when tolerance, chart, subgroup size, rules or temperature change: the record keeps it."
          name="reason"
          defaultValue={fields.reason}
          fault={faults.reason}
        />
      )}
    </EntryForm>
  );
}

type Fieldset = { fields: FeatureFields; faults: FieldFaults };

function WhatItIs({ fields, faults }: Fieldset) {
  return (
    <FieldGroup legend="What it is">
      <TextField label="Name" name="name" required defaultValue={fields.name} fault={faults.name} />
      <SelectField
        label="Kind"
        name="kind"
        choices={FEATURE_KINDS.map((kind) => ({ value: kind, label: kind }))}
        defaultValue={fields.kind}
        fault={faults.kind}
      />
      <SelectField
        label="Unit"
        name="unit"
        choices={UNITS.map((unit) => ({ value: unit, label: UNIT_WORDS[unit] }))}
        defaultValue={fields.unit}
        fault={faults.unit}
        hint="Stays once there are measurements."
      />
      <TextField
        label="Resolution"
        name="resolution"
        inputMode="decimal"
        defaultValue={fields.resolution}
        fault={faults.resolution}
        hint="Smallest step of the gauge, such as 0.001."
      />
      <CheckField
        label="Key characteristic"
        hint="Named so by the drawing or the customer."
        name="keyCharacteristic"
        defaultChecked={fields.keyCharacteristic}
      />
    </FieldGroup>
  );
}

const UNIT_WORDS = { mm: "mm", in: "in", deg: "degrees", none: "no unit" } as const;

function Tolerance({ fields, faults }: Fieldset) {
  const unit = unitSign(fields.unit);
  const one = (
    name: "nominal" | "lower" | "upper" | "target" | "naturalBound",
    label: string,
    hint?: string,
  ) => (
    <TextField
      label={label}
      name={name}
      inputMode="decimal"
      unit={unit}
      defaultValue={fields[name]}
      fault={faults[name]}
      hint={hint}
    />
  );
  return (
    <FieldGroup
      legend="What the drawing asks"
      hint="Limits as absolute values, not as deviations. Leave empty what the drawing does not give."
    >
      {one("lower", "Lower tolerance limit")}
      {one("nominal", "Nominal")}
      {one("upper", "Upper tolerance limit")}
      {one("target", "Target", "Where it should lie when that is not the middle.")}
      {one("naturalBound", "Natural bound", "A limit set by physics, such as 0 for form and position.")}
    </FieldGroup>
  );
}

function Charting({ fields, faults }: Fieldset) {
  return (
    <FieldGroup legend="How it is charted">
      <SelectField
        label="Chart"
        name="chart"
        choices={[
          ...CHART_KINDS.map((chart) => ({ value: chart, label: CHART_WORDS[chart] })),
          ...ATTRIBUTE_CHARTS.map((chart) => ({
            value: chart,
            label: `counts: ${COUNT_CHART_WORDS[chart]}`,
          })),
        ]}
        defaultValue={fields.chart}
        fault={faults.chart}
      />
      <TextField
        label="Subgroup size"
        name="subgroupSize"
        inputMode="numeric"
        defaultValue={fields.subgroupSize}
        fault={faults.subgroupSize}
        hint="1 for single readings; counts stand singly."
      />
      <TextField
        label="Counts: found on how many"
        name="countedOn"
        inputMode="decimal"
        defaultValue={fields.countedOn}
        fault={faults.countedOn}
        hint="Pieces looked at (p, np) or units (c, u), always as many. Empty for measured values."
      />
    </FieldGroup>
  );
}

function Rules({ fields, faults, ruleCost }: Fieldset & { ruleCost: RuleCost | null }) {
  const [answer, setAnswer] = useState<CostAnswer | null>(null);
  return (
    <FieldGroup
      legend="Run rules in force"
      hint="Each further rule finds more and gives more false alarms."
      fault={faults.rules}
      isStacked
    >
      {RULES.map(({ slug, statement, source }) => (
        <CheckField
          key={slug}
          label={statement}
          hint={source}
          name="rules"
          value={slug}
          defaultChecked={fields.rules.includes(slug)}
          onChange={() => setAnswer(null)}
        />
      ))}
      <RuleCostPanel stored={ruleCost} answer={answer} onAnswer={setAnswer} />
    </FieldGroup>
  );
}

function Temperature({ fields, faults, partExpansion }: Fieldset & { partExpansion: string }) {
  const fromPart = partExpansion === "" ? "The part states none." : `Empty: the part's ${partExpansion}.`;
  return (
    <FieldGroup
      legend="Temperature"
      hint="With a part temperature measured, a size can be charted as it would be at 20 °C (ISO 1)."
    >
      <TextField
        label="Length that expands"
        name="length"
        inputMode="decimal"
        unit="mm"
        defaultValue={fields.length}
        fault={faults.length}
      />
      <TextField
        label="Expansion coefficient"
        name="expansion"
        inputMode="decimal"
        unit="10⁻⁶ / K"
        defaultValue={fields.expansion}
        fault={faults.expansion}
        hint={fromPart}
      />
      <TextField
        label="Uncertainty of the part temperature"
        name="temperatureUncertainty"
        inputMode="decimal"
        unit="K"
        defaultValue={fields.temperatureUncertainty}
        fault={faults.temperatureUncertainty}
        hint="As a standard uncertainty, from the thermometer's certificate and where it sits."
      />
      <TextField
        label="Uncertainty of the coefficient"
        name="expansionUncertainty"
        inputMode="decimal"
        unit="10⁻⁶ / K"
        defaultValue={fields.expansionUncertainty}
        fault={faults.expansionUncertainty}
        hint="As a standard uncertainty. Empty: that of a handbook value, 10 % of it either way."
      />
      <CheckField
        label="Chart at 20 °C"
        hint="Else as measured. The feature's page says which is charted."
        name="reduced"
        defaultChecked={fields.reduced}
      />
    </FieldGroup>
  );
}
