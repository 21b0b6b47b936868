import type { ReactNode } from "react";
import type { FeatureHistory, LimitsRow } from "../../../db/queries/history";
import { controlChartConstants } from "../../../lib/constants/control-chart-constants";
import { chartAssumptions } from "../../../lib/evaluation/assumptions";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { type LimitsWorking, limitsWorking } from "../../../lib/evaluation/limits-working";
import { LEAST_FOR_FINAL } from "../../../lib/evaluation/setup";
import { CHART_WORDS, COUNT_CHART_WORDS } from "../../../lib/format/names";
import { counted, fixed, measured, whole, withUnit } from "../../../lib/format/numbers";
import { ESTIMATOR_WORDS } from "../../../lib/limits/estimator-words";
import { limitsForSize } from "../../../lib/limits/limits-for-size";
import { ruleBySlug, rulesForSpread } from "../../../lib/rules/known-rules";
import { ruleSetName } from "../../../lib/rules/rule-set-name";
import { ENGLISH } from "../../../lib/words/words";
import { RuleList } from "../../fittings/rule-words";
import { When } from "../../fittings/when";
import { plant } from "../../plant";
import { problemWords } from "../../problem";
import { numberOf } from "./chart-view";
import { EachEstimator, LotMeanLimits, RunLength } from "./computed-further";
import { numbersWords } from "./engineer-view";
import styles from "./panels.module.css";
import { TemperatureWorking } from "./temperature-working";
import { AssumptionList } from "./working-list";

/** How the chart comes about, with this feature's own figures put into the formulas. */
export async function ComputedPanel({
  history,
  evaluation,
}: {
  history: FeatureHistory;
  evaluation: Evaluation;
}) {
  const { zone } = await plant();
  const working = limitsWorking(evaluation, { setup: history.setup, frozen: history.limits });
  return (
    <details className={styles.fold}>
      <summary>How is this computed</summary>
      <div className={styles.sheet}>
        <Points history={history} />
        {working ? <Limits history={history} working={working} zone={zone} /> : null}
        {working ? null : <LotMeanLimits history={history} evaluation={evaluation} />}
        {working ? <EachEstimator history={history} evaluation={evaluation} window={working.window} /> : null}
        <Rules history={history} />
        <RunLength history={history} />
        <AssumptionList assumptions={chartAssumptions(evaluation, history.setup)} />
        <LeftOut history={history} evaluation={evaluation} zone={zone} />
        <Versions limits={history.limits} history={history} zone={zone} />
      </div>
    </details>
  );
}

function Points({ history }: { history: FeatureHistory }) {
  const { series, setup } = history;
  const { chart, subgroupSize, counts } = setup.plan;
  if (counts) {
    return (
      <section>
        <h3>Points</h3>
        <p>
          Every value is a count on {counts.size}: {COUNT_CHART_WORDS[counts.chart]}. It is judged as the
          count, with the sigma that follows from the mean count; how, stands by the chart.
        </p>
      </section>
    );
  }
  const hasLabels = chart !== "i-mr" && series.subgroup.some((label) => label !== 0);
  return (
    <section>
      <h3>Points</h3>
      <p>
        A chart of {CHART_WORDS[chart]}.{" "}
        {chart === "i-mr"
          ? "Every reading is a point; its moving range is the distance from the reading before it that counts."
          : hasLabels
            ? `Readings of one lot with the same subgroup label are one point; readings without a label are taken ${subgroupSize} by ${subgroupSize} in the order of time.`
            : `Readings are taken ${subgroupSize} by ${subgroupSize} in the order of time; a subgroup that is not complete is no point yet.`}
      </p>
      <TemperatureWorking history={history} />
    </section>
  );
}

function Limits({
  history,
  working,
  zone,
}: {
  history: FeatureHistory;
  working: LimitsWorking;
  zone: string;
}) {
  const { limits } = history;
  const { version, isTrial } = working;
  const row = limits.find((one) => one.version === version.version);
  return (
    <section>
      <h3>{isTrial ? "Trial limits" : `Limits ${version.version}`}</h3>
      <p>
        {isTrial
          ? `Nobody has frozen limits yet. Until then they come from the first subgroups, and move while these are fewer than ${LEAST_FOR_FINAL}.`
          : null}
        {row ? (
          <>
            Frozen <When at={row.frozenAt} zone={zone} />
            {row.by ? ` by ${row.by}` : ""}: {row.reason}
          </>
        ) : null}
      </p>
      <Working history={history} working={working} />
      <p className={styles.soft}>
        Why {ESTIMATOR_WORDS[working.estimator].name}: {ESTIMATOR_WORDS[working.estimator].because} Source:{" "}
        {ESTIMATOR_WORDS[working.estimator].source}.
      </p>
      <Changed working={working} history={history} />
    </section>
  );
}

