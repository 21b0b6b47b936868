import type { Database } from "../../../db/connection";
import { type FeatureHistory, namesOf } from "../../../db/queries/history";
import { spanOf } from "../../../lib/chart/scale";
import { MOST_SHOWN } from "../../../lib/chart/shown-window";
import { lotMeans, lotsOf } from "../../../lib/charts/lot-means";
import { estimatorsFor } from "../../../lib/evaluation/estimator-choice";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import {
  counted,
  fixed,
  measured,
  percent,
  placesOf,
  unitSign,
  whole,
  withUnit,
} from "../../../lib/format/numbers";
import { dayIn } from "../../../lib/format/times";
import type { BetweenLots } from "../../../lib/limits/between-lot";
import { TIE } from "../../../lib/rules/judge";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { rulesRunLengths } from "../../../lib/run-length/rules-run-length";
import { Note } from "../../fittings/note";
import { Table } from "../../fittings/table";
import { PAGE_SIMULATION } from "../../plan/cost-answer";
import { ProblemNote } from "../../problem";
import { PlainChart } from "./later-chart";
import styles from "./panels.module.css";
import { WorkingList } from "./working-list";

/** Means of whole lots: what varies within lots and between them, apart, and limits that know of both. */
export async function LotView({
  database,
  history,
  evaluation,
  zone,
}: {
  database: Database;
  history: FeatureHistory;
  evaluation: Evaluation;
  zone: string;
}) {
  const { feature, series, setup } = history;
  const lots = lotsOf(evaluation, series);
  if (lots.length === 0) {
    return (
      <Note kind="empty" title="No lots">
        The measurements of this feature state no lot. Files can bring one along; Intake has a column for it.
      </Note>
    );
  }
  const found = lotMeans(lots);
  if (!found.ok) return <ProblemNote problem={found.problem} figure="lots" />;
  const study = found.value;
  const { offered, components } = study;
  const names = await namesOf(
    database,
    "lot",
    lots.map(({ id }) => id),
  );
  const bare = (value: number, extra = 1) => measured(value, { resolution: feature.resolution, extra });
  const figure = (value: number, extra = 1) => withUnit(bare(value, extra), feature.unit);
  const from = Math.max(0, lots.length - MOST_SHOWN);
  const shown = lots.slice(from);
  const reachWithin = (size: number) => (3 * components.within) / Math.sqrt(size);
  const isBeyond = (mean: number) => Math.abs(mean - offered.centre) > (3 + TIE) * offered.sigma;
  const rows = shown.map(
    (lot, i): Row => ({
      number: from + i + 1,
      lot: names.get(lot.id) ?? `no. ${lot.id}`,
      day: dayIn(lot.lastAt, zone),
      size: lot.size,
      mean: bare(lot.mean),
      exact: lot.mean,
      range: from + i === 0 ? "–" : bare(Math.abs(lot.mean - lots[from + i - 1]!.mean)),
      standing: isBeyond(lot.mean)
        ? "beyond the limits of lot means"
        : Math.abs(lot.mean - offered.centre) > reachWithin(lot.size)
          ? "beyond what varies within lots"
          : "",
    }),
  );
  const flat = (value: number) => shown.map(() => value);
  const edge = (sign: 1 | -1) => shown.map(({ size }) => offered.centre + sign * reachWithin(size));
  const signalling = rows.filter(({ standing }) => standing === "beyond the limits of lot means");
  const unit = unitSign(feature.unit);
  const [inControl] = rulesRunLengths({
    rules: [ruleBySlug("beyond-3s")],
    shifts: [0],
    simulation: PAGE_SIMULATION,
  });

  return (
    <>
      <Note
        kind="remark"
        title={study.verdict === "swamped" ? "Lots differ by more than their pieces explain" : undefined}
      >
        <p>{study.sentence}</p>
        {study.verdict === "swamped" ? <HowToTake history={history} evaluation={evaluation} /> : null}
      </Note>
      <ul className={styles.shares}>
        <Share words="between lots" share={study.share} sigma={figure(components.between, 2)} />
        <Share words="within lots" share={1 - study.share} sigma={figure(components.within, 2)} />
      </ul>
      <PlainChart
        label="Lot means on the chart"
        view={{
          name: unit === "" ? "Mean of the lot" : `Mean of the lot, ${unit}`,
          along: "Lots, in the order of time",
          places: placesOf(feature.resolution) + 1,
          domain: spanOf([...shown.map(({ mean }) => mean), offered.lower, offered.upper], { margin: 0.08 }),
          points: shown.map(({ mean }, i) => ({
            number: from + i + 1,
            values: [mean],
            beyond: [isBeyond(mean)],
            spoken: spokenOf(rows[i]!, unit),
          })),
          limits: [
            { name: "upper", kind: "limit", values: flat(offered.upper) },
            { name: "centre", kind: "centre", values: flat(offered.centre) },
            { name: "lower", kind: "limit", values: flat(offered.lower) },
            { name: "upper within", kind: "faint", values: edge(1) },
            { name: "lower within", kind: "faint", values: edge(-1) },
          ],
          groups: [],
        }}
      />
      <p className={styles.soft}>
        Whole lines: limits of lot means, about one false alarm in {fixed(inControl?.mean ?? 0, 0)} lots.
        Dotted: where means would lie if only what varies within lots moved them. A look only: it raises no
        alarm.
      </p>
      <section>
        <h3>Signals</h3>
        {signalling.length === 0 ? <p>No lot lies beyond the limits of lot means.</p> : null}
        <ul className={styles.list}>
          {signalling.map(({ number, lot, day, mean }) => (
            <li key={number}>
              Lot {lot}, {day}: mean {mean} {unit}
            </li>
          ))}
        </ul>
      </section>
      <details className={styles.fold}>
        <summary>The lots as a table</summary>
        <Table
          caption={`Means of ${counted(shown.length, "lot")}${unit === "" ? "" : `, in ${unit}`}`}
          columns={[
            { key: "number", head: "No.", figures: true, cell: (row: Row) => row.number },
            { key: "lot", head: "Lot", names: true, tight: true, cell: (row: Row) => row.lot },
            { key: "day", head: "Last reading", tight: true, cell: (row: Row) => row.day },
            { key: "size", head: "n", figures: true, cell: (row: Row) => row.size },
            {
              key: "mean",
              head: "Mean",
              figures: true,
              cell: (row: Row) => <data value={row.exact}>{row.mean}</data>,
            },
            { key: "range", head: "Moving range", figures: true, cell: (row: Row) => row.range },
            { key: "standing", head: "", cell: (row: Row) => row.standing },
          ]}
          rows={rows}
          rowKey={({ number }) => number}
        />
      </details>
      <Computed study={study} bare={bare} figure={figure} setup={setup} />
    </>
  );
}

