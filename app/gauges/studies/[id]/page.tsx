import { notFound } from "next/navigation";
import { use } from "react";
import { studyById } from "../../../../db/queries/gauges";
import { unitName } from "../../../../lib/format/numbers";
import { calendarDayWords } from "../../../../lib/format/times";
import { studyResult } from "../../../../lib/measurement-systems/study-data";
import { shownGaugeStudy } from "../../../../lib/units/shown-gauge-study";
import { mayRun, requirePage } from "../../../access";
import { database } from "../../../database";
import { LinkButton } from "../../../fittings/controls";
import { Filled } from "../../../fittings/filled";
import { Link } from "../../../fittings/link";
import { Note } from "../../../fittings/note";
import { PageFrame, Section } from "../../../fittings/page-frame";
import { When } from "../../../fittings/when";
import { words } from "../../../language/language";
import { plant } from "../../../plant";
import { headline } from "../../study-words";
import { CrossedView } from "./crossed-view";
import { LinearityView } from "./linearity-view";
import { SetupView } from "./setup-view";
import styles from "./study.module.css";
import { TypeOneView } from "./type-one-view";
import { WithdrawForm } from "./withdraw-form";

type Address = { params: Promise<{ id: string }> };

export async function generateMetadata({ params }: Address) {
  return { title: (await words()).gaugeStudies.page.tab((await params).id) };
}

/** One study: what it found, the way to each figure, and its readings. */
export default async function StudyPage({ params }: Address) {
  const person = await requirePage("/gauges/studies/[id]");
  const id = Number((await params).id);
  const study = Number.isSafeInteger(id) ? await studyById(await database(), id) : null;
  if (!study) notFound();
  const { zone, lengths } = await plant();
  const { gauge, feature, data } = study;
  const { gauges, gaugeStudies, times, figures } = await words();
  const { page: said } = gaugeStudies;
  const anew = studyResult(data, study.settings);
  const isSame = anew.ok && JSON.stringify(anew.result) === JSON.stringify(study.result);
  // Kept figures that the program would compute otherwise by now stand as they are, in their own unit.
  const shown = { ...study, ...(isSame ? shownGaugeStudy(study, lengths) : null) };
  const { unit } = shown;
  return (
    <PageFrame
      title={said.title(capital(gauges.kinds[study.kind]), id, gauge.code)}
      above={
        <>
          <Link href="/gauges">{gauges.title}</Link> · <Link href={`/gauges/${gauge.id}`}>{gauge.code}</Link>
        </>
      }
      facts={
        <>
          <span>{said.madeOn(calendarDayWords(study.madeOn, times))}</span>
          <span>
            {feature ? (
              <Filled
                text={said.onFeature}
                holes={{
                  feature: (
                    <Link href={`/features/${feature.id}`}>
                      {feature.part} {feature.name}
                    </Link>
                  ),
                }}
              />
            ) : (
              said.onNone
            )}
          </span>
          <span>{said.readings(unitName(unit, figures))}</span>
          <span>
            <Filled
              text={study.by ? said.enteredBy : said.entered}
              holes={{ when: <When at={study.enteredAt} zone={zone} />, by: study.by }}
            />
          </span>
        </>
      }
      actions={<LinkButton href={`/api/gauges/studies/${id}/readings`}>{said.download}</LinkButton>}
    >
      <State study={study} />
      <p className={styles.headline}>{headline(shown, { gauges, gaugeStudies })}</p>
      {study.note === "" ? null : <p className={styles.soft}>{study.note}</p>}
      <View study={shown} />
      <Section title={said.before}>
        <ul className={styles.remarks}>
          <li>{said.speaks}</li>
          <li>{said.scatters}</li>
          <li>{isSame ? said.same : said.different}</li>
        </ul>
        {study.withdrawnAt === null && mayRun(person, "withdrawGaugeStudy") ? (
          <WithdrawForm studyId={id} words={gaugeStudies.withdraw} />
        ) : null}
      </Section>
    </PageFrame>
  );
}

type Study = NonNullable<Awaited<ReturnType<typeof studyById>>>;

function State({ study: { supersededBy, withdrawnAt, withdrawnBecause } }: { study: Study }) {
  const { page: said } = use(words()).gaugeStudies;
  if (withdrawnAt !== null) {
    return (
      <Note kind="remark" title={said.withdrawn}>
        {said.withdrawnWhy(withdrawnBecause ?? "")}
      </Note>
    );
  }
  if (supersededBy === null) return null;
  return (
    <Note kind="remark" title={said.superseded}>
      <Filled
        text={said.supersededBy}
        holes={{
          study: <Link href={`/gauges/studies/${supersededBy}`}>{said.study(supersededBy)}</Link>,
        }}
      />
    </Note>
  );
}

function View({ study: { data, result, settings, unit } }: { study: Study }) {
  if (result.kind === "crossed" && data.kind === "crossed")
    return <CrossedView result={result} readings={data.readings} settings={settings} unit={unit} />;
  if (result.kind === "type-1" && data.kind === "type-1")
    return <TypeOneView result={result} data={data} settings={settings} unit={unit} />;
  if (result.kind === "bias-linearity" && data.kind === "bias-linearity")
    return <LinearityView result={result} readings={data.readings} settings={settings} unit={unit} />;
  if (result.kind === "setup" && data.kind === "setup")
    return <SetupView result={result} readings={data.readings} settings={settings} unit={unit} />;
  throw new Error("A study's readings and its result are of different kinds.");
}

function capital(name: string): string {
  return name.slice(0, 1).toUpperCase() + name.slice(1);
}
