import type { FeatureHistory } from "../../../db/queries/history";
import { ruleCost } from "../../../lib/alarm-budget/rule-cost";
import { baselineLimits } from "../../../lib/evaluation/baseline";
import type { BaselineWindow } from "../../../lib/evaluation/baseline-preview";
import { estimatorsFor } from "../../../lib/evaluation/estimator-choice";
import { plannedSize } from "../../../lib/evaluation/evaluate";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { fixed, measured, whole, withUnit } from "../../../lib/format/numbers";
import { ESTIMATOR_WORDS, limitsEstimatorName } from "../../../lib/limits/estimator-words";
import type { Estimator } from "../../../lib/limits/estimators";
import { limitsForSize, sigmaOfMean } from "../../../lib/limits/limits-for-size";
import { memoryChartWords } from "../../../lib/plan/memory-chart";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { memoryRunLengthWords } from "../../../lib/run-length/memory-chart";
import { Table } from "../../fittings/table";
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
          name: limitsEstimatorName(estimator),
          formula:
            betweenLots === undefined
              ? ESTIMATOR_WORDS[estimator as Estimator].formula
              : "MR̄ of lot means, see Lot means",
          sigma:
            betweenLots === undefined
              ? figure(sigma)
              : `${figure(sigma)} within, ${figure(betweenLots)} between`,
          freedom: fixed(degreesOfFreedom, 0),
        },
      ];
    },
  );
  if (rows.length < 2) return null;
  return (
    <section>
      <h3>The same baseline by each estimator</h3>
      <Table
        caption="Sigma of the baseline by each estimator"
        isCaptionShown={false}
        columns={[
          { key: "name", head: "Estimator", cell: (row: Row) => row.name },
          { key: "formula", head: "Formula", cell: (row: Row) => row.formula },
          { key: "sigma", head: "Sigma", figures: true, cell: (row: Row) => row.sigma },
          { key: "freedom", head: "Degrees of freedom", figures: true, cell: (row: Row) => row.freedom },
        ]}
        rows={rows}
        rowKey={({ key }) => key}
      />
      <p className={styles.soft}>
        Estimates of one sigma that differ by more than their degrees of freedom allow (about 1/√(2ν) of it)
        say that the baseline was not one process, or holds outliers.
      </p>
    </section>
  );
}

/** Limits in force that take lot-to-lot variation as part of the process. */
export function LotMeanLimits({ history, evaluation }: { history: FeatureHistory; evaluation: Evaluation }) {
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
      <h3>Limits {version.version}, of lot means</h3>
      <WorkingList
        lines={[
          ["Within lots", `σ̂ within = ${figure(version.sigma, 2)}`],
          [
            "Between lots",
            `σ̂ between = √((MR̄/d₂)² − σ̂²within·mean of 1/n) = ${figure(version.betweenLots, 2)}`,
          ],
          [`A mean of ${size}`, `√(σ̂²between + σ̂²within/${size}) = ${figure(sigma, 2)}`],
          [
            "Limits",
            `${bare(location.centre)} ± 3·${bare(sigma, 2)} = ${bare(location.lower)} to ${figure(location.upper)}`,
          ],
          ...(row
            ? [
                [
                  "Baseline",
                  `${whole(row.baselineSubgroups)} lots; frozen${row.by ? ` by ${row.by}` : ""}: ${row.reason}`,
                ] as const,
              ]
            : []),
        ]}
      />
      <p className={styles.soft}>
        W. H. Woodall and E. V. Thomas, IIE Transactions 27 (1995) 757-764 (from memory). The lower chart goes
        by σ̂ within, as ever. A subgroup has to be one lot, or means of one lot are judged as if they were of
        several.
      </p>
    </section>
  );
}

/** What the rules in force cost and find, and the chart with a memory beside them. */
export function RunLength({ history }: { history: FeatureHistory }) {
  const { rules, chart, alsoWatch, counts } = history.setup.plan;
  return (
    <section>
      <h3>How often they signal</h3>
      {rules.length > 0 && !counts ? (
        <p>{costWords({ chart, subgroupSize: plannedSize(history.setup), rules })}</p>
      ) : null}
      {counts ? (
        <p>How often counts signal by chance is worked out by the chart, exactly, for limits alone.</p>
      ) : null}
      {alsoWatch ? (
        <p>
          Also watched by {memoryChartWords(alsoWatch)}. {memoryRunLengthWords(alsoWatch)}
        </p>
      ) : null}
      <p className={styles.soft}>
        Average run lengths with known limits and independent normal points, the shift there from the first of
        them: C. W. Champ and W. H. Woodall, Technometrics 29 (1987) 393-399 (from memory), by Markov chain or
        integral equation; “≈” is simulated.
      </p>
    </section>
  );
}

function costWords({
  chart,
  subgroupSize,
  rules,
}: {
  chart: FeatureHistory["setup"]["plan"]["chart"];
  subgroupSize: number;
  rules: readonly string[];
}): string {
  const cost = ruleCost({ chart, subgroupSize, rules: rules.map(ruleBySlug), simulation: PAGE_SIMULATION });
  const per = cost.perThousand;
  const sign = (error: number | null) => (error === null ? "" : "≈ ");
  const often =
    per.value > 0
      ? `Both charts together give one false alarm in ${sign(per.standardError)}${whole(1000 / per.value)} subgroups on average.`
      : "False alarms hardly ever come.";
  const found = cost.detection.flatMap(({ shift, subgroups }) =>
    subgroups === null
      ? []
      : [`${shift} sigma of the point in ${sign(subgroups.standardError)}${fixed(subgroups.value, 1)}`],
  );
  return `${often} A lasting shift is found on average, counted in subgroups: ${found.join(", ")}.`;
}
