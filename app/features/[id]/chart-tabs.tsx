import { CHART_SHORT } from "../../../lib/format/names";
import type { FeaturePlan } from "../../../lib/plan/feature-plan";
import { LinkTabs } from "../../fittings/controls";
import { CHART_VIEWS, type ChartViewName } from "./chart-choice";

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
  const own = counts ? `Counts (${counts.chart})` : CHART_SHORT[plan.chart];
  const words: Record<ChartViewName, string> = {
    own: `${own.charAt(0).toUpperCase()}${own.slice(1)}: judged`,
    ewma: `Weighted average (EWMA)${alsoWatch?.kind === "ewma" ? ": judged" : ""}`,
    cusum: `Cumulative sums (CUSUM)${alsoWatch?.kind === "cusum" ? ": judged" : ""}`,
    "short-run": "Short runs",
    lots: "Lot means",
  };
  // Deviations from nominal and lot means are of measured values.
  const offered = counts ? CHART_VIEWS.filter((one) => one !== "short-run" && one !== "lots") : CHART_VIEWS;
  return (
    <LinkTabs
      label="Charts of these points"
      links={offered.map((one) => ({
        href: addressOf({ chart: one === "own" ? "" : one }),
        label: words[one],
        isCurrent: view === one,
      }))}
    />
  );
}
