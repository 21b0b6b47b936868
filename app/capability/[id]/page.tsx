import { notFound } from "next/navigation";
import { featureById } from "../../../db/queries/features";
import { namesOf } from "../../../db/queries/history";
import { GATE_REQUIREMENTS } from "../../../lib/capability/gates";
import { histogram } from "../../../lib/capability/histogram";
import { lotSpans } from "../../../lib/capability/lot-spans";
import { probabilityPlot } from "../../../lib/capability/probability-plot";
import { judgedTolerance } from "../../../lib/capability/tolerance";
import { percent } from "../../../lib/capability/words";
import { chartWords, partName } from "../../../lib/format/names";
import { counted, toleranceWords } from "../../../lib/format/numbers";
import { requirePage } from "../../access";
import { database } from "../../database";
import { LinkButton, LinkTabs } from "../../fittings/controls";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { StateShape } from "../../fittings/state-word";
import { When } from "../../fittings/when";
import { plant } from "../../plant";
import { ProblemNote } from "../../problem";
import { presentable } from "../standing-words";
import { CONFIDENCE, type Studied, studied } from "../studied";
import { chosenWindow, studyWindow, WINDOWS } from "../study-window";
import { Cautions } from "./cautions";
import { DataBehind, exclusionsWithin } from "./data-behind";
import styles from "./detail.module.css";
import { formulaLines } from "./formula-lines";
import { GateList } from "./gate-list";
import { HistogramPicture } from "./histogram-picture";
import { HowComputed } from "./how-computed";
import { absentIndices, IndexTable } from "./index-table";
import { LotPicture } from "./lot-picture";
import { OutsideTable } from "./outside-table";
import { ProbabilityPicture } from "./probability-picture";
import { shownFeature } from "./shown-feature";

