import type { Account } from "../../db/queries/accounts";
import type { AlarmRow } from "../../db/queries/alarms";
import { mayRun } from "../access";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import { AcknowledgeForm } from "./acknowledge-form";
import styles from "./alarms.module.css";

/** The alarms of one feature that are not closed, each with what happened, since when, and a way to answer it. */
export function OpenAlarms({
  alarms,
  person,
  zone,
}: {
  alarms: readonly AlarmRow[];
  person: Account;
  zone: string;
}) {
  if (alarms.length === 0) return null;
  return (
    <section aria-labelledby="open-alarms" className={styles.alarms}>
      <h2 id="open-alarms">{alarms.length === 1 ? "One open alarm" : `${alarms.length} open alarms`}</h2>
      <ul className={styles.list}>
        {alarms.map((alarm) => (
          <li key={alarm.id} className={styles.alarm}>
            <p>
              <StateWord state={stateOf(alarm)} /> <strong>{alarm.words}</strong>
            </p>
            <p className={styles.times}>
              First signal <When at={alarm.firstAt} zone={zone} />, latest{" "}
              <When at={alarm.latestAt} zone={zone} />
              {alarm.withdrawnAt === null
                ? null
                : ". The measurements it rested on were undone, corrected or left out since."}
            </p>
            {mayRun(person, "acknowledge") && needsAnswer(alarm) ? (
              <AcknowledgeForm alarmId={alarm.id} closes={isOver(alarm)} />
            ) : null}
          </li>
        ))}
      </ul>
    </section>
  );
}

function isOver({ returnedAt, withdrawnAt }: AlarmRow): boolean {
  return returnedAt !== null || withdrawnAt !== null;
}

function stateOf(alarm: AlarmRow): AlarmRow["state"] {
  return alarm.state === "unacknowledged" && alarm.returnedAt !== null ? "returned" : alarm.state;
}

function needsAnswer(alarm: AlarmRow): boolean {
  return alarm.state !== "acknowledged" || isOver(alarm);
}
