import { notFound } from "next/navigation";
import { listAlarms } from "../../../db/queries/alarms";
import { latestNewsId } from "../../../db/queries/news";
import { listCauses } from "../../../db/queries/sources";
import { windowFrom } from "../../../lib/chart/overview-window";
import { RIBBON_KINDS, type RibbonKind } from "../../../lib/chart/ribbons";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { limitsWords, standingWords } from "../../../lib/evaluation/standing-words";
import { chartWords, partName } from "../../../lib/format/names";
import { toleranceWords } from "../../../lib/format/numbers";
import { dayIn, momentIn } from "../../../lib/format/times";
import type { Words } from "../../../lib/words/words";
import { mayRun, requirePage } from "../../access";
import { OpenAlarms } from "../../alarms/open-alarms";
import { database } from "../../database";
import { TouchingFlags } from "../../drift/touching-flags";
import { LinkButton } from "../../fittings/controls";
import { FollowNews } from "../../fittings/follow-news";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { openFlagsShown, toleranceAsDrawn } from "../../shown/lengths";
import { BaselinePreview } from "./baseline-preview";
import { Chart } from "./chart";
import { chartChoice } from "./chart-choice";
import { ChartTabs } from "./chart-tabs";
import { ComputedPanel } from "./computed-panel";
import { EngineerPanel } from "./engineer-panel";
import { baselineFrom, engineerView, estimatorFrom } from "./engineer-view";
import { judgedFeature } from "./judged-feature";
import { chartFacts, chartReadings, chartStretch, windowFor } from "./load-chart";
import { NeighbourNote } from "./neighbour-note";
import { OtherView } from "./other-view";
import { OverviewStrip } from "./overview-strip";
import styles from "./panels.module.css";
import { PointsTable } from "./points-table";
import { ShownHistory } from "./shown-history";
import { VariationPanel } from "./variation-panel";

