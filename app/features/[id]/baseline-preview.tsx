import type { FeatureHistory } from "../../../db/queries/history";
import { type BaselineWindow, baselinePreview } from "../../../lib/evaluation/baseline-preview";
import { plannedSize } from "../../../lib/evaluation/evaluate";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { LEAST_FOR_FINAL, TRIAL_VERSION } from "../../../lib/evaluation/setup";
import { counted, measured, withUnit } from "../../../lib/format/numbers";
import { dayIn } from "../../../lib/format/times";
import type { LimitsEstimator } from "../../../lib/limits/estimators";
import { limitsForSize } from "../../../lib/limits/limits-for-size";
import { usualSize } from "../../../lib/subgroups/usual-size";
import { Note } from "../../fittings/note";
import { RulePhrase } from "../../fittings/rule-words";
import { Table } from "../../fittings/table";
import { ProblemNote } from "../../problem";
import { LOCATION_NAMES, numberOf, SPREAD_NAMES } from "./chart-view";
import styles from "./panels.module.css";

type Basis = { centre: number; sigma: number; betweenLots?: number } | null;
type Row = { key: string; present: string; new: string };

/** What a baseline would give, beside the limits in force, and what inside it would signal. */
export function BaselinePreview({
  history,
  evaluation,
  baseline,
  estimator,
  zone,
}: {
  history: FeatureHistory;
  evaluation: Evaluation;
  baseline: BaselineWindow | null;
  /** Null for the chart's usual one. */
  estimator: LimitsEstimator | null;
  zone: string;
}) {
  const { setup } = history;
  const preview =
    baseline && baselinePreview(evaluation, { setup, window: baseline, estimator: estimator ?? undefined });
  if (!preview) return null;
  const { window, subgroups, excluded, isEnough, limits, patterns } = preview;
  const name = `subgroups ${numberOf(window.from)} to ${numberOf(window.to)}`;
  const days = `${dayIn(preview.fromAt, zone)} to ${dayIn(preview.toAt, zone)}`;
  const leftOut = excluded > 0 ? ` ${counted(excluded, "subgroup")} in it left out.` : "";
  return (
    <div className={styles.form}>
      <p>
        Baseline {name}, {days}: {counted(subgroups, "subgroup")} {subgroups === 1 ? "counts" : "count"}.
        {leftOut}
      </p>
      {isEnough ? null : (
        <Note kind="not-yet">
          Too few to freeze: limits need at least {LEAST_FOR_FINAL} subgroups that count.
        </Note>
      )}
      {limits.ok ? (
        <>
          <Table
            caption={`Limits from ${name} beside those in force`}
            isCaptionShown={false}
            columns={[
              { key: "what", head: "Limit", cell: ({ key }: Row) => key },
              {
                key: "present",
                head: presentName(evaluation),
                figures: true,
                cell: (row: Row) => row.present,
              },
              { key: "new", head: "this baseline", figures: true, cell: (row: Row) => row.new },
            ]}
            rows={rowsFor(history, evaluation, { window, limits: limits.value })}
            rowKey={({ key }) => key}
          />
          <WouldSignal patterns={patterns} />
        </>
      ) : (
        <ProblemNote problem={limits.problem} figure="control limits" />
      )}
    </div>
  );
}

function presentName({ progress }: Evaluation): string {
  if (!progress.limits) return "in force";
  return progress.limits.version === TRIAL_VERSION ? "trial limits" : `limits ${progress.limits.version}`;
}

/** Both sets of limits, for subgroups of the size that most of the baseline has. */
function rowsFor(
  { feature, setup }: FeatureHistory,
  { points, progress }: Evaluation,
  { window, limits }: { window: BaselineWindow; limits: NonNullable<Basis> },
): Row[] {
  const { chart, counts } = setup.plan;
  const name = counts ? "Count" : LOCATION_NAMES[chart];
  const size = usualSize(points.size.subarray(window.from, window.to + 1)) ?? plannedSize(setup);
  const figure = (value: number, extra = 1) =>
    withUnit(measured(value, { resolution: feature.resolution, extra }), feature.unit);
  const drawn = (basis: Basis) =>
    basis && basis.sigma > 0
      ? { ...limitsForSize({ ...basis, chart }, size), sigma: basis.sigma, betweenLots: basis.betweenLots }
      : null;
  const present = drawn(progress.limits);
  const next = drawn(limits);
  type Drawn = NonNullable<typeof present>;
  const row = (key: string, of: (limits: Drawn) => string): Row => ({
    key,
    present: present ? of(present) : "none",
    new: next ? of(next) : "none",
  });
  return [
    row(`${name}, upper limit`, ({ location }) => figure(location.upper)),
    row("Centre line", ({ location }) => figure(location.centre)),
    row(`${name}, lower limit`, ({ location }) =>
      figure(counts ? Math.max(0, location.lower) : location.lower),
    ),
    ...(counts
      ? []
      : [
          row(`${SPREAD_NAMES[chart]}, upper limit`, ({ spread }) =>
            spread ? figure(spread.upper) : "none",
          ),
        ]),
    row(counts ? "Sigma of a count" : "Within-subgroup sigma", ({ sigma }) => figure(sigma, 2)),
    ...(present?.betweenLots || next?.betweenLots
      ? [row("Sigma between lots", ({ betweenLots }) => (betweenLots ? figure(betweenLots, 2) : "none"))]
      : []),
  ];
}

const MOST_LISTED = 6;

function WouldSignal({
  patterns,
}: {
  patterns: NonNullable<ReturnType<typeof baselinePreview>>["patterns"];
}) {
  if (patterns.length === 0) return <p>Judged by its own limits, nothing inside it signals.</p>;
  return (
    <div>
      <p>
        Judged by its own limits, {counted(patterns.length, "pattern")} inside it would signal. Find the
        causes; leave out what has one, or choose a steadier stretch.
      </p>
      <ul className={styles.list}>
        {patterns.slice(0, MOST_LISTED).map((pattern) => (
          <li key={`${pattern.chart} ${pattern.rule} ${pattern.direction} ${pattern.firstAt}`}>
            {pattern.chart === "spread" ? "spread: " : ""}
            <RulePhrase slug={pattern.rule} direction={pattern.direction} />, {membersWords(pattern.members)}
          </li>
        ))}
        {patterns.length > MOST_LISTED ? <li>and {patterns.length - MOST_LISTED} more</li> : null}
      </ul>
    </div>
  );
}

function membersWords(members: readonly number[]): string {
  const first = numberOf(members[0] ?? 0);
  const last = numberOf(members.at(-1) ?? 0);
  return first === last ? `subgroup ${first}` : `subgroups ${first} to ${last}`;
}
