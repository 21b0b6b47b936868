import { tickedSteps } from "../../../lib/alarms/alarm-event";
import { counted } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import { ActForm } from "../act-form";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";

/** The reaction plan as steps: a large row each, ticked by pressing it. */
export function Steps({ shown, mayAct, zone }: { shown: ShownAlarm; mayAct: boolean; zone: string }) {
  const { alarm, plan, newerPlan, events, seen } = shown;
  const ticked = tickedSteps(events);
  const rows = plan.steps.map((words, step) => ({ step, words, done: ticked.get(step) ?? null }));
  return (
    <>
      <p className={styles.soft}>
        {PLAN_WORDS[plan.of]}
        {plan.id === null ? "" : `, version ${plan.version}`}. {ticked.size} of{" "}
        {counted(plan.steps.length, "step")} ticked.
        {newerPlan
          ? ` Another ${newerPlan.id === null ? "one" : `version, ${newerPlan.version},`} holds for alarms raised from now on.`
          : ""}
      </p>
      {mayAct && alarm.state !== "closed" ? (
        <ActForm alarmId={alarm.id} seen={seen} buttons={[]}>
          <ol className={styles.steps}>
            {rows.map(({ step, words, done }) => (
              <li key={step}>
                <button
                  type="submit"
                  name="do"
                  value={`${done ? "untick" : "tick"} ${step}`}
                  aria-pressed={done !== null}
                  className={styles.step}
                >
                  <Box isTicked={done !== null} />
                  <span>
                    {step + 1}. {words}
                    {done ? <Who by={done.by} at={done.at} zone={zone} /> : null}
                  </span>
                </button>
              </li>
            ))}
          </ol>
        </ActForm>
      ) : (
        <ol className={styles.steps}>
          {rows.map(({ step, words, done }) => (
            <li key={step} className={styles.step}>
              <Box isTicked={done !== null} />
              <span>
                {step + 1}. {words}{" "}
                {done ? (
                  <Who by={done.by} at={done.at} zone={zone} />
                ) : (
                  <span className={styles.soft}>(not ticked)</span>
                )}
              </span>
            </li>
          ))}
        </ol>
      )}
    </>
  );
}

const PLAN_WORDS = {
  feature: "The reaction plan of this feature",
  part: "The reaction plan of this part",
  default:
    "The usual plan for features of this kind; an engineer can write one of your own in the control plan",
} as const;

function Who({ by, at, zone }: { by: string | null; at: number; zone: string }) {
  return (
    <span className={styles.who}>
      {by ?? "somebody"}, {shortMomentIn(at, zone)}
    </span>
  );
}

function Box({ isTicked }: { isTicked: boolean }) {
  return (
    <svg
      className={styles.box}
      viewBox="0 0 24 24"
      width="28"
      height="28"
      aria-hidden="true"
      focusable="false"
    >
      <path d="M3 3h18v18H3Z" />
      {isTicked ? <path d="M6.5 12.5 10.5 16.5 18 7.5" /> : null}
    </svg>
  );
}
