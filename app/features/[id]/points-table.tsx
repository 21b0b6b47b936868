"use client";

import { useState } from "react";
import { useCommonWords } from "#common-words";
import type { ChartView } from "../../../lib/chart/chart-view";
import { MIXED } from "../../../lib/chart/ribbons";
import { excursionWords } from "../../../lib/evaluation/excursion-words";
import { unitName } from "../../../lib/format/numbers";
import { shortMomentIn, type TimeWords } from "../../../lib/format/times";
import type { RuleWords } from "../../../lib/rules/rule";
import { fill } from "../../../lib/words/fill";
import { Num } from "../../fittings/num";
import { type Column, Table } from "../../fittings/table";
import { type ChartWords, extraPlaces, numberOf } from "./chart-view";
import styles from "./panels.module.css";
import { useChartView } from "./shown-history";

type Point = ChartView["points"][number];

/** The shown points as figures, for who reads them out, compares them or copies them. */
export function PointsTable({ words }: { words: ChartWords }) {
  const view = useChartView();
  const { rules, figures, times } = useCommonWords();
  const { table: said } = words;
  // Some thousand cells wait until somebody wants them.
  const [isOpen, setOpen] = useState(false);
  if (!view || view.points.length === 0) return null;
  const { from, to } = view.window;
  const which = fill(said.which, { from: numberOf(from), to: numberOf(to) });
  return (
    <details className={styles.fold} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{fill(said.summary, { which })}</summary>
      {isOpen ? (
        <Table
          caption={fill(view.unit ? said.captionIn : said.caption, {
            which,
            unit: unitName(view.unit, figures),
          })}
          columns={columnsFor(view, { words, rules, times })}
          rows={view.points}
          rowKey={({ number }) => number}
        />
      ) : null}
    </details>
  );
}

function columnsFor(
  view: ChartView,
  { words, rules, times }: { words: ChartWords; rules: RuleWords; times: TimeWords },
): Column<Point>[] {
  const { chart, places } = view;
  const extra = extraPlaces(view);
  const { table: said } = words;
  const figure = (value: number | null, more: number) => (
    <Num value={value} places={places + more} absent={said.none} />
  );
  const z = (value: number | null) => <Num value={value} places={2} signed absent={said.none} />;
  const columns: (Column<Point> | null)[] = [
    { key: "number", head: words.subgroup, figures: true, cell: ({ number }) => numberOf(number) },
    {
      key: "when",
      head: said.lastReading,
      tight: true,
      cell: ({ at }) => (
        <time dateTime={new Date(at).toISOString()}>{shortMomentIn(at, view.zone, times)}</time>
      ),
    },
    { key: "lot", head: said.lot, tight: true, cell: (point) => lotOf(view, point, words) },
    chart === "i-mr" ? null : { key: "n", head: "n", figures: true, cell: ({ size }) => size },
    {
      key: "mean",
      head: words.location[chart],
      figures: true,
      cell: ({ mean }) => figure(mean, extra.location),
    },
    { key: "z", head: "z", figures: true, cell: (point) => z(point.z) },
    {
      key: "spread",
      head: words.spread[chart],
      figures: true,
      cell: ({ spread }) => figure(spread, extra.spread),
    },
    { key: "spread-z", head: said.ofSpread, figures: true, cell: (point) => z(point.spreadZ) },
    { key: "signals", head: said.signals, cell: (point) => signalsOf(view, point, words, rules) },
    {
      key: "left-out",
      head: said.leftOut,
      cell: ({ excluded, cause }) => (excluded ? (cause ?? said.yes) : ""),
    },
  ];
  return columns.filter((column) => column !== null);
}

function lotOf({ names }: ChartView, { sources }: Point, { several }: ChartWords): string {
  if (sources.lot === 0) return "–";
  return sources.lot === MIXED ? several : (names.lot[sources.lot] ?? "–");
}

/** The patterns it belongs to; the rule set may not name single points beyond a limit, the chart does. */
function signalsOf(
  { patterns, chart }: ChartView,
  { number, beyond, spreadBeyond }: Point,
  { table: said, spread }: ChartWords,
  rules: RuleWords,
): string {
  const own = patterns.filter(({ members }) => members.includes(number));
  if (own.length > 0) return excursionWords(own, chart, rules);
  if (beyond) return said.beyond;
  return spreadBeyond ? fill(said.spreadBeyond, { name: spread[chart] }) : "";
}
