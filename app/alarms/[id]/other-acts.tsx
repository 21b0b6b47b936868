import { SelectField, TextArea, TextField } from "../../fittings/fields";
import { ActForm } from "../act-form";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";

const HOUR = 3_600_000;

/** Leaving a remark, and setting the alarm aside for a while. */
export function OtherActs({ shown, endsWords }: { shown: ShownAlarm; endsWords: readonly ShelfEnd[] }) {
  const { alarm, seen } = shown;
  return (
    <div className={styles.others}>
      <ActForm alarmId={alarm.id} seen={seen} buttons={[{ does: "remark", label: "Leave this remark" }]}>
        <TextArea label="A remark for who comes next" name="note" rows={2} maxLength={2000} />
      </ActForm>
      <ActForm
        alarmId={alarm.id}
        seen={seen}
        isWanted={alarm.state === "shelved"}
        buttons={[{ does: "unshelve", label: "Take it off the shelf now" }]}
      >
        <TextField label="Why it comes back early" name="note" maxLength={2000} />
      </ActForm>
      {alarm.state === "closed" || alarm.state === "shelved" ? null : (
        <details className={styles.fold}>
          <summary>Set it aside for a while (shelve)</summary>
          <ActForm alarmId={alarm.id} seen={seen} buttons={[{ does: "shelve", label: "Shelve the alarm" }]}>
            <SelectField
              label="It comes back by itself"
              name="until"
              choices={endsWords.map(({ at, words }) => ({ value: String(at), label: words }))}
            />
            <TextField
              label="Why it can wait"
              name="note"
              hint="For example: spare locator ordered, pieces go to full inspection until then."
              maxLength={2000}
            />
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
