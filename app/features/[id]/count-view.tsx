import { use } from "react";
import type { FeatureHistory } from "../../../db/queries/history";
import { axisSpans } from "../../../lib/chart/axis-spans";
import { type CountPoint, countPoints } from "../../../lib/chart/count-points";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { Pattern } from "../../../lib/evaluation/patterns";
import { asEntered, fixed, whole } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import { countFigures, isPerUnit } from "../../../lib/plan/counts";
import type { CountPlan } from "../../../lib/plan/feature-plan";
import { LinkTabs } from "../../fittings/controls";
import { RulePhrase } from "../../fittings/rule-words";
import { type Column, Table } from "../../fittings/table";
import { words } from "../../language/language";
import type { CountLimitsKind } from "./chart-choice";
import { numberOf } from "./chart-view";
import { CountWorkingView } from "./count-working-view";
import { PlainChart } from "./later-chart";
import styles from "./panels.module.css";

const MOST_LISTED = 20;

/** Counts on a p, np, c or u chart: judged at 3 sigma, with exact probability limits to be looked at beside. */
export function CountView({
  history,
  evaluation,
  counts,
  patterns,
  window,
  kind,
  addressOf,
  zone,
}: {
  history: FeatureHistory;
  evaluation: Evaluation;
  counts: CountPlan;
  patterns: readonly Pattern[];
  window: ShownWindow;
  kind: CountLimitsKind;
  /** The page's address with the other limits. */
  addressOf: (kind: CountLimitsKind) => string;
  zone: string;
}) {
  const { points } = evaluation;
  const { otherCharts, charts, features, times } = use(words());
  const { counts: said } = otherCharts;
  const perUnit = isPerUnit(counts.chart);
  const shown = countPoints(evaluation, { series: history.series, counts, window, kind });
  const [least, most] = shown.reduce(
    ([low, high], { size }) => [Math.min(low, size), Math.max(high, size)],
    [Number.POSITIVE_INFINITY, 0],
  );
  const isVarying = counts.size === null || least < most;
  const { places } = countFigures(counts, most);
  const rows = shown.map((point): Row => {
    const { number, at, count, size, value, limits, excluded, beyond } = point;
    return {
      number: numberOf(number),
      when: shortMomentIn(at, zone, times),
      count: whole(count),
      size: asEntered(size),
      plotted: perUnit ? fixed(value, places) : "",
      limits: limits && {
        // Nothing lies below 0, so that a limit there is none.
        lower: limits.lower > 0 ? fixed(limits.lower, places) : "–",
        upper: fixed(limits.upper, places),
      },
      standing: excluded ? said.leftOut : beyond ? said.beyond : "",
    };
  });
  const [from, to] = [numberOf(window.from), numberOf(window.to)];
  const name = charts.counts[counts.chart];

  return (
    <>
      <LinkTabs
        label={said.drawn}
        links={[
          { href: addressOf("threeSigma"), label: said.threeSigma, isCurrent: kind === "threeSigma" },
          { href: addressOf("probability"), label: said.probability, isCurrent: kind === "probability" },
        ]}
      />
      <PlainChart
        label={said.onChart}
        words={{ ...otherCharts.plain, offAxis: features.chart.offAxis }}
        view={{
          name: name.charAt(0).toUpperCase() + name.slice(1),
          along: said.sample,
          places,
          axis: axisSpans(
            shown.map(({ value }) => value),
            { kept: [0, ...shown.flatMap(({ limits }) => limits?.upper ?? [])], margin: 0.06 },
          ),
          points: shown.map(({ value, excluded, beyond }, i) => ({
            number: rows[i]!.number,
            values: [excluded ? null : value],
            beyond: [beyond],
            spoken: said.spoken({
              ...rows[i]!,
              count: perUnit ? `${rows[i]!.plotted} (${rows[i]!.count})` : rows[i]!.count,
            }),
          })),
          limits: [
            { name: "upper", kind: "limit", values: valuesOf(shown, "upper") },
            { name: "centre", kind: "centre", values: valuesOf(shown, "centre") },
            {
              name: "lower",
              kind: "limit",
              values: valuesOf(shown, "lower").map((lower) => (lower === 0 ? null : lower)),
            },
          ],
          groups: [],
        }}
      />
      <section>
        <h3>{said.signals}</h3>
        {patterns.length === 0 ? <p>{otherCharts.noneIn.samples(points.count)}</p> : null}
        <ul className={`${styles.list} ${styles.signals}`}>
          {patterns
            .slice(-MOST_LISTED)
            .reverse()
            .map((pattern) => (
              <li key={`${pattern.rule} ${pattern.direction} ${pattern.firstAt}`}>
                <RulePhrase slug={pattern.rule} direction={pattern.direction} />,{" "}
                {said.numbers(numberOf(pattern.members[0] ?? 0), numberOf(pattern.members.at(-1) ?? 0))},{" "}
                {shortMomentIn(pattern.firstTime, zone, times)}
              </li>
            ))}
        </ul>
      </section>
      <details className={styles.fold}>
        <summary>{said.summary(from, to)}</summary>
        <Table
          caption={isVarying ? said.captionVarying(from, to) : said.caption(asEntered(most), from, to)}
          columns={[
            { key: "number", head: said.sample, figures: true, cell: (row: Row) => row.number },
            { key: "when", head: said.heads.when, tight: true, cell: (row: Row) => row.when },
            { key: "count", head: said.heads.count, figures: true, cell: (row: Row) => row.count },
            ...(isVarying ? [figures("size", said.heads.inspected, (row) => row.size)] : []),
            ...(perUnit ? [figures("plotted", said.heads.plotted, (row) => row.plotted)] : []),
            ...(isVarying
              ? [
                  figures("lower", said.heads.lower, (row) => row.limits?.lower ?? ""),
                  figures("upper", said.heads.upper, (row) => row.limits?.upper ?? ""),
                ]
              : []),
            { key: "standing", head: said.heads.judged, cell: (row: Row) => row.standing },
          ]}
          rows={rows}
          rowKey={({ number }) => number}
        />
      </details>
      <CountWorkingView history={history} evaluation={evaluation} counts={counts} />
    </>
  );
}

type Row = {
  number: number;
  when: string;
  count: string;
  size: string;
  plotted: string;
  limits: { lower: string; upper: string } | null;
  standing: string;
};

function figures(key: string, head: string, cell: (row: Row) => string): Column<Row> {
  return { key, head, figures: true, cell };
}

function valuesOf(points: readonly CountPoint[], line: "lower" | "centre" | "upper"): (number | null)[] {
  return points.map(({ limits }) => limits?.[line] ?? null);
}
