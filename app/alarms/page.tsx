import { latestNewsId } from "../../db/queries/news";
import { requirePage } from "../access";
import { database } from "../database";
import { LinkButton } from "../fittings/controls";
import { FollowNews } from "../fittings/follow-news";
import { Note } from "../fittings/note";
import { PageFrame, Section } from "../fittings/page-frame";
import { words } from "../language/language";
import { plant } from "../plant";
import { AlarmCard } from "./alarm-card";
import styles from "./alarms.module.css";
import { AlarmCall } from "./call";
import { GroupSection } from "./group-section";
import { loadQueue } from "./load-queue";
import { MOST_CARDS, MoreAlarms } from "./more-alarms";

export async function generateMetadata() {
  return { title: (await words()).alarms.title };
}

/** The queue: every alarm that still wants a person, those of one source together. */
export default async function AlarmsPage() {
  await requirePage("/alarms");
  const since = await latestNewsId(await database());
  const { zone, now } = await plant();
  const { alarms: said } = await words();
  const { groups, shelved, closed, features } = await loadQueue();
  const waiting = groups.flatMap(({ alarms }) => alarms);
  const alone = groups.flatMap(({ source, alarms }) => (source === null ? alarms : []));
  const unseen = waiting.filter(({ acknowledgedAt }) => acknowledgedAt === null).length;

  return (
    <PageFrame
      term="alarm"
      title={said.title}
      purpose={said.purpose}
      facts={
        <>
          <span>{said.facts.open(waiting.length)}</span>
          <span>{said.facts.unseen(unseen)}</span>
          {shelved.length > 0 ? <span>{said.facts.shelved(shelved.length)}</span> : null}
        </>
      }
      actions={
        <>
          <LinkButton href="/handover">{said.toHandover}</LinkButton>
          <LinkButton href="/alarms/performance">{said.toPerformance}</LinkButton>
        </>
      }
    >
      <FollowNews since={since} kinds={["alarm"]} />
      <AlarmCall since={since} words={said.call} />
      {waiting.length === 0 ? (
        <Note kind="empty" title={said.nothing}>
          {features === 0 ? said.noFeatures : said.watched(features)}
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
        <Section title={alone.length === waiting.length ? said.open : said.alone} id="alone">
          <ul className={styles.list}>
            {alone.slice(0, MOST_CARDS).map((alarm) => (
              <AlarmCard key={alarm.id} alarm={alarm} zone={zone} now={now} />
            ))}
          </ul>
          <MoreAlarms count={alone.length} />
        </Section>
      ) : null}
      {shelved.length > 0 ? (
        <Section title={said.shelved} id="shelved" purpose={said.shelvedPurpose}>
          <ul className={styles.list}>
            {shelved.slice(0, MOST_CARDS).map((alarm) => (
              <AlarmCard key={alarm.id} alarm={alarm} zone={zone} now={now} />
            ))}
          </ul>
          <MoreAlarms count={shelved.length} />
        </Section>
      ) : null}
      {closed.length > 0 ? (
        <Section title={said.closedLately} id="closed">
          <details className={styles.fold}>
            <summary>{said.lastClosed(closed.length)}</summary>
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
