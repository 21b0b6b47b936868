"use client";

import { useActionState } from "react";
import { TextField } from "../fittings/fields";
import { AnswerNote } from "../fittings/note";
import { SubmitButton } from "../fittings/submit-button";
import { acknowledge } from "./actions";
import styles from "./alarms.module.css";

/** One line to say what was found, and a button large enough for a glove. */
export function AcknowledgeForm({ alarmId, closes }: { alarmId: number; closes: boolean }) {
  const [answer, send] = useActionState(acknowledge, { done: false, message: "" });
  return (
    <form action={send} className={styles.form}>
      <input type="hidden" name="alarm" value={alarmId} />
      {answer.done ? null : (
        <>
          <TextField label="What was found or done" name="note" maxLength={2000} />
          <SubmitButton kind="main">{closes ? "Acknowledge and close" : "Acknowledge"}</SubmitButton>
        </>
      )}
      <AnswerNote answer={answer} />
    </form>
  );
}
