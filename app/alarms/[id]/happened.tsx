import { latestOf } from "../../../lib/alarms/alarm-event";
import { nextStepWords } from "../../../lib/alarms/alarm-state";
import { whatHappened } from "../../../lib/alarms/what-happened";
import { shortMomentIn } from "../../../lib/format/times";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { When } from "../../fittings/when";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";

/** What the measurements did, as sentences, and where they came from. */
export function Happened({ shown, zone }: { shown: ShownAlarm; zone: string }) {
  const { alarm, events, rules, origin, together, history } = shown;
  const sentences = whatHappened(rules, history.feature.plan.chart);
  const next = nextStepWords({
    ...alarm,
    hasCause: latestOf(events, "cause") !== null,
    hasAction: latestOf(events, "action") !== null,
  });
  return (
    <div className={styles.happened}>
      <p className={styles.large}>{sentences.length > 0 ? sentences.join(" ") : `${alarm.words}.`}</p>
      {origin.length > 0 ? <p>The first signal came from {origin.join(", ")}.</p> : null}
      {together ? (
        <p>
          {together.sentence ?? `Other features on ${together.source} signalled at the same time.`} Open
          alarms on {together.source} as well:{" "}
          {together.alarms.map(({ id: other, name }, i) => (
            <span key={other}>
              {i > 0 ? "; " : ""}
              <Link href={`/alarms/${other}`}>{name}</Link>
            </span>
          ))}
          . Look there first.
        </p>
      ) : null}
      {alarm.withdrawnAt !== null ? (
        <Note kind="remark" title="The measurements behind it have changed">
          They were undone, corrected or left out {shortMomentIn(alarm.withdrawnAt, zone)} and give no signal
          any more. What people wrote stays. Close the alarm with a remark.
        </Note>
      ) : null}
      {alarm.state === "shelved" ? (
        <Note
          kind="remark"
          title={
            <>
              Shelved until <When at={alarm.shelvedUntil} zone={zone} />
            </>
          }
        >
          {latestOf(events, "shelved")?.note} It comes back by itself.
        </Note>
      ) : next === "" ? null : (
        <p className={styles.next}>{next}</p>
      )}
    </div>
  );
}
