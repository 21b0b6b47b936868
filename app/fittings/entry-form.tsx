"use client";

import type { ReactNode } from "react";
import type { Unanswered } from "./answer";
import { AnswerNote } from "./answer-note";
import type { EntryAnswer } from "./entry";
import styles from "./entry-form.module.css";
import { SubmitButton } from "./submit-button";

/** A form of several groups of fields with its answer above and its button below. */
export function EntryForm({
  answer,
  action,
  submit,
  working = "Saving …",
  children,
}: {
  answer: Pick<EntryAnswer<unknown>, "done" | "message" | "attempt"> & Unanswered;
  action: (form: FormData) => void;
  /** What the button does, in words. */
  submit: string;
  working?: string;
  children: ReactNode;
}) {
  return (
    <form action={action} className={styles.form} key={answer.attempt} noValidate>
      <AnswerNote answer={answer} />
      {children}
      <div className={styles.actions}>
        <SubmitButton working={working}>{submit}</SubmitButton>
      </div>
    </form>
  );
}
