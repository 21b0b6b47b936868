import { use } from "react";
import { axisSpans } from "../../../lib/chart/axis-spans";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import { onZ } from "../../../lib/charts/memory-chart";
import { memoryHistory } from "../../../lib/charts/memory-history";
import { chartAssumptions } from "../../../lib/evaluation/assumptions";
import { unitName, unitSign } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import type { MemoryChart } from "../../../lib/plan/feature-plan";
import { memoryChartWords } from "../../../lib/plan/memory-chart";
import { memoryRunLengthWords } from "../../../lib/run-length/memory-chart";
import type { Words } from "../../../lib/words/words";
import { Note } from "../../fittings/note";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import { numberOf } from "./chart-view";
import { type JudgedFeature, onceJudged } from "./judged-feature";
import { PlainChart } from "./later-chart";
import { memoryFigures } from "./memory-figures";
import { memoryStretches, stretchWords } from "./memory-signals";
import { memoryWorking } from "./memory-working";
import styles from "./panels.module.css";
import { ParameterForm } from "./parameter-form";
import type { PlainPoint } from "./plain-chart";
import { AssumptionList, WorkingList } from "./working-list";

const MOST_LISTED = 10;

type Remembered = { all: ReturnType<typeof memoryHistory>; stretches: ReturnType<typeof memoryStretches> };

/** By the chart and its parameters: the one looked at last, for who moves on over its history asks for the same again. */
const latestOf = onceJudged(() => ({ key: "", found: null as Remembered | null }));

function remembered(judged: JudgedFeature, chart: MemoryChart): Remembered {
  const latest = latestOf(judged);
  const key = JSON.stringify(chart);
  if (latest.key === key && latest.found) return latest.found;
  const all = memoryHistory(judged.evaluation, chart);
  const found = { all, stretches: memoryStretches(all) };
  latest.key = key;
  latest.found = found;
  return found;
}

