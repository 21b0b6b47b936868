"use client";

import { useState } from "react";
import { useCommonWords } from "#common-words";
import type { RuleCost } from "../../lib/alarm-budget/rule-cost";
import { fixed, unitSign } from "../../lib/format/numbers";
import { ATTRIBUTE_CHARTS, CHART_KINDS, FEATURE_KINDS, UNITS } from "../../lib/plan/feature-plan";
import { USUALLY_ASKED } from "../../lib/plan/index-asked";
import { RULES } from "../../lib/rules/known-rules";
import { fill } from "../../lib/words/fill";
import { useAnswer } from "../fittings/answer";
import { unsent } from "../fittings/entry";
import { EntryForm } from "../fittings/entry-form";
import { CheckField, FieldGroup, SelectField, TextArea, TextField } from "../fittings/fields";
import { saveFeature } from "./actions";
import { AlsoWatch } from "./also-watch";
import type { FeatureAnswer } from "./answers";
import type { CostAnswer } from "./cost-answer";
import type { FeatureFields, FieldFaults } from "./feature-entry";
import type { FormWords } from "./form-words";
import { RuleCostPanel } from "./rule-cost-panel";

/** What the control plan says of a feature, to be changed or, without `featureId`, entered for a part. */
export function FeatureForm({
  featureId,
  partId,
  fields: stored,
  partExpansion,
  ruleCost = null,
  watchWords = "",
  words,
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
  words: FormWords;
}) {
  const [answer, action] = useAnswer<FeatureAnswer>(saveFeature, unsent(stored));
  const { fields, faults } = answer;
  return (
    <EntryForm
      answer={answer}
      action={action}
      submit={featureId === undefined ? words.enter : words.save}
      working={words.saving}
    >
      <input type="hidden" name="part" value={partId} />
      {featureId === undefined ? null : <input type="hidden" name="feature" value={featureId} />}
      <WhatItIs fields={fields} faults={faults} words={words} />
      <Tolerance fields={fields} faults={faults} words={words} />
      <Charting fields={fields} faults={faults} words={words} />
      <Rules fields={fields} faults={faults} words={words} ruleCost={ruleCost} />
      <AlsoWatch fields={fields} faults={faults} inForce={watchWords} words={words.memory} />
      <Temperature fields={fields} faults={faults} words={words} partExpansion={partExpansion} />
      {featureId === undefined ? null : (
        <TextArea
          label={words.reason}
          hint={words.reasonHint}
          name="reason"
          defaultValue={fields.reason}
          fault={faults.reason}
        />
      )}
    </EntryForm>
  );
}

type Fieldset = { fields: FeatureFields; faults: FieldFaults; words: FormWords };

function WhatItIs({ fields, faults, words: { what: said, charts } }: Fieldset) {
  return (
    <FieldGroup legend={said.legend}>
      <TextField label={said.name} name="name" required defaultValue={fields.name} fault={faults.name} />
      <SelectField
        label={said.kind}
        name="kind"
        choices={FEATURE_KINDS.map((kind) => ({ value: kind, label: charts.features[kind] }))}
        defaultValue={fields.kind}
        fault={faults.kind}
      />
      <SelectField
        label={said.unit}
        name="unit"
        choices={UNITS.map((unit) => ({ value: unit, label: said.units[unit] }))}
        defaultValue={fields.unit}
        fault={faults.unit}
        hint={said.unitHint}
      />
      <TextField
        label={said.resolution}
        name="resolution"
        inputMode="decimal"
        defaultValue={fields.resolution}
        fault={faults.resolution}
        hint={said.resolutionHint}
      />
      <CheckField
        label={said.key}
        hint={said.keyHint}
        name="keyCharacteristic"
        defaultChecked={fields.keyCharacteristic}
      />
    </FieldGroup>
  );
}

