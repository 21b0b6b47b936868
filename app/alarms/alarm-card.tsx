import { use } from "react";
import { latestOf } from "../../lib/alarms/alarm-event";
import { shownState } from "../../lib/alarms/alarm-state";
import { partName } from "../../lib/format/names";
import { Filled } from "../fittings/filled";
import { Link } from "../fittings/link";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import { words } from "../language/language";
import styles from "./alarms.module.css";
import type { QueuedAlarm } from "./load-queue";

/** One alarm in a list: the whole card leads to its page. */
export function AlarmCard({ alarm, zone, now }: { alarm: QueuedAlarm; zone: string; now: number }) {
  const { id, feature, happened, firstAt, latestAt, withdrawnAt, shelvedUntil, held, next, events } = alarm;
  const { card } = use(words()).alarms;
  const seenBy = latestOf(events, "acknowledged");
  const cause = latestOf(events, "cause")?.detail.cause;
  const state = shownState(alarm);
  return (
    <li className={`${styles.card} ${styles[state]}`}>
      <div className={styles.cardHead}>
        <p className={styles.cardName}>
          <Link href={`/alarms/${id}`} className={styles.cover}>
            {feature.name}
          </Link>{" "}
          <span className={styles.soft}>
            {partName(feature.part)}
            {feature.keyCharacteristic ? `, ${card.key}` : ""}
          </span>
        </p>
        <StateWord state={state} />
      </div>
      <p>{happened}</p>
      <p className={styles.soft}>
        <Filled
          text={card.since}
          holes={{
            first: <When at={firstAt} zone={zone} as="short" />,
            latest: <When at={latestAt} zone={zone} as="ago" now={now} />,
          }}
        />
        {seenBy ? `. ${card.seenBy(seenBy.by ?? card.somebody)}` : ""}
        {held > 0 ? `. ${card.onHold(held)}` : ""}
        {cause ? `. ${card.cause(cause)}` : ""}
        {withdrawnAt === null ? "." : `. ${card.withdrawn}.`}
      </p>
      {alarm.state === "shelved" ? (
        <p>
          <Filled text={card.shelvedUntil} holes={{ until: <When at={shelvedUntil} zone={zone} /> }} />:{" "}
          {latestOf(events, "shelved")?.note}
        </p>
      ) : next === "" ? null : (
        <p className={styles.next}>{next}</p>
      )}
    </li>
  );
}