/** The feature's points on a chart with a memory: EWMA or two-sided cumulative sum. */
export function MemoryView({
  judged,
  chart,
  window,
  zone,
  hidden,
}: {
  judged: JudgedFeature;
  chart: MemoryChart;
  window: ShownWindow;
  zone: string;
  /** The address's other query, to be kept by the form of parameters. */
  hidden: Readonly<Record<string, string>>;
}) {
  const { history, evaluation } = judged;
  const { points, versions } = evaluation;
  const every = use(words());
  const { otherCharts, times } = every;
  const { memory: said } = otherCharts;
  const { all, stretches } = remembered(judged, chart);
  const latest = all.findLastIndex((point) => point !== null);
  if (latest < 0) {
    return <Note kind="not-yet">{said.notYet}</Note>;
  }
  const { setup, feature } = history;
  const isZ = versions.some(onZ);
  const unit = chart.kind === "cusum" || isZ ? said.sigmaOfPoint : unitSign(feature.unit);
  const figures = memoryFigures(feature, { isZ: chart.kind === "cusum" || isZ });
  const day = (number: number) => shortMomentIn(points.at[number]!, zone, times);
  const shown = all.slice(window.from, window.to + 1).map((point, i): PlainPoint & { row: Row } => {
    const number = window.from + i;
    const row = rowOf(number, {
      point,
      figures,
      when: day(number),
      isLeftOut: points.excluded[number] === 1,
      said,
    });
    return {
      number: numberOf(number),
      values: point === null ? lineless(chart) : valuesOf(point),
      beyond:
        chart.kind === "ewma" ? [point?.signal != null] : [point?.signal === "up", point?.signal === "down"],
      spoken: said.spoken(row),
      row,
    };
  });
  const limits = all.slice(window.from, window.to + 1).map((point) => limitsOf(point, chart));
  const centres = points.limits.subarray(window.from, window.to + 1).reduce<(number | null)[]>((list, at) => {
    const version = versions[at];
    list.push(version && version.sigma > 0 ? (chart.kind === "cusum" || isZ ? 0 : version.centre) : null);
    return list;
  }, []);
  const inUnit = memoryFigures(feature, { isZ: false }).withUnit;
  const signals = stretches
    .slice(0, MOST_LISTED)
    .map((stretch) => stretchWords(stretch, { evaluation, chart, inUnit, day, words: every }));
  const isPlanned = JSON.stringify(setup.plan.alsoWatch ?? null) === JSON.stringify(chart);
  const name = said.names[chart.kind];
  const [from, to] = [numberOf(window.from), numberOf(window.to)];

  return (
    <>
      <ParameterForm chart={chart} hidden={hidden} />
      <p>
        {memoryRunLengthWords(chart, every.working.runLength)} {isPlanned ? said.planned : said.look}
      </p>
      <PlainChart
        label={said.onChart(name)}
        words={{ ...otherCharts.plain, offAxis: every.features.chart.offAxis }}
        view={{
          name: said.inUnit(name, unit),
          along: said.heads.number,
          places: figures.places,
          axis: axisSpans(
            shown.flatMap(({ values }) => values).filter((value) => value !== null),
            { kept: limits.flat().filter((limit) => limit !== null), margin: 0.08 },
          ),
          points: shown.map(({ row: _row, ...point }) => point),
          limits: [
            { name: "upper", kind: "limit", values: limits.map(([, upper]) => upper) },
            { name: "centre", kind: "centre", values: centres },
            { name: "lower", kind: "limit", values: limits.map(([lower]) => lower) },
          ],
          groups: [],
        }}
      />
      <section>
        <h3>{said.wholeHistory}</h3>
        {signals.length === 0 ? (
          <p>{otherCharts.noneIn.subgroups(points.count)}</p>
        ) : (
          <ul className={styles.list}>
            {signals.map((signal) => (
              <li key={signal}>{signal}</li>
            ))}
            {stretches.length > MOST_LISTED ? (
              <li>{otherCharts.earlier(stretches.length - MOST_LISTED)}</li>
            ) : null}
          </ul>
        )}
      </section>
      <details className={styles.fold}>
        <summary>{said.summary(from, to)}</summary>
        <Table
          caption={said.caption(
            name,
            from,
            to,
            chart.kind === "cusum" || isZ ? unit : unitName(feature.unit, every.figures),
          )}
          columns={[
            { key: "number", head: said.heads.number, figures: true, cell: (row: Row) => row.number },
            { key: "when", head: said.heads.when, tight: true, cell: (row: Row) => row.when },
            { key: "value", head: name, figures: true, cell: (row: Row) => row.value },
            { key: "limits", head: said.heads.limits, figures: true, cell: (row: Row) => row.limits },
            { key: "signal", head: said.heads.signal, cell: (row: Row) => row.signal },
          ]}
          rows={shown.map(({ row }) => row)}
          rowKey={({ number }) => number}
        />
      </details>
      <details className={styles.fold}>
        <summary>{said.computed(memoryChartWords(chart, every.charts))}</summary>
        <div className={styles.sheet}>
          <section>
            <h3>{said.latest(numberOf(latest))}</h3>
            <WorkingList
              lines={memoryWorking(evaluation, { all, chart, latest, figures, said: said.working })}
            />
            <p className={styles.soft}>
              {said.sources[chart.kind]} {said.anew}
            </p>
          </section>
          <AssumptionList assumptions={chartAssumptions(evaluation, setup, every.assumptions)} />
        </div>
      </details>
    </>
  );
}

type Row = { number: number; when: string; value: string; limits: string; signal: string };
type Point = NonNullable<ReturnType<typeof memoryHistory>[number]>;

function valuesOf(point: Point): (number | null)[] {
  return point.kind === "ewma" ? [point.smoothed] : [point.upper, -point.lower];
}

function lineless({ kind }: MemoryChart): null[] {
  return kind === "ewma" ? [null] : [null, null];
}

function limitsOf(point: Point | null, chart: MemoryChart): [number | null, number | null] {
  if (chart.kind === "cusum") return [-chart.decisionInterval, chart.decisionInterval];
  return point?.kind === "ewma" ? [point.lower, point.upper] : [null, null];
}

function rowOf(
  number: number,
  {
    point,
    figures,
    when,
    isLeftOut,
    said,
  }: {
    point: Point | null;
    figures: ReturnType<typeof memoryFigures>;
    when: string;
    isLeftOut: boolean;
    said: Words["otherCharts"]["memory"];
  },
): Row {
  const base = { number: numberOf(number), when, limits: "", signal: "" };
  if (point === null) return { ...base, value: isLeftOut ? said.leftOut : said.notJudged };
  const signal = point.signal === null ? "" : said.beyond[point.signal];
  if (point.kind === "ewma") {
    const { smoothed, lower, upper } = point;
    return {
      ...base,
      signal,
      value: figures.bare(smoothed),
      limits: said.fromTo(figures.bare(lower), figures.bare(upper)),
    };
  }
  return { ...base, signal, value: said.bothSums(figures.bare(point.upper), figures.bare(point.lower)) };
}
