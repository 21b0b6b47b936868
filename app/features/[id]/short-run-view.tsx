import { use } from "react";
import type { Database } from "../../../db/connection";
import type { FeatureHistory } from "../../../db/queries/history";
import { axisSpans } from "../../../lib/chart/axis-spans";
import { MOST_SHOWN, USUALLY_SHOWN } from "../../../lib/chart/shown-window";
import { shortRunLimits } from "../../../lib/charts/short-run";
import {
  type CoursePoint,
  type ShortRunCourse,
  type ShortRunFeature,
  shortRunCourse,
} from "../../../lib/charts/short-run-course";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { Pattern } from "../../../lib/evaluation/patterns";
import { fixed, measured, withUnit } from "../../../lib/format/numbers";
import type { TimeWords } from "../../../lib/format/times";
import { shortMomentIn } from "../../../lib/format/times";
import { TIE } from "../../../lib/rules/judge";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { rulesRunLengths } from "../../../lib/run-length/rules-run-length";
import type { Words } from "../../../lib/words/words";
import { LinkTabs } from "../../fittings/controls";
import { Filled } from "../../fittings/filled";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { RulePhrase } from "../../fittings/rule-words";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import { PAGE_SIMULATION } from "../../plan/cost-answer";
import { featuresShown, historyShown } from "../../shown/lengths";
import type { ShortRunBasis } from "./chart-choice";
import { PlainChart } from "./later-chart";
import styles from "./panels.module.css";
import { WorkingList } from "./working-list";

/** Colours and shapes tell so many apart. */
const MOST_FEATURES = 7;
const MOST_LISTED = 10;
/** With more of the shown points beyond their limits, targets are not where processes are set. */
const MANY_BEYOND = 0.2;

/**
 * This feature and others of its part and kind on one chart: how far each lies from its nominal, in its own
 * sigma. For runs too short to chart each by itself, and for what moves several of them at once.
 */