type Row = {
  number: number;
  lot: string;
  day: string;
  size: number;
  mean: string;
  exact: number;
  range: string;
  standing: string;
};

function spokenOf({ lot, day, size, mean, standing }: Row, unit: string): string {
  return `Lot ${lot}, ${day}: mean ${mean} ${unit} of ${size}${standing === "" ? "" : `, ${standing}`}`;
}

function Share({ words, share, sigma }: { words: string; share: number; sigma: string }) {
  return (
    <li>
      <span>{words}</span>
      <svg width="100%" height="14" aria-hidden="true" focusable="false">
        <rect className={styles.shareGround} width="100%" height="14" />
        <rect className={styles.share} width={`${Math.round(1e4 * share) / 100}%`} height="14" />
      </svg>
      <span className={styles.figure}>{percent(share)}</span>
      <span className={`${styles.figure} ${styles.sigma}`}>{sigma}</span>
    </li>
  );
}

/** Whether limits of lot means can be frozen as the feature is charted now, and how it comes to that. */
function HowToTake({ history, evaluation }: { history: FeatureHistory; evaluation: Evaluation }) {
  const { series, setup } = history;
  const asked = {
    plan: setup.plan,
    series,
    from: Number.NEGATIVE_INFINITY,
    to: Number.POSITIVE_INFINITY,
  };
  return estimatorsFor(evaluation, asked).includes("between-lots") ? (
    <p>
      Every subgroup here is a lot, so such limits can be frozen below: choose “lot means” as the way to
      estimate sigma.
    </p>
  ) : (
    <p>
      To judge by such limits, a subgroup has to be a lot: set the subgroup size in the control plan to the
      pieces of a lot, then freeze limits by “lot means”.
    </p>
  );
}

function Computed({
  study,
  bare,
  figure,
  setup,
}: {
  study: BetweenLots;
  bare: (value: number, extra?: number) => string;
  figure: (value: number, extra?: number) => string;
  setup: FeatureHistory["setup"];
}) {
  const { test, components, offered, lots } = study;
  return (
    <details className={styles.fold}>
      <summary>How is this computed</summary>
      <div className={styles.sheet}>
        <section>
          <h3>Do lots differ?</h3>
          <WorkingList
            lines={[
              [
                "Within lots",
                `σ̂ = √(Σ(n − 1)s² / Σ(n − 1)) = ${figure(components.within, 2)} with ${whole(test.denominator)} degrees of freedom`,
              ],
              [
                "Test",
                `F = mean square between / σ̂² = ${fixed(test.F, 2)} with ${whole(test.numerator)} and ${whole(test.denominator)} degrees of freedom, p ${test.p < 0.001 ? "below 0.001" : `= ${fixed(test.p, 3)}`}`,
              ],
              [
                "Between lots",
                `σ̂ = √((mean square between − σ̂²within)/n₀), 0 where that is negative = ${figure(components.between, 2)}`,
              ],
            ]}
          />
        </section>
        <section>
          <h3>Limits of lot means, from {counted(lots, "lot")}</h3>
          <WorkingList
            lines={[
              [
                "Sigma of lot means",
                `MR̄ / d₂(2) = ${bare((offered.sigma * 2) / Math.sqrt(Math.PI), 2)} / 1.1284 = ${figure(offered.sigma, 2)}`,
              ],
              [
                "Limits",
                `${bare(offered.centre)} ± 3·${bare(offered.sigma, 2)} = ${bare(offered.lower)} to ${figure(offered.upper)}`,
              ],
              [
                "Lots' own part",
                `√(${bare(offered.sigma, 2)}² − σ̂²within·mean of 1/n) = ${figure(offered.between, 2)}`,
              ],
            ]}
          />
          <p className={styles.soft}>
            W. H. Woodall and E. V. Thomas, IIE Transactions 27 (1995) 757-764; components: Searle, Casella
            and McCulloch, Variance Components (1992), chapter 3 (both from memory).
          </p>
        </section>
        <section>
          <h3>What it takes for granted</h3>
          <p>
            That lots follow each other at random: a drift from lot to lot makes neighbours alike, moving
            ranges small and these limits narrow. That lots are of about one size. That a lot-to-lot
            difference belongs to the process at all, which only the shop can know: one that can be removed is
            better removed.
            {setup.plan.counts ? " That counts are many enough to be nearly normal." : ""}
          </p>
        </section>
      </div>
    </details>
  );
}
