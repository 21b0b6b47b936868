import { notFound } from "next/navigation";
import { gaugeById, gaugedFeatures, listStudies, type StudyRow } from "../../../db/queries/gauges";
import { sourceEvents } from "../../../db/queries/sources";
import { counted } from "../../../lib/format/numbers";
import { calendarDay, calendarDayWords } from "../../../lib/format/times";
import { calibrationStanding, calibrationWords } from "../../../lib/measurement-systems/calibration";
import { shownFeatureData } from "../../../lib/units/shown-feature";
import { mayOpen, mayRun, requirePage } from "../../access";
import { database } from "../../database";
import { LinkButton } from "../../fittings/controls";
import { Facts } from "../../fittings/facts";
import { Fold } from "../../fittings/fold";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { StateShape } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { plant } from "../../plant";
import { FeatureEffects } from "../feature-effects";
import { fieldsOfGauge } from "../gauge-entry";
import { GaugeForm } from "../gauge-form";
import { CALIBRATION_TONES, KIND_WORDS, statedWords, stepWords } from "../gauge-words";
import styles from "../gauges.module.css";
import { headline } from "../study-words";

type Address = { params: Promise<{ id: string }> };

export async function generateMetadata({ params }: Address) {
  const id = Number((await params).id);
  const gauge = Number.isSafeInteger(id) ? await gaugeById(await database(), id) : null;
  return { title: gauge ? `Gauge ${gauge.code}` : "Gauge" };
}

/** One gauge: its record, the studies made of it, and what it does to each feature it measures. */
export default async function GaugePage({ params }: Address) {
  const person = await requirePage("/gauges/[id]");
  const id = Number((await params).id);
  const db = await database();
  const gauge = Number.isSafeInteger(id) ? await gaugeById(db, id) : null;
  if (!gauge) notFound();
  const { now, zone, lengths } = await plant();
  const { record } = gauge;
  const studies = await listStudies(db, { gaugeId: id });
  const features = ((await gaugedFeatures(db)).get(id) ?? []).map((row) => ({
    ...row,
    feature: shownFeatureData(row.feature, lengths),
  }));
  const events = (await sourceEvents(db, { sourceId: id })).slice(0, MOST_EVENTS);
  const standing = calibrationStanding(record?.calibrationDue ?? null, calendarDay(now, zone));
  const facts: [string, React.ReactNode][] = [
    ["Resolution", record?.resolution == null ? "not entered" : stepWords(record.resolution, lengths)],
    ["Maximum permissible error", record?.stated ? `${statedWords(record.stated)}, L in mm` : "not entered"],
    ["Calibrated on", record?.calibratedOn ? calendarDayWords(record.calibratedOn) : "not entered"],
    [
      "Calibration due",
      <span className={styles.state} key="due">
        <StateShape tone={CALIBRATION_TONES[standing.state]} />
        {record?.calibrationDue ? `${calendarDayWords(record.calibrationDue)}, ` : ""}
        {calibrationWords(standing)}
      </span>,
    ],
    ["Portable", record?.portable ? "yes: each setup is a source of its own" : "no"],
    ...(record?.note || gauge.notes ? [["Note", record?.note || gauge.notes] as [string, string]] : []),
  ];
  return (
    <PageFrame
      title={`Gauge ${gauge.code}`}
      above={<Link href="/gauges">Gauges</Link>}
      purpose={record?.what || gauge.notes || "Nobody has entered a record of this gauge yet."}
      actions={
        mayOpen(person, "/gauges/[id]/studies/new") ? (
          <LinkButton href={`/gauges/${id}/studies/new`} kind="main">
            Enter a study
          </LinkButton>
        ) : null
      }
    >
      <Section title="Record">
        <Facts>
          {facts.map(([term, words]) => (
            <div key={term}>
              <dt>{term}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </Facts>
        {mayRun(person, "saveGaugeRecord") ? (
          <Fold summary="Change the record">
            <GaugeForm gaugeId={id} fields={fieldsOfGauge(gauge.code, record)} />
          </Fold>
        ) : null}
      </Section>
      <Section title="Studies" term="gauge-study">
        <Studies studies={studies} mayEnter={mayRun(person, "enterGaugeStudy")} />
      </Section>
      <Section
        title="The features it measures"
        term="gauge-share"
        purpose="Those whose latest measurement it made. What it takes of a tolerance passes on to the gate “gauge” of their capability."
      >
        <FeatureEffects gauge={gauge} features={features} lengths={lengths} />
      </Section>
      <Section title="What was done to it">
        {events.length === 0 ? (
          <Note kind="empty">Nothing is logged. Events of sources are logged on the page Drift.</Note>
        ) : (
          <Table
            caption={`The latest ${counted(events.length, "event")}`}
            rows={events}
            rowKey={(event) => event.id}
            columns={[
              { key: "at", head: "When", tight: true, cell: ({ at }) => <When at={at} zone={zone} /> },
              { key: "event", head: "What", cell: ({ event }) => event },
              { key: "note", head: "Note", cell: ({ note }) => note },
            ]}
          />
        )}
      </Section>
    </PageFrame>
  );
}

const MOST_EVENTS = 10;

function Studies({ studies, mayEnter }: { studies: readonly StudyRow[]; mayEnter: boolean }) {
  return (
    <Table<StudyRow>
      caption={`${counted(studies.length, "study", "studies")}, the newest first`}
      rows={studies}
      rowKey={({ id }) => id}
      empty={
        <Note kind="empty" title="No studies yet">
          {mayEnter
            ? "Enter the readings of a crossed study: paste them, take a file, or type them in. Until then the maker's permissible error stands in."
            : "An engineer enters them. Until then the maker's permissible error stands in."}
        </Note>
      }
      columns={[
        {
          key: "study",
          head: "Study",
          cell: ({ id, kind }) => (
            <Link href={`/gauges/studies/${id}`} className={styles.name ?? ""}>
              {KIND_WORDS[kind]} {id}
            </Link>
          ),
        },
        { key: "made", head: "Made on", tight: true, cell: ({ madeOn }) => calendarDayWords(madeOn) },
        {
          key: "feature",
          head: "On",
          cell: ({ feature }) =>
            feature ? `${feature.part} ${feature.name}` : "no feature of the control plan",
        },
        {
          key: "result",
          head: "Result",
          cell: (study) => <span className={styles.wide}>{headline(study)}</span>,
        },
        { key: "state", head: "In force", cell: stateWords },
        { key: "by", head: "Entered by", cell: ({ by }) => by ?? "the program" },
      ]}
    />
  );
}

function stateWords({ supersededBy, withdrawnAt }: StudyRow): string {
  if (withdrawnAt !== null) return "withdrawn";
  return supersededBy === null ? "in force" : `superseded by ${supersededBy}`;
}
