import type { PlanGroup } from "../../../lib/alarm-budget/plan-groups";
import { type Detection, SHIFTS_SHOWN, type TradeOffRow } from "../../../lib/alarm-budget/trade-off";
import { chartWords } from "../../../lib/format/names";
import { asEntered, counted, fixed } from "../../../lib/format/numbers";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { median } from "../../../lib/summary/moments";
import { Num } from "../../fittings/num";
import { type Column, Table } from "../../fittings/table";
import styles from "./budget.module.css";
import { SimulatedFigure } from "./figures";
import type { MeasuredFeature } from "./plant-budget";

/** Each rule off or on: what it saves or costs in false alarms, and what that does to the notice given. */
export function TradeOffTable({
  rows,
  group,
}: {
  rows: readonly TradeOffRow[];
  group: PlanGroup<MeasuredFeature>;
}) {
  const { subgroupSize, features } = group;
  const pace = median(features.map(({ subgroupsPerShift }) => subgroupsPerShift));
  const ofReadings =
    subgroupSize === 1
      ? ""
      : ` For means of ${subgroupSize}, 1 sigma of the point is ${fixed(1 / Math.sqrt(subgroupSize), 2)} sigma of single readings.`;
  return (
    <>
      <p className={styles.soft}>
        Each cell: subgroups until the location chart signals a shift that lasts, and below it the same in
        shifts of work, at {fixed(pace, 2)} subgroups per shift, the median of{" "}
        {counted(features.length, "feature")}. Shifts are in sigma of the plotted point.{ofReadings} “≈” is
        simulated, all else exact.
      </p>
      <Table
        caption={`Rules off and on for ${chartWords(group)}`}
        isCaptionShown={false}
        rows={rows}
        rowKey={({ change }) => (change.kind === "in force" ? change.kind : `${change.kind} ${change.rule}`)}
        rowClass={({ change }) => (change.kind === "in force" ? styles.inForce : undefined)}
        columns={[
          { key: "change", head: "Rules", width: "22rem", cell: ({ change }) => <Change change={change} /> },
          {
            key: "perShift",
            head: "False alarms per shift",
            figures: true,
            cell: ({ perShift }) => <Num value={perShift.total} places={3} />,
          },
          {
            key: "difference",
            head: "Difference",
            figures: true,
            cell: ({ change, difference }) =>
              change.kind === "in force" ? (
                <Num value={null} absent="none, this is in force" />
              ) : (
                <Num value={difference} places={3} signed />
              ),
          },
          ...SHIFTS_SHOWN.map(
            (shift): Column<TradeOffRow> => ({
              key: `shift ${shift}`,
              head: (
                <>
                  {asEntered(shift)} σ<span className="only-read-out"> shift: subgroups, shifts of work</span>
                </>
              ),
              figures: true,
              cell: ({ detection }) => <Notice found={detection.find((one) => one.shift === shift)} />,
            }),
          ),
        ]}
      />
    </>
  );
}

function Change({ change }: { change: TradeOffRow["change"] }) {
  if (change.kind === "in force") return "As in force";
  return (
    <div className={styles.change}>
      <span className={change.kind === "off" ? styles.off : styles.on}>
        {change.kind === "off" ? "− without" : "+ with"}
      </span>{" "}
      <span className={styles.statement}>{ruleBySlug(change.rule).statement}</span>
    </div>
  );
}

function Notice({ found }: { found: Detection | undefined }) {
  return (
    <>
      <SimulatedFigure
        value={found?.subgroups ?? null}
        standardError={found?.standardError ?? null}
        places={1}
        absent="hardly ever noticed"
      />
      <span className={styles.below}>
        <Num value={found?.shiftsOfWork ?? null} places={1} absent="shifts not known" />
      </span>
    </>
  );
}