function Working({ history, working }: { history: FeatureHistory; working: LimitsWorking }) {
  const { feature } = history;
  const { version, estimator, quotient, agrees, sizes, subgroups, readings, window } = working;
  const words = ESTIMATOR_WORDS[estimator];
  const bare = (value: number, extra = 1) => measured(value, { resolution: feature.resolution, extra });
  const figure = (value: number, extra = 1) => withUnit(bare(value, extra), feature.unit);
  const chart = history.setup.plan.chart;
  const lines: [term: string, working: ReactNode][] = [];
  if (window) {
    lines.push([
      "Baseline",
      `subgroups ${numberOf(window.from)} to ${numberOf(window.to)}: ${counted(subgroups, "subgroup")}, ${counted(readings, "reading")}`,
    ]);
  }
  const centreName = chart === "i-mr" ? "x̄" : "x̿";
  lines.push([
    "Centre line",
    `${centreName} = mean of all readings of the baseline = ${figure(version.centre)}`,
  ]);
  if (words.quotient && quotient && agrees) {
    lines.push([
      words.quotient.spreadName,
      `${words.quotient.spread} = ${figure(quotient.spread, 2)}, and ${words.quotient.divisor} = ${fixed(quotient.divisor, 4)}`,
    ]);
    lines.push([
      "Within-subgroup sigma",
      `${words.formula} = ${bare(quotient.spread, 2)} / ${fixed(quotient.divisor, 4)} = ${figure(version.sigma, 2)}`,
    ]);
  } else {
    lines.push(["Within-subgroup sigma", `${words.formula} = ${figure(version.sigma, 2)}`]);
  }
  if (version.sigma > 0) {
    for (const { size } of sizes.length > 0 ? sizes.slice(0, MOST_SIZES) : []) {
      const { location, spread } = limitsForSize({ ...version, chart }, size);
      const root = size === 1 ? "" : ` / √${size}`;
      const suffix = sizes.length > 1 ? `, n = ${size}` : "";
      lines.push([
        `${ENGLISH.features.chart.location[chart]}${suffix}`,
        `${centreName} ± 3σ̂${root} = ${bare(location.centre)} ± ${bare(3 * version.sigma, 2)}${root} = ${bare(location.lower)} to ${figure(location.upper)}`,
      ]);
      if (spread) {
        lines.push([
          `${ENGLISH.features.chart.spread[chart]}${suffix}`,
          `${spreadFormula(chart)} = ${bare(spread.lower)} to ${figure(spread.upper)} about ${figure(spread.centre)}; the lower one stops at 0`,
        ]);
      }
    }
  }
  const size = sizes[0]?.size ?? 1;
  return (
    <dl className={styles.working}>
      {lines.map(([term, line]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{line}</dd>
        </div>
      ))}
      {sizes.length === 1 ? (
        <div>
          <dt>By hand</dt>
          <dd className={styles.because}>{constantsWords(chart, size)}</dd>
        </div>
      ) : null}
      {sizes.length > MOST_SIZES ? (
        <div>
          <dt>Other sizes</dt>
          <dd>
            Subgroups have {sizes.length} different sizes; each has limits of its own by the same formulas.
          </dd>
        </div>
      ) : null}
    </dl>
  );
}

const MOST_SIZES = 3;

type Chart = FeatureHistory["setup"]["plan"]["chart"];

function spreadFormula(chart: Chart): string {
  if (chart === "i-mr") return "(d₂ ± 3d₃)σ̂ of two readings";
  return chart === "xbar-r" ? "(d₂ ± 3d₃)σ̂" : "(c₄ ± 3√(1 − c₄²))σ̂";
}

