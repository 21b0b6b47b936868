"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef } from "react";
import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { Dialog } from "../fittings/dialog";
import { unsent } from "../fittings/entry";
import { type Choice, SelectField, TextArea, TextField } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import { logEvent } from "./actions";
import styles from "./drift.module.css";
import type { EventAnswer } from "./event-entry";

const EVENTS = ["repaired", "changed", "adjusted", "calibrated", "moved"] as const;

/** A button that opens the form for what was done to a source, and the answer beside it. */
export function LogEvent({
  sources,
  chosen,
  flagOf,
  now,
  words,
}: {
  sources: readonly Choice[];
  chosen: string;
  /** Open flags by the id of their source. */
  flagOf: Readonly<Record<string, number>>;
  /** On the plant's clock, as a field for date and time wants it. */
  now: string;
  words: Words["driftPage"]["log"];
}) {
  const fresh = { source: chosen, event: "repaired", when: now, note: "" };
  const [answer, action, isPending] = useAnswer<EventAnswer>(logEvent, unsent(fresh));
  const { faults, attempt, done } = answer;
  const router = useRouter();
  const followed = useRef(0);
  const flag = done ? flagOf[answer.fields.source] : undefined;
  // The event ends the flag: without its number in the address another source's evidence would take its place.
  useEffect(() => {
    if (flag === undefined || attempt <= followed.current) return;
    followed.current = attempt;
    const query = new URLSearchParams(window.location.search);
    query.set("flag", String(flag));
    router.replace(`/drift?${query}`, { scroll: false });
  }, [attempt, flag, router]);
  // What was refused stays as typed; otherwise the form begins with the source now chosen and the time now.
  const fields = attempt === 0 || done ? fresh : answer.fields;
  return (
    <div className={styles.logEvent}>
      <Dialog label={words.open} title={words.title} isShut={answer.done && !isPending}>
        <form action={action} className={styles.eventForm} key={answer.attempt} noValidate>
          {answer.done ? null : <AnswerNote answer={answer} />}
          <SelectField
            label={words.source}
            name="source"
            choices={sources}
            defaultValue={fields.source}
            fault={faults.source}
          />
          <SelectField
            label={words.what}
            name="event"
            choices={EVENTS.map((value) => ({ value, label: words.kinds[value] }))}
            defaultValue={fields.event}
            fault={faults.event}
          />
          <TextField
            label={words.when}
            name="when"
            type="datetime-local"
            hint={words.whenHint}
            defaultValue={fields.when}
            max={now}
            fault={faults.when}
          />
          <TextArea
            label={words.note}
            name="note"
            hint={words.noteHint}
            defaultValue={fields.note}
            fault={faults.note}
          />
          <div className={styles.formActions}>
            <SubmitButton working={words.saving}>{words.save}</SubmitButton>
          </div>
        </form>
      </Dialog>
      {answer.done ? <AnswerNote answer={answer} /> : null}
    </div>
  );
}
