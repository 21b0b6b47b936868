import { type ReactNode, use } from "react";
import type { FeatureHistory, LimitsRow } from "../../../db/queries/history";
import { isStated } from "../../../lib/chart/feature-chart";
import { controlChartConstants } from "../../../lib/constants/control-chart-constants";
import { chartAssumptions } from "../../../lib/evaluation/assumptions";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { type LimitsWorking, limitsWorking } from "../../../lib/evaluation/limits-working";
import { LEAST_FOR_FINAL } from "../../../lib/evaluation/setup";
import { countFigure } from "../../../lib/format/count-figure";
import { fixed, measured, withUnit } from "../../../lib/format/numbers";
import { limitsForSize } from "../../../lib/limits/limits-for-size";
import { ruleBySlug, rulesForSpread } from "../../../lib/rules/known-rules";
import { ruleSetName } from "../../../lib/rules/rule-set-name";
import type { Words } from "../../../lib/words/words";
import { Filled } from "../../fittings/filled";
import { RuleList } from "../../fittings/rule-words";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { problemWords } from "../../problem";
import { numberOf } from "./chart-view";
import { EachEstimator, LotMeanLimits, RunLength } from "./computed-further";
import { numbersWords } from "./engineer-view";
import { type JudgedFeature, onceJudged } from "./judged-feature";
import styles from "./panels.module.css";
import { TemperatureWorking } from "./temperature-working";
import { AssumptionList } from "./working-list";

/** How the chart comes about, with this feature's own figures put into the formulas. */
export async function ComputedPanel({ judged }: { judged: JudgedFeature }) {
  const { history, evaluation } = judged;
  const { zone } = await plant();
  const { working: said, assumptions } = await words();
  const working = limitsWorking(evaluation, { setup: history.setup, frozen: history.limits });
  return (
    <details className={styles.fold}>
      <summary>{said.title}</summary>
      <div className={styles.sheet}>
        <Points history={history} hasLabels={hasLabels(judged)} />
        {working ? <Limits history={history} working={working} zone={zone} /> : null}
        {working ? null : <LotMeanLimits history={history} evaluation={evaluation} />}
        {working ? <EachEstimator history={history} evaluation={evaluation} window={working.window} /> : null}
        <Rules history={history} />
        <RunLength history={history} />
        <AssumptionList assumptions={chartAssumptions(evaluation, history.setup, assumptions)} />
        <LeftOut history={history} evaluation={evaluation} zone={zone} />
        <Versions limits={history.limits} history={history} zone={zone} />
      </div>
    </details>
  );
}

const hasLabels = onceJudged(({ history: { series } }) => isStated(series.subgroup));

