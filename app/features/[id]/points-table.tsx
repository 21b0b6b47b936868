"use client";

import { useState } from "react";
import { MIXED } from "../../../lib/chart/ribbons";
import { excursionWords } from "../../../lib/evaluation/excursion-words";
import { Num } from "../../fittings/num";
import { type Column, Table } from "../../fittings/table";
import { type ChartView, LOCATION_NAMES, numberOf, SPREAD_NAMES } from "./chart-view";
import styles from "./panels.module.css";

type Point = ChartView["points"][number];

/** The shown points as figures, for who reads them out, compares them or copies them. */
export function PointsTable({ view }: { view: ChartView }) {
  // Some thousand cells wait until somebody wants them.
  const [isOpen, setOpen] = useState(false);
  if (view.points.length === 0) return null;
  const { from, to } = view.window;
  const which = `subgroups ${numberOf(from)} to ${numberOf(to)}`;
  return (
    <details className={styles.fold} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>The points as a table: {which}</summary>
      {isOpen ? (
        <Table
          caption={`Points of the chart, ${which}${view.unit ? `, in ${view.unit}` : ""}`}
          columns={columnsFor(view)}
          rows={view.points}
          rowKey={({ number }) => number}
        />
      ) : null}
    </details>
  );
}

function columnsFor(view: ChartView): Column<Point>[] {
  const { chart, places } = view;
  const figure = (value: number | null, extra: number, signed = false) => (
    <Num value={value} places={places + extra} signed={signed} absent="none" />
  );
  const z = (value: number | null) => <Num value={value} places={2} signed absent="none" />;
  const columns: (Column<Point> | null)[] = [
    { key: "number", head: "Subgroup", figures: true, cell: ({ number }) => numberOf(number) },
    {
      key: "when",
      head: "Last reading",
      tight: true,
      cell: ({ at, when }) => <time dateTime={new Date(at).toISOString()}>{when}</time>,
    },
    { key: "lot", head: "Lot", tight: true, cell: (point) => lotOf(view, point) },
    chart === "i-mr" ? null : { key: "n", head: "n", figures: true, cell: ({ size }) => size },
    {
      key: "mean",
      head: LOCATION_NAMES[chart],
      figures: true,
      cell: ({ mean }) => figure(mean, chart === "i-mr" && !view.isReduced ? 0 : 1),
    },
    { key: "z", head: "z", figures: true, cell: (point) => z(point.z) },
    {
      key: "spread",
      head: SPREAD_NAMES[chart],
      figures: true,
      cell: ({ spread }) => figure(spread, chart === "xbar-s" || view.isReduced ? 1 : 0),
    },
    { key: "spread-z", head: "its z", figures: true, cell: (point) => z(point.spreadZ) },
    { key: "signals", head: "Signals", cell: (point) => signalsOf(view, point) },
    { key: "left-out", head: "Left out", cell: ({ excluded, cause }) => (excluded ? (cause ?? "yes") : "") },
  ];
  return columns.filter((column) => column !== null);
}

function lotOf({ names }: ChartView, { sources }: Point): string {
  if (sources.lot === 0) return "–";
  return sources.lot === MIXED ? "several" : (names.lot[sources.lot] ?? "–");
}

/** The patterns it belongs to; the rule set may not name single points beyond a limit, the chart does. */
function signalsOf({ patterns, chart }: ChartView, { number, beyond, spreadBeyond }: Point): string {
  const own = patterns.filter(({ members }) => members.includes(number));
  if (own.length > 0) return excursionWords(own, chart);
  if (beyond) return "Beyond a limit";
  return spreadBeyond ? `${SPREAD_NAMES[chart]} beyond a limit` : "";
}
