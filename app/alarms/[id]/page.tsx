import { notFound } from "next/navigation";
import { latestNewsId } from "../../../db/queries/news";
import { shownState } from "../../../lib/alarms/alarm-state";
import { partName } from "../../../lib/format/names";
import { toleranceWords } from "../../../lib/format/numbers";
import { momentIn } from "../../../lib/format/times";
import { requirePage } from "../../access";
import { database } from "../../database";
import { LinkButton } from "../../fittings/controls";
import { TextField } from "../../fittings/fields";
import { Filled } from "../../fittings/filled";
import { FollowNews } from "../../fittings/follow-news";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { SignerFrame } from "../../fittings/signer";
import { StateWord } from "../../fittings/state-word";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { toleranceAsDrawn } from "../../shown/lengths";
import { signersFor } from "../../signer";
import { ActForm } from "../act-form";
import styles from "../alarm.module.css";
import { Earlier } from "./earlier";
import { Finding } from "./finding";
import { Happened } from "./happened";
import { glanceAt, LastPoints } from "./last-points";
import { loadAlarm } from "./load-alarm";
import { OtherActs, shelfEnds } from "./other-acts";
import { Pieces } from "./pieces";
import { Seen } from "./seen";
import { Steps } from "./steps";
import { Story } from "./story";

export async function generateMetadata() {
  return { title: (await words()).alarms.page.tab };
}

/** One alarm's whole life: what happened, what to do, which pieces, what it was, and who did what. */
export default async function AlarmPage({ params }: { params: Promise<{ id: string }> }) {
  const person = await requirePage("/alarms/[id]");
  const since = await latestNewsId(await database());
  const id = Number((await params).id);
  const shown = Number.isInteger(id) ? await loadAlarm(id) : null;
  if (!shown) notFound();
  const { zone, now } = await plant();
  const said = await words();
  const { page, card } = said.alarms;
  const { alarm, history, evaluation, suspect } = shown;
  const { feature } = history;
  const drawn = await toleranceAsDrawn(await database(), feature.id);
  const signers = await signersFor(person);
  const mayAct = signers.own !== null || signers.others.length > 0;
  const plot =
    shown.rules.length > 0 && shown.rules.every(({ chart }) => chart === "spread") ? "spread" : "location";
  const glance = glanceAt(history, evaluation, { latestAt: alarm.latestAt, plot });

  return (
    <PageFrame
      title={feature.name}
      above={
        <>
          <Link href="/alarms">{said.alarms.title}</Link>, {partName(feature.part)} {feature.part.name}
        </>
      }
      facts={
        <>
          <StateWord state={shownState(alarm)} />
          <span>
            <Filled
              text={card.since}
              holes={{
                first: <When at={alarm.firstAt} zone={zone} />,
                latest: <When at={alarm.latestAt} zone={zone} as="ago" now={now} />,
              }}
            />
          </span>
          <span>{toleranceWords(feature.plan.tolerance, feature, said.figures)}</span>
          {drawn === null ? null : <span>{drawn}</span>}
          {feature.keyCharacteristic ? <span>{card.key}</span> : null}
        </>
      }
      actions={
        <LinkButton href={`/features/${feature.id}?from=${alarm.firstAt}`}>{page.wholeChart}</LinkButton>
      }
    >
      <FollowNews since={since} kinds={["alarm", "intake", "feature"]} featureId={feature.id} />
      <SignerFrame signers={signers}>
        <div className={styles.columns}>
          <div className={styles.column}>
            <Section title={page.happened} id="happened">
              <Happened shown={shown} zone={zone} />
              {mayAct ? (
                <ActForm
                  alarmId={alarm.id}
                  seen={shown.seen}
                  isWanted={alarm.acknowledgedAt === null && alarm.state !== "closed"}
                  otherwise={<Seen events={shown.events} zone={zone} />}
                  className={styles.now}
                  buttons={[{ does: "acknowledge", label: page.acknowledge, kind: "main" }]}
                >
                  <TextField label={page.whatYouSee} name="note" maxLength={2000} />
                </ActForm>
              ) : null}
              {mayAct ? null : <Note kind="remark">{page.onlyRead}</Note>}
              {glance ? <LastPoints glance={glance} suspect={suspect} history={history} zone={zone} /> : null}
            </Section>
            <Section title={page.pieces} id="pieces" term="containment">
              <Pieces shown={shown} mayAct={mayAct} zone={zone} />
            </Section>
          </div>
          <div className={styles.column}>
            <Section title={page.plan} id="plan" term="reaction-plan">
              <Steps shown={shown} mayAct={mayAct} zone={zone} />
            </Section>
            <Section title={page.finding} id="finding">
              <Finding shown={shown} mayAct={mayAct} zone={zone} />
            </Section>
          </div>
        </div>
        <Section title={page.story} id="story" purpose={page.storyPurpose}>
          {mayAct ? (
            <OtherActs shown={shown} endsWords={shelfEnds(now, (at) => momentIn(at, zone, said.times))} />
          ) : null}
          <Story events={shown.events} zone={zone} />
        </Section>
        {shown.earlier.length > 0 ? (
          <Section title={page.earlier} id="earlier">
            <Earlier earlier={shown.earlier} zone={zone} />
          </Section>
        ) : null}
      </SignerFrame>
    </PageFrame>
  );
}