function Points({ history, hasLabels }: { history: FeatureHistory; hasLabels: boolean }) {
  const { chart, subgroupSize, counts } = history.setup.plan;
  const { working: all, charts } = use(words());
  const { points: said } = all;
  if (counts) {
    return (
      <section>
        <h3>{said.title}</h3>
        <p>
          {counts.size === null
            ? said.countsVarying(charts.counts[counts.chart])
            : said.counts(counts.size, charts.counts[counts.chart])}
        </p>
      </section>
    );
  }
  return (
    <section>
      <h3>{said.title}</h3>
      <p>
        {said.chartOf(charts.kinds[chart])}{" "}
        {chart === "i-mr"
          ? said.single
          : hasLabels
            ? said.labelled(subgroupSize)
            : said.inOrder(subgroupSize)}
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
  const { working: all, estimators } = use(words());
  const { limits: said } = all;
  const own = estimators.within[working.estimator];
  const row = limits.find((one) => one.version === version.version);
  return (
    <section>
      <h3>{isTrial ? said.trial : said.version(version.version)}</h3>
      <p>
        {isTrial ? said.notFrozen(LEAST_FOR_FINAL) : null}
        {row ? (
          <Filled
            text={row.by ? said.frozenBy : said.frozen}
            holes={{ when: <When at={row.frozenAt} zone={zone} />, by: row.by, reason: row.reason }}
          />
        ) : null}
      </p>
      <Working history={history} working={working} />
      <p className={styles.soft}>{said.why(own.name, own.because, own.source)}</p>
      <Changed working={working} history={history} />
    </section>
  );
}

function Working({ history, working }: { history: FeatureHistory; working: LimitsWorking }) {
  const { feature } = history;
  const { version, estimator, quotient, agrees, sizes, subgroups, readings, window } = working;
  const { working: all, estimators, features } = use(words());
  const { limits: said } = all;
  const { location: locations, spread: spreads } = features.chart;
  const own = estimators.within[estimator];
  const bare = (value: number, extra = 1) => measured(value, { resolution: feature.resolution, extra });
  const figure = (value: number, extra = 1) => withUnit(bare(value, extra), feature.unit);
  const chart = history.setup.plan.chart;
  const lines: [term: string, working: ReactNode][] = [];
  if (window) {
    lines.push([
      said.baseline,
      said.baselineIs(features.numbers(numberOf(window.from), numberOf(window.to)), subgroups, readings),
    ]);
  }
  const centreName = chart === "i-mr" ? "x̄" : "x̿";
  lines.push([said.centre, said.centreIs(centreName, figure(version.centre))]);
  if (own.quotient && quotient && agrees) {
    lines.push([
      own.quotient.spreadName,
      said.quotientIs(
        own.quotient.spread,
        figure(quotient.spread, 2),
        own.quotient.divisor,
        fixed(quotient.divisor, 4),
      ),
    ]);
    lines.push([
      said.sigma,
      `${own.formula} = ${bare(quotient.spread, 2)} / ${fixed(quotient.divisor, 4)} = ${figure(version.sigma, 2)}`,
    ]);
  } else {
    lines.push([said.sigma, `${own.formula} = ${figure(version.sigma, 2)}`]);
  }
  if (version.sigma > 0) {
    for (const { size } of sizes.length > 0 ? sizes.slice(0, MOST_SIZES) : []) {
      const { location, spread } = limitsForSize({ ...version, chart }, size);
      const root = size === 1 ? "" : ` / √${size}`;
      const named = (name: string) => (sizes.length > 1 ? said.ofSize(name, size) : name);
      lines.push([
        named(locations[chart]),
        said.locationIs(
          `${centreName} ± 3σ̂${root} = ${bare(location.centre)} ± ${bare(3 * version.sigma, 2)}${root}`,
          bare(location.lower),
          figure(location.upper),
        ),
      ]);
      if (spread) {
        lines.push([
          named(spreads[chart]),
          said.spreadIs(
            spreadFormula(chart, said.ofTwo),
            bare(spread.lower),
            figure(spread.upper),
            figure(spread.centre),
          ),
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
          <dt>{said.byHand}</dt>
          <dd className={styles.because}>{constantsWords(chart, size, said)}</dd>
        </div>
      ) : null}
      {sizes.length > MOST_SIZES ? (
        <div>
          <dt>{said.otherSizes}</dt>
          <dd>{said.sizes(sizes.length)}</dd>
        </div>
      ) : null}
    </dl>
  );
}

const MOST_SIZES = 3;

type Chart = FeatureHistory["setup"]["plan"]["chart"];

function spreadFormula(chart: Chart, ofTwo: string): string {
  if (chart === "i-mr") return ofTwo;
  return chart === "xbar-r" ? "(d₂ ± 3d₃)σ̂" : "(c₄ ± 3√(1 − c₄²))σ̂";
}

/** The constants of handbooks, which lead to the same limits. */
function constantsWords(chart: Chart, size: number, said: Words["working"]["limits"]): string {
  const { A2, A3, B3, B4, D3, D4, E2 } = controlChartConstants(chart === "i-mr" ? 2 : Math.max(2, size));
  const figures = (constants: Record<string, number>) =>
    Object.entries(constants)
      .map(([name, value]) => `${name} = ${fixed(value, 4)}`)
      .join(", ");
  if (chart === "i-mr") {
    return said.byHandSingle(figures({ "E₂": E2, "D₄": D4 }));
  }
  if (chart === "xbar-r") {
    return said.byHandRange(size, figures({ "A₂": A2, "D₃": D3, "D₄": D4 }));
  }
  return said.byHandSd(size, figures({ "A₃": A3, "B₃": B3, "B₄": B4 }));
}

/** Frozen limits do not follow what happens to their baseline afterwards. */
function Changed({ working, history }: { working: LimitsWorking; history: FeatureHistory }) {
  const { agrees, today, isTrial } = working;
  const { working: all, problems } = use(words());
  const { changed: said } = all;
  if (agrees || isTrial) return null;
  const { resolution, unit } = history.feature;
  const figure = (value: number, extra: number) => withUnit(measured(value, { resolution, extra }), unit);
  if (!today) {
    return <p>{said.plan}</p>;
  }
  if (!today.ok) {
    return (
      <p>
        {said.none} {problemWords(today.problem, "controlLimits", problems)}
      </p>
    );
  }
  return <p>{said.today(figure(today.value.centre, 1), figure(today.value.sigma, 2))}</p>;
}

function Rules({ history }: { history: FeatureHistory }) {
  const { rules, counts } = history.setup.plan;
  const onSpread = rulesForSpread(rules.map(ruleBySlug));
  const { working: all, performance, rules: ruleWords } = use(words());
  const { rules: said } = all;
  return (
    <section>
      <h3>{said.title(ruleSetName(rules, performance.sets))}</h3>
      <p>{said.look}</p>
      <RuleList slugs={rules} />
      {counts ? null : (
        <p className={styles.soft}>
          {onSpread.length === 0
            ? said.noneBelow
            : said.below(onSpread.map(({ statementIn }) => statementIn(ruleWords)).join(" "))}
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
  const { working: all, features } = use(words());
  const { leftOut: said } = all;
  return (
    <section>
      <h3>{said.title}</h3>
      {exclusions.length === 0 ? <p>{said.none}</p> : null}
      <ul className={styles.list}>
        {exclusions.map((exclusion) => (
          <li key={exclusion.id}>
            <Filled
              text={exclusion.by ? said.isBy : said.is}
              holes={{
                cause: exclusion.cause,
                numbers: numbersWords(evaluation.points, exclusion, features),
                when: <When at={exclusion.createdAt} zone={zone} as="day" />,
                by: exclusion.by,
              }}
            />
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
  const { versions: said, limits: frozen } = use(words()).working;
  if (limits.length < 2) return null;
  const { resolution, unit } = history.feature;
  const { counts } = history.setup.plan;
  const figure = (value: number, extra: number) =>
    counts ? countFigure(value, counts) : withUnit(measured(value, { resolution, extra }), unit);
  return (
    <section>
      <h3>{said.title}</h3>
      <ul className={styles.list}>
        {limits.map((row) => (
          <li key={row.id}>
            {said.is({
              version: row.version,
              centre: figure(row.centre, 1),
              sigma: figure(row.sigma, 2),
              subgroups: row.baselineSubgroups,
            })}{" "}
            <Filled
              text={row.by ? frozen.frozenBy : frozen.frozen}
              holes={{
                when: <When at={row.frozenAt} zone={zone} as="day" />,
                by: row.by,
                reason: row.reason,
              }}
            />
          </li>
        ))}
      </ul>
    </section>
  );
}
