import { use } from "react";
import type { AlarmRow } from "../../db/queries/alarms";
import { shownState } from "../../lib/alarms/alarm-state";
import { storedExcursionIn } from "../../lib/evaluation/excursion-words";
import { Filled } from "../fittings/filled";
import { Link } from "../fittings/link";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import { words } from "../language/language";
import styles from "./alarms.module.css";

/** The alarms of one feature that are not closed; each leads to its page, where it is answered. */
export function OpenAlarms({ alarms, zone }: { alarms: readonly AlarmRow[]; zone: string }) {
  const { alarms: said, rules } = use(words());
  if (alarms.length === 0) return null;
  const shelved = alarms.filter((alarm) => shownState(alarm) === "shelved").length;
  return (
    <section aria-labelledby="open-alarms" className={styles.open}>
      <h2 id="open-alarms">{said.openOnFeature.title(alarms.length - shelved, shelved)}</h2>
      <ul className={styles.list}>
        {alarms.map((alarm) => (
          <li key={alarm.id} className={`${styles.card} ${styles[shownState(alarm)]}`}>
            <div className={styles.cardHead}>
              <p className={styles.cardName}>
                <Link href={`/alarms/${alarm.id}`} className={styles.cover}>
                  {storedExcursionIn(alarm.words, rules)}
                </Link>
              </p>
              <StateWord state={shownState(alarm)} />
            </div>
            <p className={styles.soft}>
              <Filled
                text={said.openOnFeature.first}
                holes={{
                  first: <When at={alarm.firstAt} zone={zone} />,
                  latest: <When at={alarm.latestAt} zone={zone} />,
                }}
              />
              {alarm.withdrawnAt === null ? "." : `. ${said.card.withdrawn}.`}
            </p>
            <p className={styles.next}>{said.openOnFeature.lead}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}
