import { use } from "react";
import type { FeatureHistory } from "../../../db/queries/history";
import { type BaselineWindow, baselinePreview } from "../../../lib/evaluation/baseline-preview";
import { plannedSize } from "../../../lib/evaluation/evaluate";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { LEAST_FOR_FINAL, TRIAL_VERSION } from "../../../lib/evaluation/setup";
import { countFigure } from "../../../lib/format/count-figure";
import { asEntered, measured, withUnit } from "../../../lib/format/numbers";
import { dayIn } from "../../../lib/format/times";
import type { LimitsEstimator } from "../../../lib/limits/estimators";
import { limitsForSize } from "../../../lib/limits/limits-for-size";
import { cutToPossible, isPerUnit, usualSample } from "../../../lib/plan/counts";
import type { CountPlan } from "../../../lib/plan/feature-plan";
import { usualSize } from "../../../lib/subgroups/usual-size";
import type { Words } from "../../../lib/words/words";
import { Note } from "../../fittings/note";
import { RulePhrase } from "../../fittings/rule-words";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import { ProblemNote } from "../../problem";
import { numberOf } from "./chart-view";
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
  const { features, times } = use(words());
  const { preview: said } = features;
  const preview =
    baseline && baselinePreview(evaluation, { setup, window: baseline, estimator: estimator ?? undefined });
  if (!preview) return null;
  const { window, subgroups, excluded, isEnough, limits, patterns } = preview;
  const name = features.numbers(numberOf(window.from), numberOf(window.to));
  const day = (at: number) => dayIn(at, zone, times);
  const days = features.page.fromTo(day(preview.fromAt), day(preview.toAt));
  const leftOut = excluded > 0 ? said.leftOut(excluded) : "";
  return (
    <div className={styles.form}>
      <p>
        {said.baseline(name, days, subgroups)}
        {leftOut}
      </p>
      {isEnough ? null : <Note kind="not-yet">{said.tooFew(LEAST_FOR_FINAL)}</Note>}
      {limits.ok ? (
        <>
          <Table
            caption={said.caption(name)}
            isCaptionShown={false}
            columns={[
              { key: "what", head: said.limit, cell: ({ key }: Row) => key },
              {
                key: "present",
                head: presentName(evaluation, said),
                figures: true,
                cell: (row: Row) => row.present,
              },
              { key: "new", head: said.this, figures: true, cell: (row: Row) => row.new },
            ]}
            rows={rowsFor(history, evaluation, { window, limits: limits.value, features })}
            rowKey={({ key }) => key}
          />
          <WouldSignal patterns={patterns} />
        </>
      ) : (
        <ProblemNote problem={limits.problem} figure="controlLimits" />
      )}
    </div>
  );
}

function presentName({ progress }: Evaluation, said: Words["features"]["preview"]): string {
  if (!progress.limits) return said.inForce;
  return progress.limits.version === TRIAL_VERSION ? said.trial : said.version(progress.limits.version);
}

/** Both sets of limits, for subgroups of the size that most of the baseline has. */
function rowsFor(
  { feature, setup }: FeatureHistory,
  { points, progress }: Evaluation,
  {
    window,
    limits,
    features: { chart: names, preview: said },
  }: { window: BaselineWindow; limits: NonNullable<Basis>; features: Words["features"] },
): Row[] {
  const { chart, counts } = setup.plan;
  const sizes = points.size.subarray(window.from, window.to + 1);
  const size = (counts ? sizes.at(-1) : usualSize(sizes)) ?? plannedSize(setup);
  const name = counts ? countName(counts, size, said) : names.location[chart];
  const figure = (value: number, extra = 1) =>
    counts
      ? countFigure(value, counts)
      : withUnit(measured(value, { resolution: feature.resolution, extra }), feature.unit);
  const drawn = (basis: Basis) => {
    if (!basis || basis.sigma <= 0) return null;
    const { location, spread } = limitsForSize({ ...basis, chart }, size);
    const { betweenLots } = basis;
    // That of a count is the sigma of its own sample.
    const sigma = counts ? basis.sigma / Math.sqrt(size) : basis.sigma;
    return { location: counts ? cutToPossible(location, counts) : location, spread, sigma, betweenLots };
  };
  const present = drawn(progress.limits);
  const next = drawn(limits);
  type Drawn = NonNullable<typeof present>;
  const row = (key: string, of: (limits: Drawn) => string): Row => ({
    key,
    present: present ? of(present) : said.none,
    new: next ? of(next) : said.none,
  });
  return [
    row(said.upper(name), ({ location }) => figure(location.upper)),
    row(said.centre, ({ location }) => figure(location.centre)),
    row(said.lower(name), ({ location }) => figure(location.lower)),
    ...(counts
      ? []
      : [row(said.upper(names.spread[chart]), ({ spread }) => (spread ? figure(spread.upper) : said.none))]),
    row(
      counts ? (isPerUnit(counts.chart) ? said.sigmaOfSample : said.sigmaOfCount) : said.sigma,
      ({ sigma }) => figure(sigma, 2),
    ),
    ...(present?.betweenLots || next?.betweenLots
      ? [row(said.between, ({ betweenLots }) => (betweenLots ? figure(betweenLots, 2) : said.none))]
      : []),
  ];
}

/** "Count" or, on a chart of shares or rates, what they are of and for how large a sample. */
function countName(counts: CountPlan, size: number, said: Words["features"]["preview"]): string {
  const sample = size * usualSample(counts);
  return isPerUnit(counts.chart) ? said.rateOn(asEntered(Number(sample.toPrecision(12)))) : said.count;
}

const MOST_LISTED = 6;

function WouldSignal({
  patterns,
}: {
  patterns: NonNullable<ReturnType<typeof baselinePreview>>["patterns"];
}) {
  const { numbers, preview: said } = use(words()).features;
  if (patterns.length === 0) return <p>{said.noSignal}</p>;
  return (
    <div>
      <p>{said.signals(patterns.length)}</p>
      <ul className={styles.list}>
        {patterns.slice(0, MOST_LISTED).map((pattern) => (
          <li key={`${pattern.chart} ${pattern.rule} ${pattern.direction} ${pattern.firstAt}`}>
            {pattern.chart === "spread" ? said.ofSpread : ""}
            <RulePhrase slug={pattern.rule} direction={pattern.direction} />,{" "}
            {numbers(numberOf(pattern.members[0] ?? 0), numberOf(pattern.members.at(-1) ?? 0))}
          </li>
        ))}
        {patterns.length > MOST_LISTED ? <li>{said.more(patterns.length - MOST_LISTED)}</li> : null}
      </ul>
    </div>
  );
}
