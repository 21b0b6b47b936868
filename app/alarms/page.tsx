import { latestNewsId } from "../../db/queries/news";
import { counted } from "../../lib/format/numbers";
import { requirePage } from "../access";
import { database } from "../database";
import { LinkButton } from "../fittings/controls";
import { FollowNews } from "../fittings/follow-news";
import { Note } from "../fittings/note";
import { PageFrame, Section } from "../fittings/page-frame";
import { plant } from "../plant";
import { AlarmCard } from "./alarm-card";
import styles from "./alarms.module.css";
import { AlarmCall } from "./call";
import { GroupSection } from "./group-section";
import { loadQueue } from "./load-queue";
import { MOST_CARDS, MoreAlarms } from "./more-alarms";

export const metadata = { title: "Alarms" };

/** The queue: every alarm that still wants a person, those of one source together. */
export default async function AlarmsPage() {
  await requirePage("/alarms");
  const since = await latestNewsId(await database());
  const { zone, now } = await plant();
  const { groups, shelved, closed, features } = await loadQueue();
  const waiting = groups.flatMap(({ alarms }) => alarms);
  const alone = groups.flatMap(({ source, alarms }) => (source === null ? alarms : []));
  const unseen = waiting.filter(({ acknowledgedAt }) => acknowledgedAt === null).length;

  return (
    <PageFrame
      title="Alarms"
      purpose="One excursion of a feature is one alarm. It stays here until its cause and what was done are written down and good subgroups have followed."
      facts={
        <>
          <span>{waiting.length === 0 ? "No open alarm" : counted(waiting.length, "open alarm")}</span>
          <span>{unseen === 0 ? "all acknowledged" : `${unseen} not acknowledged`}</span>
          {shelved.length > 0 ? <span>{shelved.length} shelved</span> : null}
        </>
      }
      actions={
        <>
          <LinkButton href="/handover">Handover</LinkButton>
          <LinkButton href="/alarms/performance">Alarm performance</LinkButton>
        </>
      }
    >
      <FollowNews since={since} kinds={["alarm"]} />
      <AlarmCall since={since} />
      {waiting.length === 0 ? (
        <Note kind="empty" title="Nothing needs a person now">
          {features === 0
            ? "Alarms appear by themselves once measurements of a feature leave their control limits or their pattern."
            : `${counted(features, "feature")} watched. A new alarm appears here by itself, without reloading.`}
        </Note>
      ) : null}
      {groups.map(({ source, ...group }) =>
        source === null ? null : (
          <GroupSection
            key={`${source.kind} ${source.code} ${group.alarms[0]?.id}`}
            group={{ source, ...group }}
            zone={zone}
            now={now}
          />
        ),
      )}
      {alone.length > 0 ? (
        <Section title={alone.length === waiting.length ? "Open" : "Each by itself"} id="alone">
          <ul className={styles.list}>
            {alone.slice(0, MOST_CARDS).map((alarm) => (
              <AlarmCard key={alarm.id} alarm={alarm} zone={zone} now={now} />
            ))}
          </ul>
          <MoreAlarms count={alone.length} />
        </Section>
      ) : null}
      {shelved.length > 0 ? (
        <Section
          title="Shelved"
          id="shelved"
          purpose="Set aside by a person for a while; each comes back by itself."
        >
          <ul className={styles.list}>
            {shelved.slice(0, MOST_CARDS).map((alarm) => (
              <AlarmCard key={alarm.id} alarm={alarm} zone={zone} now={now} />
            ))}
          </ul>
          <MoreAlarms count={shelved.length} />
        </Section>
      ) : null}
      {closed.length > 0 ? (
        <Section title="Closed lately" id="closed">
          <details className={styles.fold}>
            <summary>The last {counted(closed.length, "closed alarm")}</summary>
            <ul className={styles.list}>
              {closed.map((alarm) => (
                <AlarmCard key={alarm.id} alarm={alarm} zone={zone} now={now} />
              ))}
            </ul>
          </details>
        </Section>
      ) : null}
    </PageFrame>
  );
}
