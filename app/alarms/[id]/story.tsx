import { use } from "react";
import { deedWords } from "../../../lib/alarms/alarm-event";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";

/** Everything that happened to the alarm, the latest first. Nothing of it can be changed. */
export function Story({ events, zone }: Pick<ShownAlarm, "events"> & { zone: string }) {
  const said = use(words());
  return (
    <ol className={styles.story} reversed>
      {[...events].reverse().map((event) => (
        <li key={event.id}>
          <span className={styles.soft}>
            <When at={event.at} zone={zone} as="short" />
          </span>
          <span>
            {event.by ? <strong>{event.by}</strong> : said.alarms.byItself} {deedWords(event, zone, said)}
            {event.note ? <q className={styles.quote}>{event.note}</q> : null}
          </span>
        </li>
      ))}
    </ol>
  );
}