export async function ShortRunView({
  database,
  history,
  evaluation,
  basis,
  addressOf,
  zone,
}: {
  database: Database;
  history: FeatureHistory;
  evaluation: Evaluation;
  basis: ShortRunBasis;
  /** The page's address with another basis. */
  addressOf: (basis: ShortRunBasis) => string;
  zone: string;
}) {
  const { feature, setup } = history;
  const { otherCharts, charts, features: names, times } = await words();
  const { shortRuns: said } = otherCharts;
  const features = await alikeFeatures(database, history, { evaluation, basis });
  const { chart, rules } = setup.plan;
  const tabs = (
    <LinkTabs
      label={said.basis}
      links={[
        { href: addressOf("nominal"), label: said.fromNominal, isCurrent: basis === "nominal" },
        { href: addressOf("centre"), label: said.fromCentre, isCurrent: basis === "centre" },
      ]}
    />
  );
  if (!features.some(({ name }) => name === feature.name)) {
    return (
      <>
        {tabs}
        <Note kind="not-yet">{evaluation.progress.limits ? said.noTarget : said.noSigma}</Note>
      </>
    );
  }
  const course = shortRunCourse({ chart, rules, features });
  const from = Math.max(0, course.count - Math.min(MOST_SHOWN, 2 * USUALLY_SHOWN));
  const shown = Array.from({ length: course.count - from }, (_, i) => course.pointAt(from + i));
  const groups = features.map(({ name }) => name);
  const rows = shown.map((point, i) => rowOf(point, { number: from + i + 1, zone, times, said }));
  const sizes = shown.map(({ size }) => size);
  const { location } = shortRunLimits(chart, chart === "i-mr" ? 1 : Math.max(2, sizes.at(-1) ?? 2));
  const flat = (value: number) => shown.map(() => value);
  const [inControl] = rulesRunLengths({
    rules: rules.map(ruleBySlug),
    shifts: [0],
    simulation: PAGE_SIMULATION,
  });

  return (
    <>
      {tabs}
      <p>
        {said.which(features.length, charts.features[feature.kind])}
        {inControl?.mean == null ? "" : said.falseAlarms(fixed(inControl.mean, 0))} {otherCharts.lookOnly}
      </p>
      {basis === "nominal" && shown.filter(isBeyond).length > MANY_BEYOND * shown.length ? (
        <Note kind="remark" title={said.notSet}>
          <Filled
            text={said.manyBeyond(shown.filter(isBeyond).length, shown.length)}
            holes={{ link: <Link href={addressOf("centre")}>{said.withCentre}</Link> }}
          />
        </Note>
      ) : null}
      <PlainChart
        label={said.onChart}
        words={{ ...otherCharts.plain, offAxis: names.chart.offAxis }}
        view={{
          name: said.deviation[basis],
          along: said.along,
          places: 1,
          axis: axisSpans(
            shown.map((point) => point.location),
            { kept: [-3.3, 3.3], margin: 0.05 },
          ),
          points: shown.map((point, i) => ({
            number: from + i + 1,
            values: [point.location],
            beyond: [isBeyond(point)],
            group: groups.indexOf(point.feature),
            spoken: said.spoken(rows[i]!.feature, rows[i]!.when, rows[i]!.location),
          })),
          limits: [
            { name: "upper", kind: "limit", values: flat(location.upper) },
            { name: "centre", kind: "centre", values: flat(0) },
            { name: "lower", kind: "limit", values: flat(location.lower) },
          ],
          groups,
        }}
      />
      <ShortRunSignals course={course} zone={zone} spreadName={names.chart.spread[chart]} />
      <details className={styles.fold}>
        <summary>{said.summary(shown.length)}</summary>
        <Table
          caption={said.caption(features.length, shown.length)}
          columns={[
            { key: "number", head: said.heads.point, figures: true, cell: (row: Row) => row.number },
            { key: "feature", head: said.heads.feature, names: true, cell: (row: Row) => row.feature },
            { key: "when", head: said.heads.when, tight: true, cell: (row: Row) => row.when },
            { key: "location", head: "z", figures: true, cell: (row: Row) => row.location },
            {
              key: "spread",
              head: said.inSigma(names.chart.spread[chart]),
              figures: true,
              cell: (row: Row) => row.spread,
            },
          ]}
          rows={rows}
          rowKey={({ number }) => number}
        />
      </details>
      <Computed history={history} course={course} basis={basis} />
    </>
  );
}

/** This feature first, then others of its part and kind whose charts and units are alike and that have a sigma. */
async function alikeFeatures(
  database: Database,
  { feature, setup }: FeatureHistory,
  { evaluation, basis }: { evaluation: Evaluation; basis: ShortRunBasis },
): Promise<ShortRunFeature[]> {
  const all = await featuresShown(database, { partId: feature.partId });
  const alike = all
    .filter(
      ({ kind, unit, plan }) =>
        kind === feature.kind && unit === feature.unit && plan.chart === setup.plan.chart && !plan.counts,
    )
    .sort((a, b) => Number(b.id === feature.id) - Number(a.id === feature.id));
  const found: ShortRunFeature[] = [];
  for (const other of alike) {
    if (found.length === MOST_FEATURES) break;
    const judged = other.id === feature.id ? evaluation : await evaluationOf(database, other.id);
    const limits = judged?.progress.limits;
    if (!judged || !limits || limits.sigma <= 0) continue;
    const target = basis === "centre" ? limits.centre : (other.plan.target ?? other.nominal);
    if (target !== null) found.push({ name: other.name, target, evaluation: judged });
  }
  return found;
}

async function evaluationOf(database: Database, id: number): Promise<Evaluation | null> {
  const history = await historyShown(database, id);
  return history && evaluate(history.series, history.setup);
}

function isBeyond({ location }: CoursePoint): boolean {
  return Math.abs(location) > 3 + TIE;
}

type Row = { number: number; feature: string; when: string; location: string; spread: string };

