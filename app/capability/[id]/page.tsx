import { notFound } from "next/navigation";
import { use } from "react";
import { featureById } from "../../../db/queries/features";
import { judgedTolerance } from "../../../lib/capability/tolerance";
import { percent } from "../../../lib/capability/words";
import { chartWords, partName } from "../../../lib/format/names";
import { toleranceWords } from "../../../lib/format/numbers";
import { shownFeature } from "../../../lib/format/shown-feature";
import { indexAsked } from "../../../lib/plan/index-asked";
import { requirePage } from "../../access";
import { database } from "../../database";
import { LinkButton } from "../../fittings/controls";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { ProblemNote } from "../../problem";
import { toleranceAsDrawn } from "../../shown/lengths";
import { studyShown } from "../../shown/studies";
import { askedOf, queryOf } from "../asked";
import { CONFIDENCE, studied } from "../studied";
import { studyWindow } from "../study-window";
import { Cautions } from "./cautions";
import { Claim } from "./claim";
import { DataBehind, exclusionsWithin } from "./data-behind";
import styles from "./detail.module.css";
import { formulaLines } from "./formula-lines";
import { furtherOf, furtherShown } from "./further";
import { countedLines, furtherLines, modelLines } from "./further-lines";
import { FurtherQuestions } from "./further-questions";
import { GateList } from "./gate-list";
import { HowComputed } from "./how-computed";
import { absentIndices, IndexTable } from "./index-table";
import { ModelPanel, ModelTabs } from "./model-panel";
import { OutsideTable } from "./outside-table";
import { Pictures } from "./pictures";
import { WindowTabs } from "./window-tabs";

type Address = {
  params: Promise<{ id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
};

export async function generateMetadata({ params }: Pick<Address, "params">) {
  const id = Number((await params).id);
  const feature = Number.isSafeInteger(id) ? await featureById(await database(), id) : null;
  const { capability: said } = await words();
  return { title: feature ? said.page.of(feature.name) : said.title };
}

/** One feature: what may be said of it to a customer, what it rests on, and how the figures came about. */
export default async function CapabilityOfFeaturePage({ params, searchParams }: Address) {
  await requirePage("/capability/[id]");
  const id = Number((await params).id);
  const language = await words();
  const { capability, charts, figures } = language;
  const { page: said } = capability;
  const asked = askedOf(await searchParams, language);
  const chosen = asked.window;
  const { now, zone, lengths } = await plant();
  const window = studyWindow(chosen, { now, zone });
  const db = await database();
  const own = Number.isSafeInteger(id)
    ? await studied(db, { id, window, model: asked.model, shownIn: lengths })
    : null;
  if (!own) notFound();
  const found = await studyShown(own);

  const { feature, exclusions } = found.history;
  const { study } = found.result;
  const shown = shownFeature(feature, study.sdOverall);
  const judged = {
    places: shown.places,
    tolerance: judgedTolerance("CapabilityOfFeaturePage", feature.plan),
  };
  const further = furtherShown(furtherOf(own, asked, language.claims), own.history.feature.unit, lengths);
  const kind = charts.features[feature.kind];
  const drawn = await toleranceAsDrawn(db, id);
  const leftOut = exclusionsWithin(exclusions, window);
  return (
    <PageFrame
      title={feature.name}
      about={`${partName(feature.part)}, ${chosen.words}`}
      above={
        <>
          <Link href={`/capability?window=${chosen.slug}`}>{capability.title}</Link> ·{" "}
          <Link href={`/capability?part=${feature.partId}&window=${chosen.slug}`}>
            {partName(feature.part)} {feature.part.name}
          </Link>
        </>
      }
      facts={
        <>
          <span>{feature.keyCharacteristic ? said.key(kind) : kind}</span>
          <span>{said.tolerance(toleranceWords(feature.plan.tolerance, feature, figures))}</span>
          {drawn === null ? null : <span>{drawn}</span>}
          <span>{said.chartOf(chartWords(feature.plan, charts))}</span>
          {shown.isReduced ? <span>{said.at20}</span> : null}
        </>
      }
      actions={
        <>
          <LinkButton href={`/features/${feature.id}`}>{said.chart}</LinkButton>
          <LinkButton href={`/plan/features/${feature.id}`} kind="quiet">
            {said.plan}
          </LinkButton>
        </>
      }
    >
      <WindowTabs id={feature.id} asked={asked} />
      {study.count === 0 ? (
        <NothingMeasured
          hasHistory={found.history.series.count > 0}
          featureId={feature.id}
          left={found.result.excludedReadings}
        />
      ) : (
        <>
          <Claim found={found} zone={zone} />
          <Section title={said.gates} term="gate" purpose={said.gatesPurpose}>
            <GateList
              gates={study.gates}
              featureId={feature.id}
              autoHref={`/capability/${feature.id}${queryOf({ ...asked, model: "auto" })}`}
            />
          </Section>
          <Pictures own={own} found={found} zone={zone} choice={<ModelTabs id={feature.id} asked={asked} />}>
            <ModelPanel study={study} feature={shown} />
          </Pictures>
          <Section title={said.indices} term="capability">
            {study.problem === null ? (
              <>
                <IndexTable study={study} />
                <ul className={styles.remarks}>
                  {absentIndices(study, {
                    hasTarget: feature.plan.target !== null,
                    words: capability.indexTable.absent,
                  }).map((line) => (
                    <li key={line}>{line}</li>
                  ))}
                </ul>
              </>
            ) : (
              <ProblemNote problem={study.problem} figure="capabilityIndex" />
            )}
          </Section>
          <Section title={said.outside}>
            {shown.tolerance.lower === null && shown.tolerance.upper === null ? (
              <ProblemNote problem={{ code: "no-tolerance" }} figure="fractionOutside" />
            ) : (
              <OutsideTable study={study} />
            )}
          </Section>
          <Section title={said.further} purpose={said.furtherPurpose} id="further">
            <FurtherQuestions
              id={feature.id}
              asked={asked}
              further={further}
              feature={shown}
              planned={indexAsked(own.history.feature)}
              typedIn={own.history.feature.unit}
              confidence={study.confidence}
            />
          </Section>
          <Section title={said.rests}>
            <DataBehind
              result={found.result}
              exclusions={leftOut}
              chosen={chosen}
              feature={shown}
              zone={zone}
            />
            <HowComputed
              confidence={study.confidence}
              gates={study.gates}
              lines={[
                ...formulaLines(found.result, judged, language),
                ...modelLines(study, judged, language),
                ...countedLines(study, { ...judged, target: feature.plan.target }, language),
                ...furtherLines(further, judged, language),
              ]}
            />
          </Section>
          <Section title={said.before}>
            <Cautions confidence={percent(CONFIDENCE)} />
          </Section>
        </>
      )}
    </PageFrame>
  );
}

function NothingMeasured({
  hasHistory,
  featureId,
  left,
}: {
  hasHistory: boolean;
  featureId: number;
  left: number;
}) {
  const { capability } = use(words());
  const { page: said } = capability;
  return (
    <Note
      kind="empty"
      title={hasHistory ? said.nothingHere : said.notMeasured}
      actions={
        hasHistory ? (
          <LinkButton href={`/capability/${featureId}?window=all`}>{said.showAll}</LinkButton>
        ) : (
          <LinkButton href="/intake">{capability.toIntake}</LinkButton>
        )
      }
    >
      {hasHistory ? said.nothingWhy(left) : said.notMeasuredWhy}
    </Note>
  );
}
