import { notFound } from "next/navigation";
import { listAlarms } from "../../../db/queries/alarms";
import { latestNewsId } from "../../../db/queries/news";
import { listCauses } from "../../../db/queries/sources";
import { RIBBON_KINDS, type RibbonKind } from "../../../lib/chart/ribbons";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import { limitsWords, standingWords } from "../../../lib/evaluation/standing-words";
import { chartWords, partName } from "../../../lib/format/names";
import { toleranceWords } from "../../../lib/format/numbers";
import { momentIn } from "../../../lib/format/times";
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
import { loadChart } from "./load-chart";
import { NeighbourNote } from "./neighbour-note";
import { OtherView } from "./other-view";
import { OverviewStrip } from "./overview-strip";
import styles from "./panels.module.css";
import { PointsTable } from "./points-table";
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
  const view = await loadChart(db, judged, {
    query: { window: windowFrom(asked.w), from: momentFrom(asked.from) },
    zone,
  });
  const drawn = await toleranceAsDrawn(db, id);
  const choice = chartChoice(asked, setup.plan.alsoWatch ?? null, features.asked);
  const counts = setup.plan.counts ?? null;
  const addressOf = (changes: Record<string, string>) => addressWith(id, asked, changes);
  const baseline = baselineFrom(asked.baseline, { count: view.count });
  const estimator = estimatorFrom(asked.estimator, { history, evaluation, baseline });
  const moment = (at: number) => momentIn(at, zone, times);
  const told = { chart: setup.plan.chart, tolerance: setup.plan.tolerance, patterns, day: moment };
  const standingSaid = standingWords(evaluation, told, { standing, rules });
  const inForce = limits.find((row) => row.version === evaluation.progress.limits?.version) ?? null;

  return (
    <PageFrame
      title={feature.name}
      about={[partName(feature.part), windowWords(view.points, said)].filter(Boolean).join(", ")}
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
        {view.count === 0 ? (
          <Note kind="not-yet" title={said.nothing}>
            {standingSaid} {said.soon(setup.plan.subgroupSize)}
          </Note>
        ) : (
          <div className={styles.views}>
            <ChartTabs plan={setup.plan} view={choice.view} addressOf={addressOf} />
            {choice.faults.length > 0 ? <Note kind="remark">{choice.faults.join(" ")}</Note> : null}
            {choice.view === "own" && !counts ? (
              <Chart view={view} colour={kindFrom(asked.colour)} words={chartSaid} />
            ) : (
              <OtherView
                database={db}
                history={history}
                evaluation={evaluation}
                patterns={patterns}
                choice={choice}
                window={view.window}
                zone={zone}
                asked={asked}
                addressOf={addressOf}
              />
            )}
            {choice.view === "short-run" || choice.view === "lots" ? null : (
              <OverviewStrip
                judged={judged}
                view={view}
                address={addressWithout(id, asked, "w")}
                zone={zone}
              />
            )}
            {choice.view === "own" && !counts ? <PointsTable view={view} words={chartSaid} /> : null}
            {choice.view === "own" ? <NeighbourNote history={history} evaluation={evaluation} /> : null}
          </div>
        )}
      </Section>
      {view.count > 0 && mayRun(person, "freezeChartLimits") ? (
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
      {view.count > 0 ? (
        <>
          <VariationPanel judged={judged} />
          <ComputedPanel judged={judged} />
        </>
      ) : null}
    </PageFrame>
  );
}

function windowWords(points: readonly { day: string }[], said: Words["features"]["page"]): string {
  const [first, last] = [points[0], points.at(-1)];
  return first && last ? said.fromTo(first.day, last.day) : "";
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

/** "120-180": first and last subgroup, counted from 0. */
function windowFrom(text: string | string[] | undefined): ShownWindow | null {
  const found = typeof text === "string" ? /^(\d{1,9})-(\d{1,9})$/.exec(text) : null;
  return found ? { from: Number(found[1]), to: Number(found[2]) } : null;
}

function momentFrom(text: string | string[] | undefined): number | null {
  if (typeof text !== "string" || text === "") return null;
  const moment = /^\d+$/.test(text) ? Number(text) : Date.parse(text);
  return Number.isFinite(moment) ? moment : null;
}

function kindFrom(text: string | string[] | undefined): RibbonKind | null {
  return RIBBON_KINDS.find((kind) => kind === text) ?? null;
}