function Tolerance({ fields, faults, words: { tolerance: said } }: Fieldset) {
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
    <FieldGroup legend={said.legend} hint={said.hint}>
      {one("lower", said.lower)}
      {one("nominal", said.nominal)}
      {one("upper", said.upper)}
      {one("target", said.target, said.targetHint)}
      {one("naturalBound", said.naturalBound, said.naturalBoundHint)}
      <TextField
        label={said.indexAsked}
        name="indexAsked"
        inputMode="decimal"
        defaultValue={fields.indexAsked}
        fault={faults.indexAsked}
        hint={fill(said.indexAskedHint, {
          key: fixed(USUALLY_ASKED.key, 2),
          other: fixed(USUALLY_ASKED.other, 2),
        })}
      />
    </FieldGroup>
  );
}

function Charting({ fields, faults, words: { charting: said, charts } }: Fieldset) {
  return (
    <FieldGroup legend={said.legend}>
      <SelectField
        label={said.chart}
        name="chart"
        choices={[
          ...CHART_KINDS.map((chart) => ({ value: chart, label: charts.kinds[chart] })),
          ...ATTRIBUTE_CHARTS.map((chart) => ({
            value: chart,
            label: fill(said.counts, { chart: charts.counts[chart] }),
          })),
        ]}
        defaultValue={fields.chart}
        fault={faults.chart}
      />
      <TextField
        label={said.size}
        name="subgroupSize"
        inputMode="numeric"
        defaultValue={fields.subgroupSize}
        fault={faults.subgroupSize}
        hint={said.sizeHint}
      />
      <TextField
        label={said.countedOn}
        name="countedOn"
        inputMode="decimal"
        defaultValue={fields.countedOn}
        fault={faults.countedOn}
        hint={said.countedOnHint}
      />
    </FieldGroup>
  );
}

function Rules({ fields, faults, words, ruleCost }: Fieldset & { ruleCost: RuleCost | null }) {
  const [answer, setAnswer] = useState<CostAnswer | null>(null);
  const { rules: ruleWords } = useCommonWords();
  return (
    <FieldGroup legend={words.rules.legend} hint={words.rules.hint} fault={faults.rules} isStacked>
      {RULES.map(({ slug, statementIn, source }) => (
        <CheckField
          key={slug}
          label={statementIn(ruleWords)}
          hint={ruleWords.source(source)}
          name="rules"
          value={slug}
          defaultChecked={fields.rules.includes(slug)}
          onChange={() => setAnswer(null)}
        />
      ))}
      <RuleCostPanel stored={ruleCost} answer={answer} onAnswer={setAnswer} words={words} />
    </FieldGroup>
  );
}

function Temperature({
  fields,
  faults,
  words: { temperature: said },
  partExpansion,
}: Fieldset & { partExpansion: string }) {
  const fromPart = partExpansion === "" ? said.partNone : fill(said.fromPart, { expansion: partExpansion });
  return (
    <FieldGroup legend={said.legend} hint={said.hint}>
      <TextField
        label={said.length}
        name="length"
        inputMode="decimal"
        unit="mm"
        defaultValue={fields.length}
        fault={faults.length}
      />
      <TextField
        label={said.expansion}
        name="expansion"
        inputMode="decimal"
        unit="10⁻⁶ / K"
        defaultValue={fields.expansion}
        fault={faults.expansion}
        hint={fromPart}
      />
      <TextField
        label={said.temperature}
        name="temperatureUncertainty"
        inputMode="decimal"
        unit="K"
        defaultValue={fields.temperatureUncertainty}
        fault={faults.temperatureUncertainty}
        hint={said.temperatureHint}
      />
      <TextField
        label={said.ofCoefficient}
        name="expansionUncertainty"
        inputMode="decimal"
        unit="10⁻⁶ / K"
        defaultValue={fields.expansionUncertainty}
        fault={faults.expansionUncertainty}
        hint={said.ofCoefficientHint}
      />
      <CheckField
        label={said.reduced}
        hint={said.reducedHint}
        name="reduced"
        defaultChecked={fields.reduced}
      />
    </FieldGroup>
  );
}