type Address = {
  params: Promise<{ id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
};

export async function generateMetadata({ params }: Pick<Address, "params">) {
  const id = Number((await params).id);
  const feature = Number.isSafeInteger(id) ? await featureById(await database(), id) : null;
  return { title: feature ? `Capability of ${feature.name}` : "Capability" };
}

/** One feature: what may be said of it to a customer, what it rests on, and how the figures came about. */
export default async function CapabilityOfFeaturePage({ params, searchParams }: Address) {
  await requirePage("/capability/[id]");
  const id = Number((await params).id);
  const chosen = chosenWindow((await searchParams).window);
  const { now, zone } = await plant();
  const window = studyWindow(chosen, now);
  const db = await database();
  const found = Number.isSafeInteger(id) ? await studied(db, { id, window }) : null;
  if (!found) notFound();

  const { feature, exclusions } = found.history;
  const { study } = found.result;
  const shown = shownFeature(feature, study.sdOverall);
  const leftOut = exclusionsWithin(exclusions, window);
  return (
    <PageFrame
      title={feature.name}
      above={
        <>
          <Link href={`/capability?window=${chosen.slug}`}>Capability</Link> ·{" "}
          <Link href={`/capability?part=${feature.partId}&window=${chosen.slug}`}>
            {partName(feature.part)} {feature.part.name}
          </Link>
        </>
      }
      facts={
        <>
          <span>{feature.keyCharacteristic ? `${feature.kind}, key characteristic` : feature.kind}</span>
          <span>Tolerance {toleranceWords(feature.plan.tolerance, feature)}</span>
          <span>Chart of {chartWords(feature.plan)}</span>
          {shown.isReduced ? <span>values at 20 °C</span> : null}
        </>
      }
      actions={
        <>
          <LinkButton href={`/features/${feature.id}`}>Control chart</LinkButton>
          <LinkButton href={`/plan/features/${feature.id}`} kind="quiet">
            Control plan
          </LinkButton>
        </>
      }
    >
      <LinkTabs
        label="Window"
        links={WINDOWS.map((each) => ({
          href: `/capability/${feature.id}?window=${each.slug}`,
          label: each.words,
          isCurrent: each === chosen,
        }))}
      />
      {study.count === 0 ? (
        <NothingMeasured
          hasHistory={found.history.series.count > 0}
          featureId={feature.id}
          left={found.result.excludedReadings}
        />
      ) : (
        <>
          <Claim found={found} zone={zone} />
          <Section
            title="Gates"
            purpose="What must hold before the word capability is used. One that fails turns the claim into performance."
          >
            <GateList gates={study.gates} featureId={feature.id} />
          </Section>
          <Pictures found={found} zone={zone} />
          <Section title="Indices">
            {study.problem === null ? (
              <>
                <IndexTable study={study} />
                <ul className={styles.remarks}>
                  {absentIndices(study, { hasTarget: feature.plan.target !== null }).map((words) => (
                    <li key={words}>{words}</li>
                  ))}
                </ul>
              </>
            ) : (
              <ProblemNote problem={study.problem} figure="capability index" />
            )}
          </Section>
          <Section title="Outside the tolerance">
            {shown.tolerance.lower === null && shown.tolerance.upper === null ? (
              <ProblemNote problem={{ code: "no-tolerance" }} figure="fraction outside" />
            ) : (
              <OutsideTable study={study} />
            )}
          </Section>
          <Section title="What it rests on">
            <DataBehind
              result={found.result}
              exclusions={leftOut}
              chosen={chosen}
              feature={shown}
              zone={zone}
            />
            <HowComputed
              confidence={study.confidence}
              lines={formulaLines(found.result, {
                places: shown.places,
                tolerance: judgedTolerance("CapabilityOfFeaturePage", feature.plan),
              })}
            />
          </Section>
          <Section title="Before it is passed on">
            <Cautions confidence={percent(CONFIDENCE)} />
          </Section>
        </>
      )}
    </PageFrame>
  );
}

const CLAIM_TONES = { capability: "done", performance: "act", none: "none" } as const;

const CLAIM_HEADS = {
  capability: "Presentable as capability",
  performance: "Performance only",
  none: "No index",
} as const;

function Claim({ found, zone }: { found: Studied; zone: string }) {
  const { study, firstAt, lastAt, excludedReadings } = found.result;
  const kind = presentable(study);
  return (
    <section className={`${styles.claim} ${styles[kind]}`} aria-labelledby="claim-heading">
      <h2 id="claim-heading" className={styles.claimHead}>
        <StateShape tone={CLAIM_TONES[kind]} />
        {CLAIM_HEADS[kind]}
      </h2>
      <p className={styles.claimWords}>{study.claim}</p>
      <p className={styles.claimData}>
        {counted(study.count, "reading")} from <When at={firstAt} zone={zone} as="day" /> to{" "}
        <When at={lastAt} zone={zone} as="day" />
        {excludedReadings > 0
          ? `; ${counted(excludedReadings, "reading")} left out with an assigned cause`
          : ""}
        .
      </p>
    </section>
  );
}

/** Histogram, probability plot and lots, or the everyday reason why there is nothing to see in one. */
async function Pictures({ found: { history, result }, zone }: { found: Studied; zone: string }) {
  const { feature, series } = history;
  const { study, values, positions } = result;
  const shown = shownFeature(feature, study.sdOverall);
  const bins = histogram({ values, resolution: feature.resolution, tolerance: shown.tolerance });
  const plot = probabilityPlot({ values, confidence: CONFIDENCE });
  const spans = lotSpans({ series, positions, values });
  const names = await namesOf(
    await database(),
    "lot",
    spans.lots.map(({ lot }) => lot),
  );
  return (
    <Section title="Distribution">
      <div className={styles.pictures}>
        {bins.ok && study.mean !== null && study.sdOverall !== null ? (
          <HistogramPicture
            histogram={bins.value}
            count={study.count}
            mean={study.mean}
            sigma={study.sdOverall}
            feature={shown}
          />
        ) : null}
        {plot.ok ? (
          <ProbabilityPicture
            plot={plot.value}
            normality={study.normality}
            significance={GATE_REQUIREMENTS.significance}
            feature={shown}
          />
        ) : null}
      </div>
      {bins.ok ? null : <ProblemNote problem={bins.problem} figure="histogram" />}
      {!bins.ok || plot.ok ? null : <ProblemNote problem={plot.problem} figure="probability plot" />}
      {spans.lots.length > 0 && study.mean !== null ? (
        <LotPicture spans={spans} names={names} mean={study.mean} feature={shown} zone={zone} />
      ) : (
        <Note kind="not-yet">
          No lots to compare: {counted(spans.withoutLot, "reading")} of this window state none. A lot comes
          with the measurement file; its column is chosen on Intake.
        </Note>
      )}
    </Section>
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
  return (
    <Note
      kind="empty"
      title={hasHistory ? "Nothing to study in this window" : "Not measured yet"}
      actions={
        hasHistory ? (
          <LinkButton href={`/capability/${featureId}?window=all`}>Show all measurements</LinkButton>
        ) : (
          <LinkButton href="/intake">To the intake</LinkButton>
        )
      }
    >
      {hasHistory
        ? `This feature was measured, but no reading of this window counts${left > 0 ? `: ${counted(left, "reading")} were left out with an assigned cause` : ""}. A longer window may hold some.`
        : "Nothing can be said of a feature without measurements. They come with a measurement file on Intake."}
    </Note>
  );
}
