import { use } from "react";
import type { FeatureHistory } from "../../../db/queries/history";
import { ruleCost } from "../../../lib/alarm-budget/rule-cost";
import { baselineLimits } from "../../../lib/evaluation/baseline";
import type { BaselineWindow } from "../../../lib/evaluation/baseline-preview";
import { estimatorsFor } from "../../../lib/evaluation/estimator-choice";
import { plannedSize } from "../../../lib/evaluation/evaluate";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { asEntered, fixed, measured, whole, withUnit } from "../../../lib/format/numbers";
import { limitsEstimatorName } from "../../../lib/limits/estimator-words";
import type { Estimator } from "../../../lib/limits/estimators";
import { limitsForSize, sigmaOfMean } from "../../../lib/limits/limits-for-size";
import { memoryChartWords } from "../../../lib/plan/memory-chart";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { memoryRunLengthWords } from "../../../lib/run-length/memory-chart";
import type { Words } from "../../../lib/words/words";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import { PAGE_SIMULATION } from "../../plan/cost-answer";
import styles from "./panels.module.css";
import { WorkingList } from "./working-list";

type Row = { key: string; name: string; formula: string; sigma: string; freedom: string };

/** What the baseline of the limits in force gives by every way to estimate sigma that it allows. */
export function EachEstimator({
  history,
  evaluation,
  window,
}: {
  history: FeatureHistory;
  evaluation: Evaluation;
  window: BaselineWindow | null;
}) {
  const { working, estimators } = use(words());
  const { each: said } = working;
  if (!window) return null;
  const { setup, series, feature } = history;
  const { points } = evaluation;
  const between = { from: points.at[window.from]!, to: points.at[window.to]! };
  const rows = estimatorsFor(evaluation, { plan: setup.plan, series, ...between }).flatMap(
    (estimator): Row[] => {
      const { limits } = baselineLimits(evaluation, { setup, ...between, estimator });
      if (!limits.ok) return [];
      const { sigma, degreesOfFreedom, betweenLots } = limits.value;
      const figure = (value: number) =>
        withUnit(measured(value, { resolution: feature.resolution, extra: 2 }), feature.unit);
      return [
        {
          key: estimator,
          name: limitsEstimatorName(estimator, estimators),
          formula:
            betweenLots === undefined ? estimators.within[estimator as Estimator].formula : said.ofLots,
          sigma: betweenLots === undefined ? figure(sigma) : said.within(figure(sigma), figure(betweenLots)),
          freedom: fixed(degreesOfFreedom, 0),
        },
      ];
    },
  );
  if (rows.length < 2) return null;
  return (
    <section>
      <h3>{said.title}</h3>
      <Table
        caption={said.caption}
        isCaptionShown={false}
        columns={[
          { key: "name", head: said.heads.estimator, cell: (row: Row) => row.name },
          { key: "formula", head: said.heads.formula, cell: (row: Row) => row.formula },
          { key: "sigma", head: said.heads.sigma, figures: true, cell: (row: Row) => row.sigma },
          { key: "freedom", head: said.heads.freedom, figures: true, cell: (row: Row) => row.freedom },
        ]}
        rows={rows}
        rowKey={({ key }) => key}
      />
      <p className={styles.soft}>{said.differ}</p>
    </section>
  );
}

/** Limits in force that take lot-to-lot variation as part of the process. */
export function LotMeanLimits({ history, evaluation }: { history: FeatureHistory; evaluation: Evaluation }) {
  const { lots: said, fromTo } = use(words()).working;
  const version = evaluation.progress.limits;
  if (version?.betweenLots === undefined || version.sigma <= 0) return null;
  const { feature, limits } = history;
  const bare = (value: number, extra = 1) => measured(value, { resolution: feature.resolution, extra });
  const figure = (value: number, extra = 1) => withUnit(bare(value, extra), feature.unit);
  const row = limits.find((one) => one.version === version.version);
  const size = evaluation.points.size.at(-1) ?? 1;
  const { location } = limitsForSize(version, size);
  const sigma = sigmaOfMean(version, size);
  return (
    <section>
      <h3>{said.title(version.version)}</h3>
      <WorkingList
        lines={[
          [said.within, said.withinIs(figure(version.sigma, 2))],
          [said.between, said.betweenIs(figure(version.betweenLots, 2))],
          [said.mean(size), said.meanIs(size, figure(sigma, 2))],
          [
            said.limits,
            `${bare(location.centre)} ± 3·${bare(sigma, 2)} = ${fromTo(bare(location.lower), figure(location.upper))}`,
          ],
          ...(row
            ? [[said.baseline, said.baselineIs(row.baselineSubgroups, row.by, row.reason)] as const]
            : []),
        ]}
      />
      <p className={styles.soft}>{said.source}</p>
    </section>
  );
}

/** What the rules in force cost and find, and the chart with a memory beside them. */
export function RunLength({ history }: { history: FeatureHistory }) {
  const { rules, chart, alsoWatch, counts } = history.setup.plan;
  const { working, charts } = use(words());
  const { runLength: said } = working;
  return (
    <section>
      <h3>{said.title}</h3>
      {rules.length > 0 && !counts ? (
        <p>{costWords({ chart, subgroupSize: plannedSize(history.setup), rules }, said)}</p>
      ) : null}
      {counts ? <p>{said.counts}</p> : null}
      {alsoWatch ? (
        <p>
          {said.alsoWatched(memoryChartWords(alsoWatch, charts))} {memoryRunLengthWords(alsoWatch, said)}
        </p>
      ) : null}
      <p className={styles.soft}>{said.source}</p>
    </section>
  );
}

function costWords(
  {
    chart,
    subgroupSize,
    rules,
  }: {
    chart: FeatureHistory["setup"]["plan"]["chart"];
    subgroupSize: number;
    rules: readonly string[];
  },
  said: Words["working"]["runLength"],
): string {
  const cost = ruleCost({ chart, subgroupSize, rules: rules.map(ruleBySlug), simulation: PAGE_SIMULATION });
  const per = cost.perThousand;
  const sign = (error: number | null) => (error === null ? "" : "≈ ");
  const often =
    per.value > 0 ? said.often(`${sign(per.standardError)}${whole(1000 / per.value)}`) : said.hardly;
  const found = cost.detection.flatMap(({ shift, subgroups }) =>
    subgroups === null
      ? []
      : [said.shift(asEntered(shift), `${sign(subgroups.standardError)}${fixed(subgroups.value, 1)}`)],
  );
  return `${often} ${said.found(found.join(", "))}`;
}
