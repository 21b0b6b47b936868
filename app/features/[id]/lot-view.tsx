import { use } from "react";
import type { Database } from "../../../db/connection";
import { type FeatureHistory, namesOf } from "../../../db/queries/history";
import { axisSpans } from "../../../lib/chart/axis-spans";
import { MOST_SHOWN } from "../../../lib/chart/shown-window";
import { lotMeans, lotsOf } from "../../../lib/charts/lot-means";
import { estimatorsFor } from "../../../lib/evaluation/estimator-choice";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { pOfTest } from "../../../lib/format/chance";
import {
  fixed,
  measured,
  percent,
  placesOf,
  unitName,
  unitSign,
  withUnit,
} from "../../../lib/format/numbers";
import { dayIn } from "../../../lib/format/times";
import type { BetweenLots } from "../../../lib/limits/between-lot";
import { TIE } from "../../../lib/rules/judge";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { rulesRunLengths } from "../../../lib/run-length/rules-run-length";
import type { Words } from "../../../lib/words/words";
import { Note } from "../../fittings/note";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
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
  const { otherCharts, assumptions, features, times, figures } = await words();
  const { lots: said } = otherCharts;
  const lots = lotsOf(evaluation, series);
  if (lots.length === 0) {
    return (
      <Note kind="empty" title={said.none}>
        {said.noneWhy}
      </Note>
    );
  }
  const found = lotMeans(lots, { ...assumptions, found: said.found });
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
      lot: names.get(lot.id) ?? said.unnamed(lot.id),
      day: dayIn(lot.lastAt, zone, times),
      size: lot.size,
      mean: bare(lot.mean),
      exact: lot.mean,
      range: from + i === 0 ? "–" : bare(Math.abs(lot.mean - lots[from + i - 1]!.mean)),
      standing: isBeyond(lot.mean)
        ? said.beyondLimits
        : Math.abs(lot.mean - offered.centre) > reachWithin(lot.size)
          ? said.beyondWithin
          : "",
    }),
  );
  const flat = (value: number) => shown.map(() => value);
  const edge = (sign: 1 | -1) => shown.map(({ size }) => offered.centre + sign * reachWithin(size));
  const signalling = rows.filter(({ standing }) => standing === said.beyondLimits);
  const unit = unitSign(feature.unit);
  const [inControl] = rulesRunLengths({
    rules: [ruleBySlug("beyond-3s")],
    shifts: [0],
    simulation: PAGE_SIMULATION,
  });

  return (
    <>
      <Note kind="remark" title={study.verdict === "swamped" ? said.differ : undefined}>
        <p>{study.sentence}</p>
        {study.verdict === "swamped" ? (
          <HowToTake history={history} evaluation={evaluation} said={said} />
        ) : null}
      </Note>
      <ul className={styles.shares}>
        <Share words={said.between} share={study.share} sigma={figure(components.between, 2)} />
        <Share words={said.within} share={1 - study.share} sigma={figure(components.within, 2)} />
      </ul>
      <PlainChart
        label={said.onChart}
        words={{ ...otherCharts.plain, offAxis: features.chart.offAxis }}
        view={{
          name: said.mean(unit),
          along: said.along,
          places: placesOf(feature.resolution) + 1,
          axis: axisSpans(
            shown.map(({ mean }) => mean),
            { kept: [offered.lower, offered.upper], margin: 0.08 },
          ),
          points: shown.map(({ mean }, i) => ({
            number: from + i + 1,
            values: [mean],
            beyond: [isBeyond(mean)],
            spoken: said.spoken({ ...rows[i]!, mean: `${rows[i]!.mean} ${unit}` }),
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
      <p className={styles.soft}>{said.lines(fixed(inControl?.mean ?? 0, 0))}</p>
      <section>
        <h3>{otherCharts.signals}</h3>
        {signalling.length === 0 ? <p>{said.noneBeyond}</p> : null}
        <ul className={styles.list}>
          {signalling.map(({ number, lot, day, mean }) => (
            <li key={number}>{said.signal(lot, day, `${mean} ${unit}`)}</li>
          ))}
        </ul>
      </section>
      <details className={styles.fold}>
        <summary>{said.summary}</summary>
        <Table
          caption={said.caption(shown.length, unitName(feature.unit, figures))}
          columns={[
            { key: "number", head: said.heads.number, figures: true, cell: (row: Row) => row.number },
            { key: "lot", head: said.heads.lot, names: true, tight: true, cell: (row: Row) => row.lot },
            { key: "day", head: said.heads.day, tight: true, cell: (row: Row) => row.day },
            { key: "size", head: "n", figures: true, cell: (row: Row) => row.size },
            {
              key: "mean",
              head: said.heads.mean,
              figures: true,
              cell: (row: Row) => <data value={row.exact}>{row.mean}</data>,
            },
            { key: "range", head: said.heads.range, figures: true, cell: (row: Row) => row.range },
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

function Share({ words: name, share, sigma }: { words: string; share: number; sigma: string }) {
  return (
    <li>
      <span>{name}</span>
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
function HowToTake({
  history,
  evaluation,
  said,
}: {
  history: FeatureHistory;
  evaluation: Evaluation;
  said: Words["otherCharts"]["lots"];
}) {
  const { series, setup } = history;
  const asked = {
    plan: setup.plan,
    series,
    from: Number.NEGATIVE_INFINITY,
    to: Number.POSITIVE_INFINITY,
  };
  return estimatorsFor(evaluation, asked).includes("between-lots") ? (
    <p>{said.canFreeze}</p>
  ) : (
    <p>{said.howToFreeze}</p>
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
  const { otherCharts, assumptions, working } = use(words());
  const { lots: said } = otherCharts;
  return (
    <details className={styles.fold}>
      <summary>{said.computed}</summary>
      <div className={styles.sheet}>
        <section>
          <h3>{said.doDiffer}</h3>
          <WorkingList
            lines={[
              [said.withinTerm, said.withinIs(figure(components.within, 2), test.denominator)],
              [
                said.test,
                said.testIs({
                  F: fixed(test.F, 2),
                  between: test.numerator,
                  within: test.denominator,
                  p: pOfTest(test.p, assumptions),
                }),
              ],
              [said.betweenTerm, said.betweenIs(figure(components.between, 2))],
            ]}
          />
        </section>
        <section>
          <h3>{said.limitsFrom(lots)}</h3>
          <WorkingList
            lines={[
              [
                said.sigma,
                `MR̄ / d₂(2) = ${bare((offered.sigma * 2) / Math.sqrt(Math.PI), 2)} / ${fixed(2 / Math.sqrt(Math.PI), 4)} = ${figure(offered.sigma, 2)}`,
              ],
              [
                said.limits,
                `${bare(offered.centre)} ± 3·${bare(offered.sigma, 2)} = ${working.fromTo(bare(offered.lower), figure(offered.upper))}`,
              ],
              [said.own, said.ownIs(bare(offered.sigma, 2), figure(offered.between, 2))],
            ]}
          />
          <p className={styles.soft}>{said.source}</p>
        </section>
        <section>
          <h3>{assumptions.title}</h3>
          <p>
            {said.assumes}
            {setup.plan.counts ? said.manyCounts : ""}
          </p>
        </section>
      </div>
    </details>
  );
}
