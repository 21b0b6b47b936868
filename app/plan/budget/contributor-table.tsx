import { use } from "react";
import type { AlarmBudget, FeatureBudget } from "../../../lib/alarm-budget/alarm-budget";
import { partName } from "../../../lib/format/names";
import { percent } from "../../../lib/format/numbers";
import { ruleSetName } from "../../../lib/rules/rule-set-name";
import { Link } from "../../fittings/link";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import styles from "./budget.module.css";
import { SimulatedFigure } from "./figures";
import type { MeasuredFeature, PlantRate } from "./plant-budget";

type Row = { feature: MeasuredFeature; cost: FeatureBudget };

/** A head that leaves its column as narrow as its figures. */
function TwoLines({ lines: [first, second] }: { lines: readonly string[] }) {
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
  const { budget: all, charts, performance, plan: planWords } = use(words());
  const { biggest: said } = all;
  const { heads } = said;
  const rows = rate.features
    .map((feature, i): Row => ({ feature, cost: budget.features[i] as FeatureBudget }))
    .sort((a, b) => b.cost.total - a.cost.total)
    .slice(0, count);
  return (
    <Table
      caption={said.caption}
      isCaptionShown={false}
      rows={rows}
      rowKey={({ feature }) => feature.id}
      columns={[
        {
          key: "feature",
          head: heads.feature,
          cell: ({ feature }) => (
            <div className={styles.named}>
              <Link href={`/plan/features/${feature.id}`}>{feature.name}</Link>
            </div>
          ),
        },
        { key: "part", head: heads.part, tight: true, cell: ({ feature }) => partName(feature.part) },
        {
          key: "chart",
          head: heads.chart,
          tight: true,
          cell: ({ feature: { plan } }) =>
            plan.chart === "i-mr"
              ? charts.short[plan.chart]
              : said.chartOf(charts.short[plan.chart], plan.subgroupSize),
        },
        {
          key: "rules",
          head: heads.rules,
          tight: true,
          cell: ({ feature: { plan } }) => {
            const rules = ruleSetName(plan.rules, performance.sets);
            return plan.alsoWatch ? said.and(rules, plan.alsoWatch.kind.toUpperCase()) : rules;
          },
        },
        {
          key: "rate",
          head: <TwoLines lines={heads.rate} />,
          figures: true,
          cell: ({ feature }) => <Num value={feature.subgroupsPerShift} places={2} />,
        },
        {
          key: "run",
          head: <TwoLines lines={heads.run} />,
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
              absent={planWords.cost.hardlyEver}
              simulated={planWords.cost.simulated}
            />
          ),
        },
        {
          key: "perShift",
          head: <TwoLines lines={heads.perShift} />,
          figures: true,
          cell: ({ cost }) => <Num value={cost.total} places={3} />,
        },
        {
          key: "between",
          head: <TwoLines lines={heads.between} />,
          figures: true,
          cell: ({ cost }) => <Num value={cost.shiftsBetween} places={0} absent={said.noneExpected} />,
        },
        {
          key: "share",
          head: <TwoLines lines={heads.share} />,
          figures: true,
          cell: ({ cost }) => percent(budget.total === 0 ? 0 : cost.total / budget.total),
        },
      ]}
    />
  );
}
