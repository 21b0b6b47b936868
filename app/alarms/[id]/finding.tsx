import { use } from "react";
import { latestOf } from "../../../lib/alarms/alarm-event";
import { isOver } from "../../../lib/alarms/alarm-state";
import { verificationWords } from "../../../lib/alarms/verification";
import type { Words } from "../../../lib/words/words";
import { TextField } from "../../fittings/fields";
import { Note } from "../../fittings/note";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { ActForm } from "../act-form";
import styles from "../alarm.module.css";
import { FindForm } from "./find-form";
import type { ShownAlarm } from "./load-alarm";

/** Cause, action, whether the action worked, and the end of the alarm. */
export function Finding({ shown, mayAct, zone }: { shown: ShownAlarm; mayAct: boolean; zone: string }) {
  const { finding: said, find } = use(words()).alarms;
  const { alarm, events, verification, seen, causes } = shown;
  const cause = latestOf(events, "cause");
  const action = latestOf(events, "action");
  const closed = latestOf(events, "closed");
  const isClosed = alarm.state === "closed";
  return (
    <>
      <dl className={styles.found}>
        <div>
          <dt>{said.cause}</dt>
          <dd>
            {cause ? (
              <>
                {cause.detail.cause} <By by={cause.by} at={cause.at} zone={zone} />
              </>
            ) : (
              said.noCause
            )}
          </dd>
        </div>
        <div>
          <dt>{said.done}</dt>
          <dd>
            {action ? (
              <>
                {action.note} <By by={action.by} at={action.at} zone={zone} />
              </>
            ) : (
              said.notDone
            )}
          </dd>
        </div>
        <div>
          <dt>{said.verification}</dt>
          <dd>
            {isClosed && closed?.detail.good !== undefined
              ? said.whenClosed(closed.detail.good, closed.detail.wanted ?? 0)
              : verificationWords(verification, action ? "action" : "signal", said)}
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
          words={find}
        />
      ) : null}
      {mayAct ? <Ending shown={shown} /> : null}
    </>
  );
}

function Ending({ shown }: { shown: ShownAlarm }) {
  const { finding: said } = use(words()).alarms;
  const { alarm, events, seen, verification } = shown;
  const isClosed = alarm.state === "closed";
  const missing = [
    ...(isOver(alarm) ? [] : [said.wanted.normal]),
    ...(alarm.withdrawnAt !== null || latestOf(events, "cause") ? [] : [said.wanted.cause]),
    ...(alarm.withdrawnAt !== null || latestOf(events, "action") ? [] : [said.wanted.done]),
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
            <Note kind="not-yet" title={said.notReady}>
              {said.stillWanted(missing.join(", "))}
            </Note>
          )
        }
        buttons={[{ does: "close", label: said.close, kind: isEarly ? "plain" : "main" }]}
      >
        <TextField
          label={closingWords(isEarly, alarm.withdrawnAt !== null, said)}
          name="note"
          maxLength={2000}
        />
      </ActForm>
      <ActForm
        alarmId={alarm.id}
        seen={seen}
        isWanted={isClosed}
        buttons={[{ does: "reopen", label: said.reopen }]}
      >
        <TextField label={said.whyReopen} name="note" maxLength={2000} />
      </ActForm>
    </>
  );
}

function closingWords(isEarly: boolean, isWithdrawn: boolean, said: Words["alarms"]["finding"]): string {
  if (isEarly) return said.whyEarly;
  return isWithdrawn ? said.whyChanged : said.remark;
}

function By({ by, at, zone }: { by: string | null; at: number; zone: string }) {
  const { card } = use(words()).alarms;
  return (
    <span className={styles.soft}>
      ({by ?? card.somebody}, <When at={at} zone={zone} as="short" />)
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