type Params = {
  params: Promise<{ id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
};

export async function generateMetadata() {
  return { title: (await words()).features.page.tab };
}

/** One feature's control chart: where it stands, what moved it, and what an engineer can do about its limits. */
export default async function FeaturePage({ params, searchParams }: Params) {
  const person = await requirePage("/features/[id]");
  const id = Number((await params).id);
  const db = await database();
  const since = await latestNewsId(db);
  const judged = Number.isInteger(id) ? await judgedFeature(db, id) : null;
  if (!judged) notFound();
  const { history, evaluation, patterns } = judged;
  const { feature, setup, limits } = history;
  const { zone } = await plant();
  const { features, standing, charts, rules, figures, times } = await words();
  const { page: said, chart: chartSaid } = features;
  const asked = await searchParams;
  const alarms = await listAlarms(db, { featureId: id, open: true });
  const windowAsked = windowFrom(textOf(asked.w));
  const from = momentFrom(asked.from);
  const window = windowFor(evaluation, { window: windowAsked, from });
  const { count } = evaluation.points;
  const drawn = await toleranceAsDrawn(db, id);
  const choice = chartChoice(asked, setup.plan.alsoWatch ?? null, features.asked);
  const isOwn = choice.view === "own" && !setup.plan.counts;
  const facts = await chartFacts(judged, { from, zone });
  const stretch = isOwn && count > 0 ? await chartStretch(db, judged, { range: window, zone }) : null;
  const readings = stretch && (await chartReadings(db, judged, window));
  const addressOf = (changes: Record<string, string>) => addressWith(id, asked, changes);
  const baseline = baselineFrom(asked.baseline, { count });
  const estimator = estimatorFrom(asked.estimator, { history, evaluation, baseline });
  const moment = (at: number) => momentIn(at, zone, times);
  const told = { chart: setup.plan.chart, tolerance: setup.plan.tolerance, patterns, day: moment };
  const standingSaid = standingWords(evaluation, told, { standing, rules });
  const inForce = limits.find((row) => row.version === evaluation.progress.limits?.version) ?? null;

  return (
    <ShownHistory
      facts={facts}
      stretch={stretch}
      readings={readings}
      window={window}
      asked={windowAsked}
      address={addressWithout(id, asked, "w")}
      words={features.steps}
    >
      <PageFrame
        title={feature.name}
        about={[partName(feature.part), windowWords(evaluation, { window, zone, said, times })]
          .filter(Boolean)
          .join(", ")}
        purpose={`${partName(feature.part)}. ${standingSaid}`}
        facts={
          <>
            <span>{toleranceWords(setup.plan.tolerance, feature, figures)}</span>
            {drawn === null ? null : <span>{drawn}</span>}
            <span>{chartWords(setup.plan, charts)}</span>
            <span>{limitsWords(evaluation, inForce, moment, standing)}</span>
            <span>{setup.plan.reduction ? said.reduced : said.measured}</span>
          </>
        }
        actions={
          <>
            <LinkButton href={`/capability/${id}`}>{said.capability}</LinkButton>
            <LinkButton href={`/plan/features/${id}`}>{said.plan}</LinkButton>
          </>
        }
      >
        <FollowNews since={since} kinds={["alarm", "intake", "feature", "drift"]} featureId={id} />
        <OpenAlarms alarms={alarms} zone={zone} />
        <TouchingFlags flags={await openFlagsShown(db)} feature={feature} zone={zone} />
        <Section title={said.chart} id="chart" term="control-chart">
          {count === 0 ? (
            <Note kind="not-yet" title={said.nothing}>
              {standingSaid} {said.soon(setup.plan.subgroupSize)}
            </Note>
          ) : (
            <div className={styles.views}>
              <ChartTabs plan={setup.plan} view={choice.view} addressOf={addressOf} />
              {choice.faults.length > 0 ? <Note kind="remark">{choice.faults.join(" ")}</Note> : null}
              {isOwn ? (
                <Chart colour={kindFrom(asked.colour)} words={chartSaid} />
              ) : (
                <OtherView
                  database={db}
                  judged={judged}
                  choice={choice}
                  window={window}
                  zone={zone}
                  asked={asked}
                  addressOf={addressOf}
                />
              )}
              {choice.view === "short-run" || choice.view === "lots" ? null : (
                <OverviewStrip
                  judged={judged}
                  window={window}
                  address={addressWithout(id, asked, "w")}
                  zone={zone}
                />
              )}
              {isOwn ? <PointsTable words={chartSaid} /> : null}
              {choice.view === "own" ? <NeighbourNote history={history} evaluation={evaluation} /> : null}
            </div>
          )}
        </Section>
        {count > 0 && mayRun(person, "freezeChartLimits") ? (
          <Section title={said.limits} id="limits" term="control-limits" purpose={said.limitsPurpose}>
            <EngineerPanel
              {...engineerView(history, evaluation, { baseline, estimator, zone, words: await words() })}
              causes={await listCauses(db)}
              words={features.engineer}
              address={addressWithout(id, { ...asked, estimator: undefined }, "baseline")}
            >
              <BaselinePreview {...{ history, evaluation, baseline, estimator, zone }} />
            </EngineerPanel>
          </Section>
        ) : null}
        {count > 0 ? (
          <>
            <VariationPanel judged={judged} />
            <ComputedPanel judged={judged} />
          </>
        ) : null}
      </PageFrame>
    </ShownHistory>
  );
}

function windowWords(
  { points }: Evaluation,
  {
    window,
    zone,
    said,
    times,
  }: { window: ShownWindow; zone: string; said: Words["features"]["page"]; times: Words["times"] },
): string {
  if (points.count === 0) return "";
  const day = (number: number) => dayIn(points.at[number]!, zone, times);
  return said.fromTo(day(window.from), day(window.to));
}

/** The page's address with what was asked for, but for one part of it. */
function addressWithout(
  id: number,
  asked: Record<string, string | string[] | undefined>,
  left: string,
): string {
  const query = new URLSearchParams();
  for (const [name, text] of Object.entries(asked)) {
    if (name !== left && typeof text === "string") query.set(name, text);
  }
  const text = query.toString();
  return `/features/${id}${text === "" ? "" : `?${text}`}`;
}

/** The page's address with some of what was asked for changed. */
function addressWith(
  id: number,
  asked: Record<string, string | string[] | undefined>,
  changes: Record<string, string>,
): string {
  const query = new URLSearchParams();
  for (const [name, text] of Object.entries({ ...asked, ...changes })) {
    if (typeof text === "string" && text !== "") query.set(name, text);
  }
  return `/features/${id}?${query}`;
}

function textOf(given: string | string[] | undefined): string | null {
  return typeof given === "string" ? given : null;
}

function momentFrom(text: string | string[] | undefined): number | null {
  if (typeof text !== "string" || text === "") return null;
  const moment = /^\d+$/.test(text) ? Number(text) : Date.parse(text);
  return Number.isFinite(moment) ? moment : null;
}

function kindFrom(text: string | string[] | undefined): RibbonKind | null {
  return RIBBON_KINDS.find((kind) => kind === text) ?? null;
}
