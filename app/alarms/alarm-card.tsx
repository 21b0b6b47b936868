import { latestOf } from "../../lib/alarms/alarm-event";
import { shownState } from "../../lib/alarms/alarm-state";
import { partName } from "../../lib/format/names";
import { counted } from "../../lib/format/numbers";
import { Link } from "../fittings/link";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import styles from "./alarms.module.css";
import type { QueuedAlarm } from "./load-queue";

/** One alarm in a list: the whole card leads to its page. */
export function AlarmCard({ alarm, zone, now }: { alarm: QueuedAlarm; zone: string; now: number }) {
  const { id, feature, happened, firstAt, latestAt, withdrawnAt, shelvedUntil, held, next, events } = alarm;
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
            {feature.keyCharacteristic ? ", key characteristic" : ""}
          </span>
        </p>
        <StateWord state={state} />
      </div>
      <p>{happened}</p>
      <p className={styles.soft}>
        Since <When at={firstAt} zone={zone} as="short" />, latest{" "}
        <When at={latestAt} zone={zone} as="ago" now={now} />
        {seenBy ? `. Acknowledged by ${seenBy.by ?? "somebody"}` : ""}
        {held > 0 ? `. ${counted(held, "piece")} on hold` : ""}
        {cause ? `. Cause: ${cause}` : ""}
        {withdrawnAt === null
          ? "."
          : ". The measurements it rested on were undone, corrected or left out since."}
      </p>
      {alarm.state === "shelved" ? (
        <p>
          Shelved until <When at={shelvedUntil} zone={zone} />: {latestOf(events, "shelved")?.note}
        </p>
      ) : next === "" ? null : (
        <p className={styles.next}>{next}</p>
      )}
    </li>
  );
}
