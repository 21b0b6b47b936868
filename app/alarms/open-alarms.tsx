import type { AlarmRow } from "../../db/queries/alarms";
import { shownState } from "../../lib/alarms/alarm-state";
import { Link } from "../fittings/link";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import styles from "./alarms.module.css";

/** The alarms of one feature that are not closed; each leads to its page, where it is answered. */
export function OpenAlarms({ alarms, zone }: { alarms: readonly AlarmRow[]; zone: string }) {
  if (alarms.length === 0) return null;
  return (
    <section aria-labelledby="open-alarms" className={styles.open}>
      <h2 id="open-alarms">{alarms.length === 1 ? "One open alarm" : `${alarms.length} open alarms`}</h2>
      <ul className={styles.list}>
        {alarms.map((alarm) => (
          <li key={alarm.id} className={`${styles.card} ${styles[shownState(alarm)]}`}>
            <div className={styles.cardHead}>
              <p className={styles.cardName}>
                <Link href={`/alarms/${alarm.id}`} className={styles.cover}>
                  {alarm.words}
                </Link>
              </p>
              <StateWord state={shownState(alarm)} />
            </div>
            <p className={styles.soft}>
              First signal <When at={alarm.firstAt} zone={zone} />, latest{" "}
              <When at={alarm.latestAt} zone={zone} />
              {alarm.withdrawnAt === null
                ? "."
                : ". The measurements it rested on were undone, corrected or left out since."}
            </p>
            <p className={styles.next}>What happened, what to do, and who did what</p>
          </li>
        ))}
      </ul>
    </section>
  );
}
