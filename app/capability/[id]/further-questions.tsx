import { percent } from "../../../lib/capability/words";
import { significant } from "../../../lib/format/figures";
import {
  asEntered,
  counted,
  fixed,
  toleranceWords,
  unitSign,
  whole,
  withUnit,
} from "../../../lib/format/numbers";
import type { ShownFeature } from "../../../lib/format/shown-feature";
import { inField } from "../../../lib/format/typed-number";
import type { KnownUnit } from "../../../lib/plan/feature-plan";
import { Button, ControlRow } from "../../fittings/controls";
import { TextField } from "../../fittings/fields";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { type Asked, USUAL_TARGET } from "../asked";
import styles from "./detail.module.css";
import { COVERAGE, type Further } from "./further";

/** Pieces for a claim, the process behind its gauge, and what a reading proves: asked for in the address. */
export function FurtherQuestions({
  id,
  asked,
  further: { plan, gauge, conformity },
  feature,
  typedIn,
  confidence,
}: {
  id: number;
  asked: Asked;
  further: Further;
  feature: ShownFeature;
  /** Unit of what is typed: the control plan's, whatever is shown. */
  typedIn: KnownUnit;
  confidence: number;
}) {
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
            label="Index to be shown"
            name="target"
            inputMode="decimal"
            defaultValue={asked.faults.target?.typed ?? inField(asked.target)}
            fault={asked.faults.target?.why}
            hint={`Cpk or Ppk; ${USUAL_TARGET} when nothing is typed`}
          />
          <TextField
            label="Gauge: standard deviation"
            name="gauge"
            inputMode="decimal"
            unit={unitSign(typedIn)}
            defaultValue={typed("gauge")}
            fault={asked.faults.gauge?.why}
            hint="Repeatability and reproducibility; empty takes the studied one"
          />
          <TextField
            label="Expanded uncertainty U"
            name="uncertainty"
            inputMode="decimal"
            unit={unitSign(typedIn)}
            defaultValue={typed("uncertainty")}
            fault={asked.faults.uncertainty?.why}
            hint={`Empty takes ${COVERAGE} deviations of the gauge`}
          />
          <Button type="submit">Work out</Button>
        </ControlRow>
      </form>
      <h3>How many pieces would show it?</h3>
      {plan === null ? (
        <Note kind="not-yet">No number of pieces yet: there is no index to go on from.</Note>
      ) : (
        <p>
          {plan.pieces === null
            ? `No number of pieces shows ${plan.name} ${asEntered(plan.target)} from a present value of ${fixed(plan.index, 2)}: the process has to be centred or narrowed first.`
            : `${counted(plan.pieces, "piece")} show ${plan.name} of at least ${asEntered(plan.target)} with ${percent(confidence)} confidence, if the present ${plan.name} ${fixed(plan.index, 2)} holds. The estimate moves from study to study: plan for more.`}
        </p>
      )}
      <h3>What is the process, what is the gauge?</h3>
      {gauge === null ? (
        <Note kind="not-yet">
          No study of this feature’s gauge is known, so its part of the spread cannot be taken off. Type its
          standard deviation above, or <Link href="/gauges">study the gauge</Link>.
        </Note>
      ) : gauge.aware === null ? (
        <Note kind="not-yet">There is no index to take the gauge’s part from.</Note>
      ) : (
        <GaugeTable gauge={{ ...gauge, aware: gauge.aware }} unit={unit} />
      )}
      <h3>What does a reading prove?</h3>
      {conformity === null ? (
        <Note kind="not-yet">
          The zones need an uncertainty of measurement and a tolerance limit. Type the uncertainty above.
        </Note>
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
  const rows = (["Cp", "Cpk", "Pp", "Ppk"] as const).filter((name) => aware.observed[name] !== null);
  return (
    <>
      <p>
        A gauge with a standard deviation of {withUnit(significant(sigma, 3), unit)} makes{" "}
        {percent(aware.gaugeShare)} of the variance that is seen. {basis} The observed index is the one to
        claim; the other says what a perfect gauge would show. Both by the normal model.
      </p>
      {aware.process === null ? (
        <Note kind="remark">
          The gauge’s variation is as large as all that is seen: nothing is left for the process.
        </Note>
      ) : null}
      <Table
        caption="Indices as observed, and of the process alone"
        rows={rows}
        rowKey={(name) => name}
        columns={[
          { key: "name", head: "Index", cell: (name) => name },
          {
            key: "observed",
            head: "Observed",
            figures: true,
            cell: (name) => <Num value={aware.observed[name]} places={2} />,
          },
          {
            key: "process",
            head: "Process alone",
            figures: true,
            cell: (name) => <Num value={aware.process?.[name]} places={2} absent="nothing left" />,
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
  const { unit, places } = feature;
  const step = 10 ** -(places + 1);
  const up = (value: number | null) => value && Math.ceil(value / step - TIE) * step;
  const down = (value: number | null) => value && Math.floor(value / step + TIE) * step;
  const shown = (lower: number | null, upper: number | null) =>
    toleranceWords({ lower, upper }, { resolution: step, unit });
  return (
    <Table
      caption={`Guard band U = ${withUnit(significant(uncertainty, 3), unit)}${isTyped ? ", as typed" : ""} on either side of each limit`}
      rows={[
        {
          verdict: "conforms" as const,
          zone:
            zones.conformance === null
              ? "no room between the guard bands"
              : shown(up(zones.conformance.lower), down(zones.conformance.upper)),
        },
        { verdict: "not provable" as const, zone: "within U of a limit" },
        {
          verdict: "does not conform" as const,
          zone: `not ${shown(down(zones.nonConformance.lower), up(zones.nonConformance.upper))}`,
        },
      ]}
      rowKey={({ verdict }) => verdict}
      columns={[
        { key: "verdict", head: "A reading", cell: ({ verdict }) => verdict },
        { key: "zone", head: "Where", cell: ({ zone }) => <span className={styles.meaning}>{zone}</span> },
        { key: "count", head: "Readings", figures: true, cell: ({ verdict }) => whole(counts[verdict]) },
      ]}
    />
  );
}
