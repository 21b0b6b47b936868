import { use } from "react";
import type { PlanGroup } from "../../../lib/alarm-budget/plan-groups";
import { type Detection, SHIFTS_SHOWN, type TradeOffRow } from "../../../lib/alarm-budget/trade-off";
import { chartWords } from "../../../lib/format/names";
import { asEntered, fixed } from "../../../lib/format/numbers";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { median } from "../../../lib/summary/moments";
import { Num } from "../../fittings/num";
import { type Column, Table } from "../../fittings/table";
import { words } from "../../language/language";
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
  const { budget, charts } = use(words());
  const { tradeOff: said } = budget;
  const pace = median(features.map(({ subgroupsPerShift }) => subgroupsPerShift));
  const ofReadings =
    subgroupSize === 1 ? "" : said.ofReadings(subgroupSize, fixed(1 / Math.sqrt(subgroupSize), 2));
  return (
    <>
      <p className={styles.soft}>
        {said.cells(fixed(pace, 2), features.length)}
        {ofReadings} {said.simulated}
      </p>
      <Table
        caption={said.caption(chartWords(group, charts))}
        isCaptionShown={false}
        rows={rows}
        rowKey={({ change }) => (change.kind === "in force" ? change.kind : `${change.kind} ${change.rule}`)}
        rowClass={({ change }) => (change.kind === "in force" ? styles.inForce : undefined)}
        columns={[
          {
            key: "change",
            head: said.heads.change,
            width: "22rem",
            cell: ({ change }) => <Change change={change} />,
          },
          {
            key: "perShift",
            head: said.heads.perShift,
            figures: true,
            cell: ({ perShift }) => <Num value={perShift.total} places={3} />,
          },
          {
            key: "difference",
            head: said.heads.difference,
            figures: true,
            cell: ({ change, difference }) =>
              change.kind === "in force" ? (
                <Num value={null} absent={said.thisIsInForce} />
              ) : (
                <Num value={difference} places={3} signed />
              ),
          },
          ...SHIFTS_SHOWN.map(
            (shift): Column<TradeOffRow> => ({
              key: `shift ${shift}`,
              head: (
                <>
                  {asEntered(shift)} σ<span className="only-read-out">{said.shift}</span>
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
  const { budget, rules } = use(words());
  const { tradeOff: said } = budget;
  if (change.kind === "in force") return said.inForce;
  return (
    <div className={styles.change}>
      <span className={change.kind === "off" ? styles.off : styles.on}>
        {change.kind === "off" ? said.without : said.with}
      </span>{" "}
      <span className={styles.statement}>{ruleBySlug(change.rule).statementIn(rules)}</span>
    </div>
  );
}

function Notice({ found }: { found: Detection | undefined }) {
  const { budget, plan } = use(words());
  return (
    <>
      <SimulatedFigure
        value={found?.subgroups ?? null}
        standardError={found?.standardError ?? null}
        places={1}
        absent={plan.cost.hardlyNoticed}
        simulated={plan.cost.simulated}
      />
      <span className={styles.below}>
        <Num value={found?.shiftsOfWork ?? null} places={1} absent={budget.tradeOff.notKnown} />
      </span>
    </>
  );
}
