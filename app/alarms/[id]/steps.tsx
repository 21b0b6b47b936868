import { use } from "react";
import { tickedSteps } from "../../../lib/alarms/alarm-event";
import { shortMomentIn } from "../../../lib/format/times";
import { words } from "../../language/language";
import { ActForm } from "../act-form";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";

/** The reaction plan as steps: a large row each, ticked by pressing it. */
export function Steps({ shown, mayAct, zone }: { shown: ShownAlarm; mayAct: boolean; zone: string }) {
  const { alarm, plan, newerPlan, events, seen } = shown;
  const {
    alarms: { steps: said },
    reactions,
  } = use(words());
  const stepsOf = plan.of === "default" ? reactions[shown.history.feature.kind] : plan.steps;
  const ticked = tickedSteps(events);
  const rows = stepsOf.map((text, step) => ({ step, text, done: ticked.get(step) ?? null }));
  return (
    <>
      <p className={styles.soft}>
        {said.plans[plan.of]}
        {plan.id === null ? "" : said.version(plan.version)}. {said.ticked(ticked.size, plan.steps.length)}
        {newerPlan ? said.newer(newerPlan.id === null ? null : newerPlan.version) : ""}
      </p>
      {mayAct && alarm.state !== "closed" ? (
        <ActForm alarmId={alarm.id} seen={seen} buttons={[]}>
          <ol className={styles.steps}>
            {rows.map(({ step, text, done }) => (
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
                    {step + 1}. {text}
                    {done ? <Who by={done.by} at={done.at} zone={zone} /> : null}
                  </span>
                </button>
              </li>
            ))}
          </ol>
        </ActForm>
      ) : (
        <ol className={styles.steps}>
          {rows.map(({ step, text, done }) => (
            <li key={step} className={styles.step}>
              <Box isTicked={done !== null} />
              <span>
                {step + 1}. {text}{" "}
                {done ? (
                  <Who by={done.by} at={done.at} zone={zone} />
                ) : (
                  <span className={styles.soft}>{said.notTicked}</span>
                )}
              </span>
            </li>
          ))}
        </ol>
      )}
    </>
  );
}

function Who({ by, at, zone }: { by: string | null; at: number; zone: string }) {
  const { alarms, times } = use(words());
  return (
    <span className={styles.who}>
      {by ?? alarms.card.somebody}, {shortMomentIn(at, zone, times)}
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
