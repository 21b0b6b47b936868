import { notFound } from "next/navigation";
import { use } from "react";
import { gaugeById, gaugedFeatures, listStudies, type StudyRow } from "../../../db/queries/gauges";
import { sourceEvents } from "../../../db/queries/sources";
import { calendarDay, calendarDayWords } from "../../../lib/format/times";
import { calibrationStanding, calibrationWords } from "../../../lib/measurement-systems/calibration";
import { shownFeatureData } from "../../../lib/units/shown-feature";
import type { Words } from "../../../lib/words/words";
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
import { words } from "../../language/language";
import { plant } from "../../plant";
import { FeatureEffects } from "../feature-effects";
import { fieldsOfGauge } from "../gauge-entry";
import { GaugeForm } from "../gauge-form";
import { CALIBRATION_TONES, statedWords, stepWords } from "../gauge-words";
import styles from "../gauges.module.css";
import { headline } from "../study-words";

type Address = { params: Promise<{ id: string }> };

export async function generateMetadata({ params }: Address) {
  const id = Number((await params).id);
  const gauge = Number.isSafeInteger(id) ? await gaugeById(await database(), id) : null;
  const { page: said } = (await words()).gauges;
  return { title: gauge ? said.title(gauge.code) : said.tab };
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
  const { gauges, board, trade, times } = await words();
  const { page: said, notEntered } = gauges;
  const { facts: terms } = said;
  const studies = await listStudies(db, { gaugeId: id });
  const features = ((await gaugedFeatures(db)).get(id) ?? []).map((row) => ({
    ...row,
    feature: shownFeatureData(row.feature, lengths),
  }));
  const events = (await sourceEvents(db, { sourceId: id })).slice(0, MOST_EVENTS);
  const standing = calibrationStanding(record?.calibrationDue ?? null, calendarDay(now, zone));
  const facts: [string, React.ReactNode][] = [
    [terms.resolution, record?.resolution == null ? notEntered : stepWords(record.resolution, lengths)],
    [terms.error, record?.stated ? said.lengthIn(statedWords(record.stated)) : notEntered],
    [terms.calibratedOn, record?.calibratedOn ? calendarDayWords(record.calibratedOn, times) : notEntered],
    [
      terms.due,
      <span className={styles.state} key="due">
        <StateShape tone={CALIBRATION_TONES[standing.state]} />
        {record?.calibrationDue ? `${calendarDayWords(record.calibrationDue, times)}, ` : ""}
        {calibrationWords(standing, board.calibrationStates)}
      </span>,
    ],
    [terms.portable, record?.portable ? said.portable : said.notPortable],
    ...(record?.note || gauge.notes ? [[terms.note, record?.note || gauge.notes] as [string, string]] : []),
  ];
  return (
    <PageFrame
      title={said.title(gauge.code)}
      above={<Link href="/gauges">{gauges.title}</Link>}
      purpose={record?.what || gauge.notes || said.noRecord}
      actions={
        mayOpen(person, "/gauges/[id]/studies/new") ? (
          <LinkButton href={`/gauges/${id}/studies/new`} kind="main">
            {said.enterStudy}
          </LinkButton>
        ) : null
      }
    >
      <Section title={said.record}>
        <Facts>
          {facts.map(([term, fact]) => (
            <div key={term}>
              <dt>{term}</dt>
              <dd>{fact}</dd>
            </div>
          ))}
        </Facts>
        {mayRun(person, "saveGaugeRecord") ? (
          <Fold summary={said.change}>
            <GaugeForm gaugeId={id} fields={fieldsOfGauge(gauge.code, record)} words={gauges.form} />
          </Fold>
        ) : null}
      </Section>
      <Section title={said.studies} term="gauge-study">
        <Studies studies={studies} mayEnter={mayRun(person, "enterGaugeStudy")} />
      </Section>
      <Section title={said.features} term="gauge-share" purpose={said.featuresPurpose}>
        <FeatureEffects gauge={gauge} features={features} lengths={lengths} />
      </Section>
      <Section title={said.done}>
        {events.length === 0 ? (
          <Note kind="empty">{said.noEvents}</Note>
        ) : (
          <Table
            caption={said.events(events.length)}
            rows={events}
            rowKey={(event) => event.id}
            columns={[
              {
                key: "at",
                head: said.eventHeads.at,
                tight: true,
                cell: ({ at }) => <When at={at} zone={zone} />,
              },
              { key: "event", head: said.eventHeads.event, cell: ({ event }) => trade.events[event] },
              { key: "note", head: said.eventHeads.note, cell: ({ note }) => note },
            ]}
          />
        )}
      </Section>
    </PageFrame>
  );
}

const MOST_EVENTS = 10;

function Studies({ studies, mayEnter }: { studies: readonly StudyRow[]; mayEnter: boolean }) {
  const { gauges, gaugeStudies, times } = use(words());
  const { studies: said, kinds, noFeature } = gauges;
  return (
    <Table<StudyRow>
      caption={said.caption(studies.length)}
      rows={studies}
      rowKey={({ id }) => id}
      empty={
        <Note kind="empty" title={said.none}>
          {mayEnter ? said.mayEnter : said.mayNot}
        </Note>
      }
      columns={[
        {
          key: "study",
          head: said.heads.study,
          cell: ({ id, kind }) => (
            <Link href={`/gauges/studies/${id}`} className={styles.name ?? ""}>
              {kinds[kind]} {id}
            </Link>
          ),
        },
        {
          key: "made",
          head: said.heads.made,
          tight: true,
          cell: ({ madeOn }) => calendarDayWords(madeOn, times),
        },
        {
          key: "feature",
          head: said.heads.feature,
          cell: ({ feature }) => (feature ? `${feature.part} ${feature.name}` : noFeature),
        },
        {
          key: "result",
          head: said.heads.result,
          cell: (study) => <span className={styles.wide}>{headline(study, { gauges, gaugeStudies })}</span>,
        },
        { key: "state", head: said.heads.state, cell: (study) => stateWords(study, said) },
        { key: "by", head: said.heads.by, cell: ({ by }) => by ?? said.program },
      ]}
    />
  );
}

function stateWords({ supersededBy, withdrawnAt }: StudyRow, said: Words["gauges"]["studies"]): string {
  if (withdrawnAt !== null) return said.withdrawn;
  return supersededBy === null ? said.inForce : said.superseded(supersededBy);
}