function rowOf(
  point: CoursePoint,
  {
    number,
    zone,
    times,
    said,
  }: { number: number; zone: string; times: TimeWords; said: Words["otherCharts"]["shortRuns"] },
): Row {
  return {
    number,
    feature: said.ofFeature(point.feature, point.number + 1),
    when: shortMomentIn(point.at, zone, times),
    location: fixed(point.location, 2, { signed: true }),
    spread: point.spreadInSigma === null ? "–" : fixed(point.spreadInSigma, 2),
  };
}

function ShortRunSignals({
  course,
  zone,
  spreadName,
}: {
  course: ShortRunCourse;
  zone: string;
  spreadName: string;
}) {
  const { otherCharts, times } = use(words());
  const { shortRuns: said } = otherCharts;
  const latest = course.patterns.slice(-MOST_LISTED).reverse();
  return (
    <section>
      <h3>{said.signals}</h3>
      {latest.length === 0 ? <p>{otherCharts.noneIn.points(course.count)}</p> : null}
      <ul className={`${styles.list} ${styles.signals}`}>
        {latest.map((pattern) => (
          <li key={`${pattern.chart} ${pattern.rule} ${pattern.direction} ${pattern.firstAt}`}>
            {pattern.chart === "spread" ? said.ofSpread(spreadName) : ""}
            <RulePhrase slug={pattern.rule} direction={pattern.direction} />,{" "}
            {membersWords(pattern, course, said)}, {shortMomentIn(pattern.firstTime, zone, times)}
          </li>
        ))}
      </ul>
      {course.patterns.length > MOST_LISTED ? (
        <p className={styles.soft}>{said.earlier(course.patterns.length - MOST_LISTED)}</p>
      ) : null}
    </section>
  );
}

/** "points 12 to 20, of Bore A and Bore B". */
function membersWords(
  { members }: Pattern,
  { featureAt }: ShortRunCourse,
  said: Words["otherCharts"]["shortRuns"],
): string {
  const first = members[0] ?? 0;
  const last = members.at(-1) ?? first;
  const names = [...new Set(members.map(featureAt))];
  return said.numbers(first + 1, last + 1, names.join(", "));
}

function Computed({
  history,
  course,
  basis,
}: {
  history: FeatureHistory;
  course: ShortRunCourse;
  basis: ShortRunBasis;
}) {
  const { feature, setup } = history;
  const { chart } = setup.plan;
  const { otherCharts, assumptions, features } = use(words());
  const { shortRuns: said } = otherCharts;
  const latest = course.latestOf(feature.name);
  const last = latest === null ? null : course.pointAt(latest);
  const own = course.targets.get(feature.name);
  const figure = (value: number, extra = 1) => measured(value, { resolution: feature.resolution, extra });
  const root = last && last.size > 1 ? `·√${last.size}` : "";
  return (
    <details className={styles.fold}>
      <summary>{said.computed}</summary>
      <div className={styles.sheet}>
        {last && own ? (
          <section>
            <h3>{said.latest}</h3>
            <WorkingList
              lines={[
                [said.target, said.targetIs[basis](withUnit(figure(own.target), feature.unit))],
                [said.sigma, said.sigmaIs(withUnit(figure(own.sigma, 2), feature.unit))],
                [
                  "z",
                  said.zIs(
                    `${figure(last.deviation)}${root} / ${figure(own.sigma, 2)} = ${fixed(last.location, 2)}`,
                  ),
                ],
                [said.limits, said.limitsAre],
                ...(last.spreadInSigma === null
                  ? []
                  : [
                      [
                        features.chart.spread[chart],
                        said.spreadIs(fixed(last.spreadInSigma, 2), fixed(last.spread ?? 0, 2)),
                      ] as const,
                    ]),
              ]}
            />
            <p className={styles.soft}>{said.source}</p>
          </section>
        ) : null}
        <section>
          <h3>{assumptions.title}</h3>
          <p>{said.assumes}</p>
        </section>
      </div>
    </details>
  );
}
