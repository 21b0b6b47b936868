import { use } from "react";
import type { AlarmGroup, NamedSource } from "../../lib/alarms/group-alarms";
import { durationWords } from "../../lib/format/times";
import { Link } from "../fittings/link";
import { words } from "../language/language";
import { AlarmCard } from "./alarm-card";
import styles from "./alarms.module.css";
import { sourceWords } from "./grouping";
import type { QueuedAlarm } from "./load-queue";
import { MOST_CARDS, MoreAlarms } from "./more-alarms";

/** Alarms that may have one source, under a sentence that says why they stand together. */
export function GroupSection({
  group,
  zone,
  now,
}: {
  group: AlarmGroup<QueuedAlarm> & { source: NamedSource };
  zone: string;
  now: number;
}) {
  const said = use(words());
  const { group: text } = said.alarms;
  const { source, alarms, sentence } = group;
  const name = sourceWords(source, said);
  const cards = alarms
    .slice(0, MOST_CARDS)
    .map((alarm) => <AlarmCard key={alarm.id} alarm={alarm} zone={zone} now={now} />);
  const id = `group-${source.kind}-${source.code}-${alarms[0]?.id}`;
  return (
    <section className={styles.group} aria-labelledby={id}>
      <header className={styles.groupHead}>
        <h2 id={id}>{text.title(alarms.length, name)}</h2>
        <p>
          {sentence ?? text.shared(durationWords(spanOf(alarms), said.times), name)}{" "}
          <Link href="/drift">{text.toDrift}</Link>
        </p>
      </header>
      <ul className={styles.list}>{cards}</ul>
      <MoreAlarms count={alarms.length} />
    </section>
  );
}

function spanOf(alarms: readonly QueuedAlarm[]): number {
  const times = alarms.map(({ firstAt }) => firstAt);
  // Rounded up to the minute, so that alarms of one minute do not read "within 0 s".
  return Math.max(...times) - Math.min(...times) + 60_000;
}
