import type { AlarmBudget, FeatureBudget } from "../../../lib/alarm-budget/alarm-budget";
import { CHART_SHORT, partName } from "../../../lib/format/names";
import { percent } from "../../../lib/format/numbers";
import { ruleSetName } from "../../../lib/rules/rule-set-name";
import { Link } from "../../fittings/link";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import styles from "./budget.module.css";
import { SimulatedFigure } from "./figures";
import type { MeasuredFeature, PlantRate } from "./plant-budget";

type Row = { feature: MeasuredFeature; cost: FeatureBudget };

/** A head that leaves its column as narrow as its figures. */
function TwoLines({ first, second }: { first: string; second: string }) {
  return (
    <>
      {first} <br />
      {second}
    </>
  );
}

/** The features that give the most false alarms, with where their rules are changed. */
export function ContributorTable({
  rate,
  budget,
  count,
}: {
  rate: PlantRate;
  budget: AlarmBudget;
  count: number;
}) {
  const rows = rate.features
    .map((feature, i): Row => ({ feature, cost: budget.features[i] as FeatureBudget }))
    .sort((a, b) => b.cost.total - a.cost.total)
    .slice(0, count);
  return (
    <Table
      caption="Features with the most false alarms"
      isCaptionShown={false}
      rows={rows}
      rowKey={({ feature }) => feature.id}
      columns={[
        {
          key: "feature",
          head: "Feature",
          cell: ({ feature }) => (
            <div className={styles.named}>
              <Link href={`/plan/features/${feature.id}`}>{feature.name}</Link>
            </div>
          ),
        },
        { key: "part", head: "Part", tight: true, cell: ({ feature }) => partName(feature.part) },
        {
          key: "chart",
          head: "Chart of",
          tight: true,
          cell: ({ feature: { plan } }) =>
            plan.chart === "i-mr"
              ? CHART_SHORT[plan.chart]
              : `${CHART_SHORT[plan.chart]} of ${plan.subgroupSize}`,
        },
        {
          key: "rules",
          head: "Run rules",
          tight: true,
          cell: ({ feature: { plan } }) =>
            `${ruleSetName(plan.rules)}${plan.alsoWatch ? ` and ${plan.alsoWatch.kind.toUpperCase()}` : ""}`,
        },
        {
          key: "rate",
          head: <TwoLines first="Subgroups" second="per shift" />,
          figures: true,
          cell: ({ feature }) => <Num value={feature.subgroupsPerShift} places={2} />,
        },
        {
          key: "run",
          head: <TwoLines first="Subgroups" second="per false alarm" />,
          figures: true,
          cell: ({ feature, cost }) => (
            <SimulatedFigure
              value={
                cost.total > 0
                  ? feature.subgroupsPerShift / cost.total
                  : (cost.runs?.together.subgroups ?? null)
              }
              standardError={cost.runs?.together.standardError ?? null}
              places={0}
              absent="hardly ever one"
            />
          ),
        },
        {
          key: "perShift",
          head: <TwoLines first="False alarms" second="per shift" />,
          figures: true,
          cell: ({ cost }) => <Num value={cost.total} places={3} />,
        },
        {
          key: "between",
          head: <TwoLines first="Shifts" second="between two" />,
          figures: true,
          cell: ({ cost }) => <Num value={cost.shiftsBetween} places={0} absent="none expected" />,
        },
        {
          key: "share",
          head: <TwoLines first="Share of" second="the plant's" />,
          figures: true,
          cell: ({ cost }) => percent(budget.total === 0 ? 0 : cost.total / budget.total),
        },
      ]}
    />
  );
}
