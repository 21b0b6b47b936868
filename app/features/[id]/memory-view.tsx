import type { FeatureHistory } from "../../../db/queries/history";
import { spanOf } from "../../../lib/chart/scale";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import { onZ } from "../../../lib/charts/memory-chart";
import { memoryHistory } from "../../../lib/charts/memory-history";
import { chartAssumptions } from "../../../lib/evaluation/assumptions";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { counted, unitSign } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import type { MemoryChart } from "../../../lib/plan/feature-plan";
import { memoryChartWords } from "../../../lib/plan/memory-chart";
import { memoryRunLengthWords } from "../../../lib/run-length/memory-chart";
import { Note } from "../../fittings/note";
import { Table } from "../../fittings/table";
import { numberOf } from "./chart-view";
import { PlainChart } from "./later-chart";
import { memoryFigures } from "./memory-figures";
import { memorySignals } from "./memory-signals";
import { memoryWorking } from "./memory-working";
import styles from "./panels.module.css";
import { ParameterForm } from "./parameter-form";
import type { PlainPoint } from "./plain-chart";
import { AssumptionList, WorkingList } from "./working-list";

const MOST_LISTED = 10;

/** The feature's points on a chart with a memory: EWMA or two-sided cumulative sum. */
export function MemoryView({
  history,
  evaluation,
  chart,
  window,
  zone,
  hidden,
}: {
  history: FeatureHistory;
  evaluation: Evaluation;
  chart: MemoryChart;
  window: ShownWindow;
  zone: string;
  /** The address's other query, to be kept by the form of parameters. */
  hidden: Readonly<Record<string, string>>;
}) {
  const { points, versions } = evaluation;
  const all = memoryHistory(evaluation, chart);
  const latest = all.findLastIndex((point) => point !== null);
  if (latest < 0) {
    return <Note kind="not-yet">No limits to reckon from yet. They come with further subgroups.</Note>;
  }
  const { setup, feature } = history;
  const isZ = versions.some(onZ);
  const unit = chart.kind === "cusum" || isZ ? "sigma of the point" : unitSign(feature.unit);
  const figures = memoryFigures(feature, { isZ: chart.kind === "cusum" || isZ });
  const day = (number: number) => shortMomentIn(points.at[number]!, zone);
  const shown = all.slice(window.from, window.to + 1).map((point, i): PlainPoint & { row: Row } => {
    const number = window.from + i;
    const row = rowOf(number, {
      point,
      figures,
      when: day(number),
      isLeftOut: points.excluded[number] === 1,
    });
    return {
      number: numberOf(number),
      values: point === null ? lineless(chart) : valuesOf(point),
      beyond:
        chart.kind === "ewma" ? [point?.signal != null] : [point?.signal === "up", point?.signal === "down"],
      spoken: `Subgroup ${row.number}, ${row.when}: ${row.value}${row.limits === "" ? "" : `, limits ${row.limits}`}${row.signal === "" ? "" : `, ${row.signal}`}`,
      row,
    };
  });
  const limits = all.slice(window.from, window.to + 1).map((point) => limitsOf(point, chart));
  const centres = points.limits.subarray(window.from, window.to + 1).reduce<(number | null)[]>((list, at) => {
    const version = versions[at];
    list.push(version && version.sigma > 0 ? (chart.kind === "cusum" || isZ ? 0 : version.centre) : null);
    return list;
  }, []);
  const signals = memorySignals(evaluation, {
    all,
    chart,
    inUnit: memoryFigures(feature, { isZ: false }).withUnit,
    day,
  });
  const isPlanned = JSON.stringify(setup.plan.alsoWatch ?? null) === JSON.stringify(chart);
  const name = chart.kind === "ewma" ? "Weighted average" : "Cumulative sums, upper and lower";

  return (
    <>
      <ParameterForm chart={chart} hidden={hidden} />
      <p>
        {memoryRunLengthWords(chart)}{" "}
        {isPlanned
          ? "The control plan lets this chart watch: its signals raise alarms."
          : "A look only: it raises no alarm. An engineer can let it watch in the control plan."}
      </p>
      <PlainChart
        label={`${name} on the chart`}
        view={{
          name: unit === "" ? name : `${name}, ${unit}`,
          along: "Subgroup",
          places: figures.places,
          domain: spanOf(
            [...shown.flatMap(({ values }) => values), ...limits.flat()].filter((value) => value !== null),
            { margin: 0.08 },
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
        <h3>Signals in the whole history</h3>
        {signals.length === 0 ? (
          <p>None in {counted(points.count, "subgroup")}.</p>
        ) : (
          <ul className={styles.list}>
            {signals.slice(0, MOST_LISTED).map((words) => (
              <li key={words}>{words}</li>
            ))}
            {signals.length > MOST_LISTED ? <li>And {signals.length - MOST_LISTED} earlier ones.</li> : null}
          </ul>
        )}
      </section>
      <details className={styles.fold}>
        <summary>
          The points as a table: subgroups {numberOf(window.from)} to {numberOf(window.to)}
        </summary>
        <Table
          caption={`${name}, subgroups ${numberOf(window.from)} to ${numberOf(window.to)}${unit === "" ? "" : `, in ${unit}`}`}
          columns={[
            { key: "number", head: "Subgroup", figures: true, cell: (row: Row) => row.number },
            { key: "when", head: "Last reading", tight: true, cell: (row: Row) => row.when },
            { key: "value", head: name, figures: true, cell: (row: Row) => row.value },
            { key: "limits", head: "Limits", figures: true, cell: (row: Row) => row.limits },
            { key: "signal", head: "Signal", cell: (row: Row) => row.signal },
          ]}
          rows={shown.map(({ row }) => row)}
          rowKey={({ number }) => number}
        />
      </details>
      <details className={styles.fold}>
        <summary>How is this computed: {memoryChartWords(chart)}</summary>
        <div className={styles.sheet}>
          <section>
            <h3>The latest point, subgroup {numberOf(latest)}</h3>
            <WorkingList lines={memoryWorking(evaluation, { all, chart, latest, figures })} />
            <p className={styles.soft}>
              {chart.kind === "ewma"
                ? "ISO 7870-6; S. W. Roberts, Technometrics 1 (1959) 239-250 (both from memory). Limits of each point's own variance. Run length by an integral equation: S. V. Crowder, Technometrics 29 (1987) 401-407 (from memory)."
                : "ISO 7870-4; E. S. Page, Biometrika 41 (1954) 100-115; head start: J. M. Lucas and R. B. Crosier, Technometrics 24 (1982) 199-205 (all from memory). A sum that signals goes on from h, so that it comes back when the process does."}{" "}
              It begins anew with every version of the limits, and passes over what is left out.
            </p>
          </section>
          <AssumptionList assumptions={chartAssumptions(evaluation, setup)} />
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
  }: { point: Point | null; figures: ReturnType<typeof memoryFigures>; when: string; isLeftOut: boolean },
): Row {
  const base = { number: numberOf(number), when, limits: "", signal: "" };
  if (point === null) return { ...base, value: isLeftOut ? "left out" : "not judged" };
  const signal = point.signal === null ? "" : `beyond its limit ${point.signal === "up" ? "above" : "below"}`;
  if (point.kind === "ewma") {
    const { smoothed, lower, upper } = point;
    return {
      ...base,
      signal,
      value: figures.bare(smoothed),
      limits: `${figures.bare(lower)} to ${figures.bare(upper)}`,
    };
  }
  return { ...base, signal, value: `${figures.bare(point.upper)} above, ${figures.bare(point.lower)} below` };
}
