import type { Database } from "../../../db/connection";
import type { FeatureHistory } from "../../../db/queries/history";
import { partHistories } from "../../../db/queries/part-histories";
import { spanOf } from "../../../lib/chart/scale";
import { MOST_SHOWN, USUALLY_SHOWN } from "../../../lib/chart/shown-window";
import { shortRunLimits } from "../../../lib/charts/short-run";
import {
  type ShortRunCourse,
  type ShortRunFeature,
  shortRunCourse,
} from "../../../lib/charts/short-run-course";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { Pattern } from "../../../lib/evaluation/patterns";
import { counted, fixed, measured, withUnit } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import { TIE } from "../../../lib/rules/judge";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { rulesRunLengths } from "../../../lib/run-length/rules-run-length";
import { ENGLISH } from "../../../lib/words/words";
import { LinkTabs } from "../../fittings/controls";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { RulePhrase } from "../../fittings/rule-words";
import { Table } from "../../fittings/table";
import { PAGE_SIMULATION } from "../../plan/cost-answer";
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
  const features = await alikeFeatures(database, history, { evaluation, basis });
  const { chart, rules } = setup.plan;
  const tabs = (
    <LinkTabs
      label="What a feature is compared with"
      links={[
        { href: addressOf("nominal"), label: "From nominal", isCurrent: basis === "nominal" },
        { href: addressOf("centre"), label: "From the centre line", isCurrent: basis === "centre" },
      ]}
    />
  );
  if (!features.some(({ name }) => name === feature.name)) {
    return (
      <>
        {tabs}
        <Note kind="not-yet">
          {evaluation.progress.limits
            ? "The control plan states no nominal and no target for this feature. Compare it with its centre line instead."
            : "No sigma to divide by yet: there are no limits. They come with further subgroups."}
        </Note>
      </>
    );
  }
  const course = shortRunCourse({ chart, rules, features });
  const from = Math.max(0, course.points.length - Math.min(MOST_SHOWN, 2 * USUALLY_SHOWN));
  const shown = course.points.slice(from);
  const names = features.map(({ name }) => name);
  const rows = shown.map((point, i) => rowOf(point, { number: from + i + 1, zone }));
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
        {counted(features.length, "feature")} of this part that{" "}
        {features.length === 1 ? "is a" : "are all of kind"} {feature.kind}, on charts of the same sort, in
        the order in which they were made.
        {inControl?.mean == null
          ? ""
          : ` By the run rules in force here, about one point in ${fixed(inControl.mean, 0)} gives a false alarm on the upper chart, if targets and sigmas are right.`}{" "}
        A look only: it raises no alarm.
      </p>
      {basis === "nominal" && shown.filter(isBeyond).length > MANY_BEYOND * shown.length ? (
        <Note kind="remark" title="Most of these processes are not set to their nominal">
          {counted(shown.filter(isBeyond).length, "point")} of {shown.length} lie beyond the limits. That says
          where they are set, not that they moved. To see what moved, compare each{" "}
          <Link href={addressOf("centre")}>with its centre line</Link>.
        </Note>
      ) : null}
      <PlainChart
        label="Deviations on the chart"
        view={{
          name: `Deviation from ${basis === "nominal" ? "nominal" : "centre line"}, sigma of the point`,
          along: "Points of all features, in the order of time",
          places: 1,
          domain: spanOf([...shown.map((point) => point.location), -3.3, 3.3], { margin: 0.05 }),
          points: shown.map((point, i) => ({
            number: from + i + 1,
            values: [point.location],
            beyond: [isBeyond(point)],
            group: names.indexOf(point.feature),
            spoken: `${rows[i]!.feature}, ${rows[i]!.when}: ${rows[i]!.location} sigma from its target`,
          })),
          limits: [
            { name: "upper", kind: "limit", values: flat(location.upper) },
            { name: "centre", kind: "centre", values: flat(0) },
            { name: "lower", kind: "limit", values: flat(location.lower) },
          ],
          groups: names,
        }}
      />
      <ShortRunSignals course={course} zone={zone} spreadName={ENGLISH.features.chart.spread[chart]} />
      <details className={styles.fold}>
        <summary>The points as a table: the latest {shown.length}</summary>
        <Table
          caption={`Deviations of ${counted(features.length, "feature")}, the latest ${shown.length} points`}
          columns={[
            { key: "number", head: "Point", figures: true, cell: (row: Row) => row.number },
            { key: "feature", head: "Feature", names: true, cell: (row: Row) => row.feature },
            { key: "when", head: "Last reading", tight: true, cell: (row: Row) => row.when },
            { key: "location", head: "z", figures: true, cell: (row: Row) => row.location },
            {
              key: "spread",
              head: `${ENGLISH.features.chart.spread[chart]}, in sigma`,
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
  const all = await partHistories(database, feature.partId);
  const alike = all
    .filter(
      ({ feature: other }) =>
        other.kind === feature.kind &&
        other.unit === feature.unit &&
        other.plan.chart === setup.plan.chart &&
        !other.plan.counts,
    )
    .sort((a, b) => Number(b.feature.id === feature.id) - Number(a.feature.id === feature.id));
  const found: ShortRunFeature[] = [];
  for (const other of alike) {
    if (found.length === MOST_FEATURES) break;
    const isThis = other.feature.id === feature.id;
    const judged = isThis ? evaluation : evaluate(other.series, other.setup);
    const { limits } = judged.progress;
    if (!limits || limits.sigma <= 0) continue;
    const target = basis === "centre" ? limits.centre : (other.feature.plan.target ?? other.feature.nominal);
    if (target !== null) found.push({ name: other.feature.name, target, evaluation: judged });
  }
  return found;
}

function isBeyond({ location }: ShortRunCourse["points"][number]): boolean {
  return Math.abs(location) > 3 + TIE;
}

type Row = { number: number; feature: string; when: string; location: string; spread: string };

function rowOf(
  point: ShortRunCourse["points"][number],
  { number, zone }: { number: number; zone: string },
): Row {
  return {
    number,
    feature: `${point.feature}, subgroup ${point.number + 1}`,
    when: shortMomentIn(point.at, zone),
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
  const latest = course.patterns.slice(-MOST_LISTED).reverse();
  return (
    <section>
      <h3>Signals, by the run rules of this feature</h3>
      {latest.length === 0 ? <p>None in {counted(course.points.length, "point")}.</p> : null}
      <ul className={`${styles.list} ${styles.signals}`}>
        {latest.map((pattern) => (
          <li key={`${pattern.chart} ${pattern.rule} ${pattern.direction} ${pattern.firstAt}`}>
            {pattern.chart === "spread" ? `${spreadName}: ` : ""}
            <RulePhrase slug={pattern.rule} direction={pattern.direction} />, {membersWords(pattern, course)},{" "}
            {shortMomentIn(pattern.firstTime, zone)}
          </li>
        ))}
      </ul>
      {course.patterns.length > MOST_LISTED ? (
        <p className={styles.soft}>
          And {course.patterns.length - MOST_LISTED} earlier ones. When one feature gives them all, its target
          or its sigma is not what the process has; when several do, look at what they share.
        </p>
      ) : null}
    </section>
  );
}

/** "points 12 to 20, of Bore A and Bore B". */
function membersWords({ members }: Pattern, { points }: ShortRunCourse): string {
  const first = members[0] ?? 0;
  const last = members.at(-1) ?? first;
  const names = [...new Set(members.map((member) => points[member]?.feature ?? ""))];
  const numbers = first === last ? `point ${first + 1}` : `points ${first + 1} to ${last + 1}`;
  return `${numbers} (${names.join(", ")})`;
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
  const last = course.points.findLast((point) => point.feature === feature.name);
  const own = course.targets.get(feature.name);
  const figure = (value: number, extra = 1) => measured(value, { resolution: feature.resolution, extra });
  const root = last && last.size > 1 ? `·√${last.size}` : "";
  return (
    <details className={styles.fold}>
      <summary>How is this computed</summary>
      <div className={styles.sheet}>
        {last && own ? (
          <section>
            <h3>Its latest point</h3>
            <WorkingList
              lines={[
                [
                  "Target",
                  `${basis === "nominal" ? "target or nominal of the plan" : "centre line in force"} = ${withUnit(figure(own.target), feature.unit)}`,
                ],
                [
                  "Sigma",
                  `within subgroups, of the limits in force = ${withUnit(figure(own.sigma, 2), feature.unit)}`,
                ],
                [
                  "z",
                  `(x̄ − target)·√n / σ̂ = ${figure(last.deviation)}${root} / ${figure(own.sigma, 2)} = ${fixed(last.location, 2)}`,
                ],
                ["Limits", "0 ± 3, for every feature and every subgroup size"],
                ...(last.spreadInSigma === null
                  ? []
                  : [
                      [
                        ENGLISH.features.chart.spread[chart],
                        `in sigma = ${fixed(last.spreadInSigma, 2)}; judged as z of its own distribution = ${fixed(last.spread ?? 0, 2)}`,
                      ] as const,
                    ]),
              ]}
            />
            <p className={styles.soft}>ISO 7870-8 and ISO 7870-5 (from memory).</p>
          </section>
        ) : null}
        <section>
          <h3>What it takes for granted</h3>
          <p>
            That each target is where its process is set, and each sigma is that of its process; a wrong one
            shows as a run of that feature alone. Features of one piece share what moved the piece, so points
            at one moment are not independent of each other: several beyond a limit at once are one event.
          </p>
        </section>
      </div>
    </details>
  );
}
