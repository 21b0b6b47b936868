"use client";

import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { Dialog } from "../fittings/dialog";
import { unsent } from "../fittings/entry";
import { type Choice, SelectField, TextArea, TextField } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import { logEvent } from "./actions";
import styles from "./drift.module.css";
import type { EventAnswer } from "./event-entry";

const EVENTS: readonly Choice[] = [
  { value: "repaired", label: "repaired" },
  { value: "changed", label: "changed (new part, new edge)" },
  { value: "adjusted", label: "adjusted" },
  { value: "calibrated", label: "calibrated" },
  { value: "moved", label: "moved or set up anew" },
];

/** A button that opens the form for what was done to a source, and the answer beside it. */
export function LogEvent({
  sources,
  chosen,
  now,
}: {
  sources: readonly Choice[];
  chosen: string;
  /** On the plant's clock, as a field for date and time wants it. */
  now: string;
}) {
  const fresh = { source: chosen, event: "repaired", when: now, note: "" };
  const [answer, action, isPending] = useAnswer<EventAnswer>(logEvent, unsent(fresh));
  const { faults, attempt, done } = answer;
  // What was refused stays as typed; otherwise the form begins with the source now chosen and the time now.
  const fields = attempt === 0 || done ? fresh : answer.fields;
  return (
    <div className={styles.logEvent}>
      <Dialog label="Log an event" title="What was done to a source" isShut={answer.done && !isPending}>
        <form action={action} className={styles.eventForm} key={answer.attempt} noValidate>
          {answer.done ? null : <AnswerNote answer={answer} />}
          <SelectField
            label="Source"
            name="source"
            choices={sources}
            defaultValue={fields.source}
            fault={faults.source}
          />
          <SelectField
            label="What was done"
            name="event"
            choices={EVENTS}
            defaultValue={fields.event}
            fault={faults.event}
          />
          <TextField
            label="When"
            name="when"
            type="datetime-local"
            hint="On the plant's clock. Lots before it are no longer compared with lots after it."
            defaultValue={fields.when}
            max={now}
            fault={faults.when}
          />
          <TextArea
            label="Note"
            name="note"
            hint="For example: locator pin replaced."
            defaultValue={fields.note}
            fault={faults.note}
          />
          <div className={styles.formActions}>
            <SubmitButton working="Saving …">Log this event</SubmitButton>
          </div>
        </form>
      </Dialog>
      {answer.done ? <AnswerNote answer={answer} /> : null}
    </div>
  );
}