/** The constants of handbooks, which lead to the same limits. */
function constantsWords(chart: Chart, size: number): string {
  const { A2, A3, B3, B4, D3, D4, E2 } = controlChartConstants(chart === "i-mr" ? 2 : Math.max(2, size));
  const figures = (constants: Record<string, number>) =>
    Object.entries(constants)
      .map(([name, value]) => `${name} = ${fixed(value, 4)}`)
      .join(", ");
  if (chart === "i-mr") {
    return `The same as x̄ ± E₂·MR̄ and D₄·MR̄ with ${figures({ "E₂": E2, "D₄": D4 })}, computed and not rounded.`;
  }
  if (chart === "xbar-r") {
    return `The same as x̿ ± A₂·R̄ and D₃·R̄ to D₄·R̄ with, for n = ${size}, ${figures({ "A₂": A2, "D₃": D3, "D₄": D4 })}, computed and not rounded.`;
  }
  return `The same as x̿ ± A₃·s̄ and B₃·s̄ to B₄·s̄ with, for n = ${size}, ${figures({ "A₃": A3, "B₃": B3, "B₄": B4 })}, computed and not rounded.`;
}

/** Frozen limits do not follow what happens to their baseline afterwards. */
function Changed({ working, history }: { working: LimitsWorking; history: FeatureHistory }) {
  const { agrees, today, isTrial } = working;
  if (agrees || isTrial) return null;
  const { resolution, unit } = history.feature;
  const figure = (value: number, extra: number) => withUnit(measured(value, { resolution, extra }), unit);
  if (!today) {
    return (
      <p>
        Chart or subgroup size in the control plan have changed since these limits were frozen, so their
        baseline cannot be taken again the same way. Consider freezing new ones.
      </p>
    );
  }
  if (!today.ok) {
    return <p>Their baseline no longer gives limits. {problemWords(today.problem, "controlLimits")}</p>;
  }
  return (
    <p>
      Since they were frozen, readings or exclusions of their baseline have changed: today it would give a
      centre of {figure(today.value.centre, 1)} and a sigma of {figure(today.value.sigma, 2)}. Frozen limits
      stay until somebody freezes new ones.
    </p>
  );
}

function Rules({ history }: { history: FeatureHistory }) {
  const { rules, counts } = history.setup.plan;
  const onSpread = rulesForSpread(rules.map(ruleBySlug));
  return (
    <section>
      <h3>Run rules in force: {ruleSetName(rules)}</h3>
      <p>
        They look at z = (point − centre line) / its sigma, anew with every version of the limits. Differences
        below a billionth of sigma are ties.
      </p>
      <RuleList slugs={rules} />
      {counts ? null : (
        <p className={styles.soft}>
          {onSpread.length === 0
            ? "None of them holds on the lower chart, whose points are skewed."
            : `On the lower chart, whose points are skewed, only: ${onSpread.map(({ statement }) => statement).join(" ")}`}
        </p>
      )}
    </section>
  );
}

function LeftOut({
  history,
  evaluation,
  zone,
}: {
  history: FeatureHistory;
  evaluation: Evaluation;
  zone: string;
}) {
  const { exclusions } = history;
  return (
    <section>
      <h3>Left out</h3>
      {exclusions.length === 0 ? <p>Nothing: every subgroup counts.</p> : null}
      <ul className={styles.list}>
        {exclusions.map((exclusion) => (
          <li key={exclusion.id}>
            {exclusion.cause}: {numbersWords(evaluation.points, exclusion, ENGLISH.features)}, since{" "}
            <When at={exclusion.createdAt} zone={zone} as="day" />
            {exclusion.by ? ` by ${exclusion.by}` : ""}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Versions({
  limits,
  history,
  zone,
}: {
  limits: readonly LimitsRow[];
  history: FeatureHistory;
  zone: string;
}) {
  if (limits.length < 2) return null;
  const { resolution, unit } = history.feature;
  const figure = (value: number, extra: number) => withUnit(measured(value, { resolution, extra }), unit);
  return (
    <section>
      <h3>All versions of the limits</h3>
      <ul className={styles.list}>
        {limits.map((row) => (
          <li key={row.id}>
            Limits {row.version}: centre {figure(row.centre, 1)}, sigma {figure(row.sigma, 2)} from{" "}
            {whole(row.baselineSubgroups)} subgroups, frozen <When at={row.frozenAt} zone={zone} as="day" />
            {row.by ? ` by ${row.by}` : ""}: {row.reason}
          </li>
        ))}
      </ul>
    </section>
  );
}
