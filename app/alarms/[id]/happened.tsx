import { use } from "react";
import { latestOf } from "../../../lib/alarms/alarm-event";
import { nextStepWords } from "../../../lib/alarms/alarm-state";
import { whatHappened } from "../../../lib/alarms/what-happened";
import { storedExcursionIn } from "../../../lib/evaluation/excursion-words";
import { shortMomentIn } from "../../../lib/format/times";
import { Filled } from "../../fittings/filled";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";

/** What the measurements did, as sentences, and where they came from. */
export function Happened({ shown, zone }: { shown: ShownAlarm; zone: string }) {
  const { alarm, events, rules, origin, together, history } = shown;
  const said = use(words());
  const { page } = said.alarms;
  const { chart, counts } = history.feature.plan;
  const sentences = whatHappened(rules, counts ? "counts" : chart, said.alarms.happened);
  const next = nextStepWords(
    {
      ...alarm,
      hasCause: latestOf(events, "cause") !== null,
      hasAction: latestOf(events, "action") !== null,
    },
    said.alarms,
  );
  return (
    <div className={styles.happened}>
      <p className={styles.large}>
        {sentences.length > 0 ? sentences.join(" ") : `${storedExcursionIn(alarm.words, said.rules)}.`}
      </p>
      {origin.length > 0 ? <p>{page.firstFrom(origin.join(", "))}</p> : null}
      {together ? (
        <p>
          {together.sentence ?? page.othersOn(together.source)}{" "}
          {together.features.length > 0 ? page.alsoOpen(together.source) : null}{" "}
          {together.features.map(({ name, alarms }, i) => (
            <span key={name}>
              {i > 0 ? "; " : ""}
              <AlarmLinks name={name} alarms={alarms} />
            </span>
          ))}
          {together.features.length > 0 ? page.afterOpen[together.suspect] : null}
        </p>
      ) : null}
      {alarm.withdrawnAt !== null ? (
        <Note kind="remark" title={page.changed}>
          {page.changedOn(shortMomentIn(alarm.withdrawnAt, zone, said.times))}
        </Note>
      ) : null}
      {alarm.state === "shelved" ? (
        <Note
          kind="remark"
          title={
            <Filled
              text={said.alarms.card.shelvedUntil}
              holes={{ until: <When at={alarm.shelvedUntil} zone={zone} /> }}
            />
          }
        >
          {latestOf(events, "shelved")?.note} {page.comesBack}
        </Note>
      ) : next === "" ? null : (
        <p className={styles.next}>{next}</p>
      )}
    </div>
  );
}

/** A feature's open alarms: its name leads to the only one, else a number to each of them. */
function AlarmLinks({ name, alarms }: { name: string; alarms: readonly number[] }) {
  const { page } = use(words()).alarms;
  if (alarms.length === 1) return <Link href={`/alarms/${alarms[0]}`}>{name}</Link>;
  return (
    <>
      {page.several(alarms.length, name)} (
      {alarms.map((id, i) => (
        <span key={id}>
          {i > 0 ? ", " : ""}
          <Link href={`/alarms/${id}`}>{page.alarm(id)}</Link>
        </span>
      ))}
      )
    </>
  );
}
