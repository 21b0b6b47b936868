import { latestOf } from "../../../lib/alarms/alarm-event";
import { isOver } from "../../../lib/alarms/alarm-state";
import { verificationWords } from "../../../lib/alarms/verification";
import { counted } from "../../../lib/format/numbers";
import { TextField } from "../../fittings/fields";
import { Note } from "../../fittings/note";
import { When } from "../../fittings/when";
import { ActForm } from "../act-form";
import styles from "../alarm.module.css";
import { FindForm } from "./find-form";
import type { ShownAlarm } from "./load-alarm";

/** Cause, action, whether the action worked, and the end of the alarm. */
export function Finding({ shown, mayAct, zone }: { shown: ShownAlarm; mayAct: boolean; zone: string }) {
  const { alarm, events, verification, seen, causes } = shown;
  const cause = latestOf(events, "cause");
  const action = latestOf(events, "action");
  const closed = latestOf(events, "closed");
  const isClosed = alarm.state === "closed";
  return (
    <>
      <dl className={styles.found}>
        <div>
          <dt>Cause</dt>
          <dd>
            {cause ? (
              <>
                {cause.detail.cause} <By by={cause.by} at={cause.at} zone={zone} />
              </>
            ) : (
              "not named yet"
            )}
          </dd>
        </div>
        <div>
          <dt>Done</dt>
          <dd>
            {action ? (
              <>
                {action.note} <By by={action.by} at={action.at} zone={zone} />
              </>
            ) : (
              "not written down yet"
            )}
          </dd>
        </div>
        <div>
          <dt>Verification</dt>
          <dd>
            {isClosed && closed?.detail.good !== undefined
              ? `${counted(closed.detail.good, "good subgroup")} when it was closed; the plan asked for ${closed.detail.wanted}.`
              : verificationWords(verification, action ? "action" : "signal")}
            {isClosed ? null : <Gauge good={verification.good} wanted={verification.wanted} />}
          </dd>
        </div>
      </dl>
      {mayAct ? (
        <FindForm
          alarmId={alarm.id}
          seen={seen}
          causes={causes}
          named={cause?.detail.cause ?? ""}
          isWanted={!isClosed}
        />
      ) : null}
      {mayAct ? <Ending shown={shown} /> : null}
    </>
  );
}

function Ending({ shown }: { shown: ShownAlarm }) {
  const { alarm, events, seen, verification } = shown;
  const isClosed = alarm.state === "closed";
  const missing = [
    ...(isOver(alarm) ? [] : ["the feature back to normal"]),
    ...(alarm.withdrawnAt !== null || latestOf(events, "cause") ? [] : ["a cause"]),
    ...(alarm.withdrawnAt !== null || latestOf(events, "action") ? [] : ["what was done"]),
  ];
  const isEarly = alarm.withdrawnAt === null && !verification.isEnough;
  return (
    <>
      <ActForm
        alarmId={alarm.id}
        seen={seen}
        isWanted={!isClosed && missing.length === 0}
        otherwise={
          isClosed ? null : (
            <Note kind="not-yet" title="Not ready to be closed">
              Still wanted: {missing.join(", ")}. Nothing needs to be repaired.
            </Note>
          )
        }
        buttons={[{ does: "close", label: "Close the alarm", kind: isEarly ? "plain" : "main" }]}
      >
        <TextField label={closingWords(isEarly, alarm.withdrawnAt !== null)} name="note" maxLength={2000} />
      </ActForm>
      <ActForm
        alarmId={alarm.id}
        seen={seen}
        isWanted={isClosed}
        buttons={[{ does: "reopen", label: "Open it again" }]}
      >
        <TextField label="Why it is opened again" name="note" maxLength={2000} />
      </ActForm>
    </>
  );
}

function closingWords(isEarly: boolean, isWithdrawn: boolean): string {
  if (isEarly) return "Why it can be closed before enough good subgroups have followed";
  return isWithdrawn ? "Why the measurements changed" : "Remark on closing";
}

function By({ by, at, zone }: { by: string | null; at: number; zone: string }) {
  return (
    <span className={styles.soft}>
      ({by ?? "somebody"}, <When at={at} zone={zone} as="short" />)
    </span>
  );
}

/** One box for each good subgroup wanted, filled as they come. */
function Gauge({ good, wanted }: { good: number; wanted: number }) {
  const boxes = Array.from({ length: Math.min(wanted, 20) }, (_, i) => i);
  return (
    <svg
      className={styles.gauge}
      viewBox={`0 0 ${boxes.length * 18} 14`}
      width={boxes.length * 18}
      height="14"
      aria-hidden="true"
      focusable="false"
    >
      {boxes.map((i) => (
        <rect
          key={i}
          className={i < good ? styles.full : styles.empty}
          x={i * 18 + 1}
          y="1"
          width="13"
          height="12"
        />
      ))}
    </svg>
  );
}
