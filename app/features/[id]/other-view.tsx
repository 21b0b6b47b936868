import { use } from "react";
import type { Database } from "../../../db/connection";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import { asEntered } from "../../../lib/format/numbers";
import { isOfPieces, usualSample } from "../../../lib/plan/counts";
import type { CountPlan } from "../../../lib/plan/feature-plan";
import { words } from "../../language/language";
import type { ChartChoice } from "./chart-choice";
import { CountView } from "./count-view";
import type { JudgedFeature } from "./judged-feature";
import { LotView } from "./lot-view";
import { MemoryView } from "./memory-view";
import styles from "./panels.module.css";
import { ShortRunView } from "./short-run-view";

/** The feature's points on the chart that the address asks for, other than that of means or readings. */
export function OtherView({
  database,
  judged,
  choice,
  window,
  zone,
  asked,
  addressOf,
}: {
  database: Database;
  judged: JudgedFeature;
  choice: ChartChoice;
  window: ShownWindow;
  zone: string;
  asked: Readonly<Record<string, string | string[] | undefined>>;
  addressOf: (changes: Record<string, string>) => string;
}) {
  const { history, evaluation, patterns } = judged;
  const { counts } = history.setup.plan;
  const { view } = choice;
  if (view === "ewma" || view === "cusum") {
    const hidden = { ...keptOf(asked), chart: view };
    const chart = choice[view];
    return (
      <>
        {counts && history.series.inspected !== null ? <OnUsualSample counts={counts} /> : null}
        <MemoryView {...{ judged, chart, window, zone, hidden }} />
      </>
    );
  }
  if (counts) {
    return (
      <CountView
        {...{ history, evaluation, counts, patterns, window, zone }}
        kind={choice.countLimits}
        addressOf={(kind) => addressOf({ limits: kind === "threeSigma" ? "" : kind })}
      />
    );
  }
  if (view === "lots") return <LotView {...{ database, history, evaluation, zone }} />;
  return (
    <ShortRunView
      {...{ database, history, evaluation, zone }}
      basis={choice.shortRun.basis}
      addressOf={(basis) => addressOf({ basis: basis === "nominal" ? "" : basis })}
    />
  );
}

/** In what counts of samples of different sizes stand on one axis. */
function OnUsualSample({ counts }: { counts: CountPlan }) {
  const { counts: said } = use(words()).otherCharts;
  const units = isOfPieces(counts.chart) ? said.units.pieces : said.units.units;
  return <p className={styles.soft}>{said.onUsual(asEntered(usualSample(counts)), units)}</p>;
}

/** What the form of parameters sends itself. */
const PARAMETERS = ["lambda", "L", "k", "h", "fir"];

function keptOf(asked: Readonly<Record<string, string | string[] | undefined>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(asked).flatMap(([name, text]) =>
      typeof text === "string" && !PARAMETERS.includes(name) ? [[name, text]] : [],
    ),
  );
}
