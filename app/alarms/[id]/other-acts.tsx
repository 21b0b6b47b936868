import { use } from "react";
import { SelectField, TextArea, TextField } from "../../fittings/fields";
import { words } from "../../language/language";
import { ActForm } from "../act-form";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";

const HOUR = 3_600_000;

/** Leaving a remark, and setting the alarm aside for a while. */
export function OtherActs({ shown, endsWords }: { shown: ShownAlarm; endsWords: readonly ShelfEnd[] }) {
  const { others: said } = use(words()).alarms;
  const { alarm, seen } = shown;
  return (
    <div className={styles.others}>
      <ActForm alarmId={alarm.id} seen={seen} buttons={[{ does: "remark", label: said.remark }]}>
        <TextArea label={said.remarkLabel} name="note" rows={2} maxLength={2000} />
      </ActForm>
      <ActForm
        alarmId={alarm.id}
        seen={seen}
        isWanted={alarm.state === "shelved"}
        buttons={[{ does: "unshelve", label: said.unshelve }]}
      >
        <TextField label={said.whyEarly} name="note" maxLength={2000} />
      </ActForm>
      {alarm.state === "closed" || alarm.state === "shelved" ? null : (
        <details className={styles.fold}>
          <summary>{said.fold}</summary>
          <ActForm alarmId={alarm.id} seen={seen} buttons={[{ does: "shelve", label: said.shelve }]}>
            <SelectField
              label={said.until}
              name="until"
              choices={endsWords.map(({ at, words: label }) => ({ value: String(at), label }))}
            />
            <TextField label={said.whyWait} name="note" hint={said.whyWaitHint} maxLength={2000} />
          </ActForm>
        </details>
      )}
    </div>
  );
}

export type ShelfEnd = { at: number; words: string };

/** Ends of a shelving to choose from, rounded up to five minutes. */
export function shelfEnds(now: number, words: (at: number) => string): ShelfEnd[] {
  const five = 5 * 60_000;
  return [1, 4, 8, 24, 72, 168 - 1].map((hours) => {
    const at = Math.ceil((now + hours * HOUR) / five) * five;
    return { at, words: words(at) };
  });
}
