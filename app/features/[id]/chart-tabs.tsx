import { use } from "react";
import type { FeaturePlan } from "../../../lib/plan/feature-plan";
import { words } from "../../language/language";
import { CHART_VIEWS, type ChartViewName } from "./chart-choice";
import { WindowTabs } from "./window-tabs";

/** Ways to look at the same points. Only the feature's own chart and what the plan lets watch are judged. */
export function ChartTabs({
  plan,
  view,
  addressOf,
}: {
  plan: FeaturePlan;
  /** Null on another page than the chart's own. */
  view: ChartViewName | null;
  addressOf: (changes: Record<string, string>) => string;
}) {
  const { alsoWatch, counts } = plan;
  const { features, charts } = use(words());
  const { tabs: said } = features;
  const own = counts ? said.counts(counts.chart) : charts.short[plan.chart];
  const memory = (kind: "ewma" | "cusum") =>
    alsoWatch?.kind === kind ? said.judged(said[kind]) : said[kind];
  const names: Record<ChartViewName, string> = {
    own: said.judged(`${own.charAt(0).toUpperCase()}${own.slice(1)}`),
    ewma: memory("ewma"),
    cusum: memory("cusum"),
    "short-run": said.shortRun,
    lots: said.lots,
  };
  // Deviations from nominal and lot means are of measured values.
  const offered = counts ? CHART_VIEWS.filter((one) => one !== "short-run" && one !== "lots") : CHART_VIEWS;
  return (
    <WindowTabs
      label={said.label}
      links={offered.map((one) => ({
        href: addressOf({ chart: one === "own" ? "" : one }),
        label: names[one],
        isCurrent: view === one,
      }))}
    />
  );
}
