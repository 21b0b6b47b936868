import { notFound } from "next/navigation";
import { studyById } from "../../../../db/queries/gauges";
import { unitSign } from "../../../../lib/format/numbers";
import { calendarDayWords } from "../../../../lib/format/times";
import { studyResult } from "../../../../lib/measurement-systems/study-data";
import { shownGaugeStudy } from "../../../../lib/units/shown-gauge-study";
import { mayRun, requirePage } from "../../../access";
import { database } from "../../../database";
import { LinkButton } from "../../../fittings/controls";
import { Link } from "../../../fittings/link";
import { Note } from "../../../fittings/note";
import { PageFrame, Section } from "../../../fittings/page-frame";
import { When } from "../../../fittings/when";
import { plant } from "../../../plant";
import { KIND_WORDS } from "../../gauge-words";
import { headline } from "../../study-words";
import { CrossedView } from "./crossed-view";
import { LinearityView } from "./linearity-view";
import { SetupView } from "./setup-view";
import styles from "./study.module.css";
import { TypeOneView } from "./type-one-view";
import { WithdrawForm } from "./withdraw-form";

type Address = { params: Promise<{ id: string }> };

export async function generateMetadata({ params }: Address) {
  return { title: `Gauge study ${(await params).id}` };
}

/** One study: what it found, the way to each figure, and its readings. */
export default async function StudyPage({ params }: Address) {
  const person = await requirePage("/gauges/studies/[id]");
  const id = Number((await params).id);
  const study = Number.isSafeInteger(id) ? await studyById(await database(), id) : null;
  if (!study) notFound();
  const { zone, lengths } = await plant();
  const { gauge, feature, data } = study;
  const anew = studyResult(data, study.settings);
  const isSame = anew.ok && JSON.stringify(anew.result) === JSON.stringify(study.result);
  // Kept figures that the program would compute otherwise by now stand as they are, in their own unit.
  const shown = { ...study, ...(isSame ? shownGaugeStudy(study, lengths) : null) };
  const { unit } = shown;
  return (
    <PageFrame
      title={`${capital(KIND_WORDS[study.kind])} ${id} of ${gauge.code}`}
      above={
        <>
          <Link href="/gauges">Gauges</Link> · <Link href={`/gauges/${gauge.id}`}>{gauge.code}</Link>
        </>
      }
      facts={
        <>
          <span>made on {calendarDayWords(study.madeOn)}</span>
          <span>
            on{" "}
            {feature ? (
              <Link href={`/features/${feature.id}`}>
                {feature.part} {feature.name}
              </Link>
            ) : (
              "no feature of the control plan"
            )}
          </span>
          <span>readings {unitSign(unit) === "" ? "without a unit" : `in ${unitSign(unit)}`}</span>
          <span>
            entered <When at={study.enteredAt} zone={zone} />
            {study.by ? ` by ${study.by}` : ""}
          </span>
        </>
      }
      actions={
        <LinkButton href={`/api/gauges/studies/${id}/readings`}>Download the readings (CSV)</LinkButton>
      }
    >
      <State study={study} />
      <p className={styles.headline}>{headline(shown)}</p>
      {study.note === "" ? null : <p className={styles.soft}>{study.note}</p>}
      <View study={shown} />
      <Section title="Before it is used">
        <ul className={styles.remarks}>
          <li>
            A study speaks of these parts, these people and that day. Repeat it after a repair, a calibration
            with a correction, or a change of clamping or program.
          </li>
          <li>
            It says how much the gauge scatters, not whether it reads right: for that take a bias study and
            the calibration certificate. Whether a gauge may be used follows the drawing, the customer's
            requirements and the shop's own procedure under its qualified people.
          </li>
          <li>
            {isSame
              ? "Computed anew from the readings just now, every figure is the one that was kept."
              : "Computed anew from the readings, the figures differ from those that were kept: the program has changed since. Shown are those that were kept."}
          </li>
        </ul>
        {study.withdrawnAt === null && mayRun(person, "withdrawGaugeStudy") ? (
          <WithdrawForm studyId={id} />
        ) : null}
      </Section>
    </PageFrame>
  );
}

type Study = NonNullable<Awaited<ReturnType<typeof studyById>>>;

function State({ study: { supersededBy, withdrawnAt, withdrawnBecause } }: { study: Study }) {
  if (withdrawnAt !== null) {
    return (
      <Note kind="remark" title="Withdrawn">
        It counts for no feature any more: {withdrawnBecause}
      </Note>
    );
  }
  if (supersededBy === null) return null;
  return (
    <Note kind="remark" title="Superseded">
      A newer one is in force: <Link href={`/gauges/studies/${supersededBy}`}>study {supersededBy}</Link>.
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

function capital(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}
