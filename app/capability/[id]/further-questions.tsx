import { use } from "react";
import { percent } from "../../../lib/capability/words";
import { significant } from "../../../lib/format/figures";
import { fixed, toleranceWords, unitSign, whole, withUnit } from "../../../lib/format/numbers";
import type { ShownFeature } from "../../../lib/format/shown-feature";
import { inField } from "../../../lib/format/typed-number";
import type { KnownUnit } from "../../../lib/plan/feature-plan";
import { askedWords } from "../../../lib/plan/index-asked";
import { Button, ControlRow } from "../../fittings/controls";
import { TextField } from "../../fittings/fields";
import { Filled } from "../../fittings/filled";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import type { Asked } from "../asked";
import styles from "./detail.module.css";
import { COVERAGE, type Further } from "./further";

/** Pieces for a claim, the process behind its gauge, and what a reading proves: asked for in the address. */
export function FurtherQuestions({
  id,
  asked,
  further: { plan, gauge, conformity },
  feature,
  planned,
  typedIn,
  confidence,
}: {
  id: number;
  asked: Asked;
  further: Further;
  feature: ShownFeature;
  /** The index that the control plan asks for. */
  planned: number;
  /** Unit of what is typed: the control plan's, whatever is shown. */
  typedIn: KnownUnit;
  confidence: number;
}) {
  const { further: said } = use(words()).capability;
  const { unit } = feature;
  const fieldOf = (value: number | null) => (value === null ? "" : inField(value));
  const typed = (field: "gauge" | "uncertainty") => asked.faults[field]?.typed ?? fieldOf(asked[field]);
  return (
    <>
      <form action={`/capability/${id}`}>
        <input type="hidden" name="window" value={asked.window.slug} />
        {asked.model === "normal" ? null : <input type="hidden" name="model" value={asked.model} />}
        <ControlRow>
          <TextField
            label={said.target}
            name="target"
            inputMode="decimal"
            defaultValue={asked.faults.target?.typed ?? fieldOf(asked.target)}
            fault={asked.faults.target?.why}
            hint={said.targetHint(askedWords(planned))}
          />
          <TextField
            label={said.gauge}
            name="gauge"
            inputMode="decimal"
            unit={unitSign(typedIn)}
            defaultValue={typed("gauge")}
            fault={asked.faults.gauge?.why}
            hint={said.gaugeHint}
          />
          <TextField
            label={said.uncertainty}
            name="uncertainty"
            inputMode="decimal"
            unit={unitSign(typedIn)}
            defaultValue={typed("uncertainty")}
            fault={asked.faults.uncertainty?.why}
            hint={said.uncertaintyHint(COVERAGE)}
          />
          <Button type="submit">{said.workOut}</Button>
        </ControlRow>
      </form>
      <h3>{said.howMany}</h3>
      {plan === null ? (
        <Note kind="not-yet">{said.noNumber}</Note>
      ) : (
        <p>
          {plan.pieces === null
            ? said.never(plan.name, askedWords(plan.target), fixed(plan.index, 2))
            : said.pieces(
                plan.pieces,
                plan.name,
                askedWords(plan.target),
                percent(confidence),
                fixed(plan.index, 2),
              )}
        </p>
      )}
      <h3>{said.whatGauge}</h3>
      {gauge === null ? (
        <Note kind="not-yet">
          <Filled text={said.noGauge} holes={{ study: <Link href="/gauges">{said.studyGauge}</Link> }} />
        </Note>
      ) : gauge.aware === null ? (
        <Note kind="not-yet">{said.noIndex}</Note>
      ) : (
        <GaugeTable gauge={{ ...gauge, aware: gauge.aware }} unit={unit} />
      )}
      <h3>{said.whatProved}</h3>
      {conformity === null ? (
        <Note kind="not-yet">{said.needs}</Note>
      ) : (
        <ConformityTable conformity={conformity} feature={feature} />
      )}
    </>
  );
}

function GaugeTable({
  gauge: { sigma, basis, aware },
  unit,
}: {
  gauge: NonNullable<Further["gauge"]> & { aware: NonNullable<NonNullable<Further["gauge"]>["aware"]> };
  unit: string;
}) {
  const { further: said } = use(words()).capability;
  const rows = (["Cp", "Cpk", "Pp", "Ppk"] as const).filter((name) => aware.observed[name] !== null);
  return (
    <>
      <p>{said.gaugeTakes(withUnit(significant(sigma, 3), unit), percent(aware.gaugeShare), basis)}</p>
      {aware.process === null ? <Note kind="remark">{said.nothingLeft}</Note> : null}
      <Table
        caption={said.gaugeCaption}
        rows={rows}
        rowKey={(name) => name}
        columns={[
          { key: "name", head: said.heads.index, cell: (name) => name },
          {
            key: "observed",
            head: said.heads.observed,
            figures: true,
            cell: (name) => <Num value={aware.observed[name]} places={2} />,
          },
          {
            key: "process",
            head: said.heads.process,
            figures: true,
            cell: (name) => <Num value={aware.process?.[name]} places={2} absent={said.nothing} />,
          },
        ]}
      />
    </>
  );
}

/** What lies on a step but for a rounding error counts as on it. */
const TIE = 1e-6;

/** Zones are rounded so that the one that proves something never grows by it. */
function ConformityTable({
  conformity: { uncertainty, isTyped, zones, counts },
  feature,
}: {
  conformity: NonNullable<Further["conformity"]>;
  feature: ShownFeature;
}) {
  const { capability, figures } = use(words());
  const { further: said } = capability;
  const heads = said.conformityHeads;
  const { unit, places } = feature;
  const step = 10 ** -(places + 1);
  const up = (value: number | null) => value && Math.ceil(value / step - TIE) * step;
  const down = (value: number | null) => value && Math.floor(value / step + TIE) * step;
  const shown = (lower: number | null, upper: number | null) =>
    toleranceWords({ lower, upper }, { resolution: step, unit }, figures);
  return (
    <Table
      caption={said.guard(withUnit(significant(uncertainty, 3), unit), isTyped)}
      rows={[
        {
          verdict: "conforms" as const,
          zone:
            zones.conformance === null
              ? said.noRoom
              : shown(up(zones.conformance.lower), down(zones.conformance.upper)),
        },
        { verdict: "not provable" as const, zone: said.withinU },
        {
          verdict: "does not conform" as const,
          zone: said.not(shown(down(zones.nonConformance.lower), up(zones.nonConformance.upper))),
        },
      ]}
      rowKey={({ verdict }) => verdict}
      columns={[
        { key: "verdict", head: heads.verdict, cell: ({ verdict }) => said.verdicts[verdict] },
        { key: "zone", head: heads.zone, cell: ({ zone }) => <span className={styles.meaning}>{zone}</span> },
        { key: "count", head: heads.count, figures: true, cell: ({ verdict }) => whole(counts[verdict]) },
      ]}
    />
  );
}
