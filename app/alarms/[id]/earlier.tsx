import { use } from "react";
import { latestOf } from "../../../lib/alarms/alarm-event";
import { Link } from "../../fittings/link";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";

/** What it was the last times: the first thing a person at the line asks. */
export function Earlier({ earlier, zone }: Pick<ShownAlarm, "earlier"> & { zone: string }) {
  const { page } = use(words()).alarms;
  return (
    <ol className={styles.story}>
      {earlier.map(({ alarm, events }) => {
        const cause = latestOf(events, "cause")?.detail.cause;
        const action = latestOf(events, "action")?.note;
        return (
          <li key={alarm.id}>
            <Link href={`/alarms/${alarm.id}`}>
              <When at={alarm.firstAt} zone={zone} as="short" />
            </Link>
            <span>
              {cause ? <strong>{cause}.</strong> : page.noCause} {action}
            </span>
          </li>
        );
      })}
    </ol>
  );
}
