"use client";

import { type FormEvent, type ReactNode, startTransition, useActionState, useEffect, useRef } from "react";
import { Button, type ButtonKind } from "../fittings/controls";
import { AnswerNote } from "../fittings/note";
import { answerAlarm } from "./actions";
import styles from "./alarm.module.css";
import { NO_ANSWER } from "./answer";

export type ActButton = { does: string; label: ReactNode; kind?: ButtonKind };

/**
 * A form that does something to an alarm, with its buttons and the answer beside them.
 *
 * It carries the last event that its page showed, so that nobody overwrites what another person did meanwhile.
 * What was typed stays until it was saved.
 */
export function ActForm({
  alarmId,
  seen,
  buttons,
  className,
  children,
}: {
  alarmId: number;
  /** Id of the last event on the page. */
  seen: number;
  buttons: readonly ActButton[];
  className?: string | undefined;
  children?: ReactNode;
}) {
  const form = useRef<HTMLFormElement>(null);
  const [answer, send, isPending] = useActionState(answerAlarm, NO_ANSWER);

  useEffect(() => {
    if (answer.done) form.current?.reset();
  }, [answer]);

  // Sent by hand, because a form's own action would empty it also when nothing was saved.
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    const { submitter } = event.nativeEvent as SubmitEvent;
    const data = new FormData(event.currentTarget, submitter);
    if (!isPending) startTransition(() => send(data));
  }

  return (
    <form ref={form} action={send} onSubmit={submit} className={className ?? styles.form} noValidate>
      <input type="hidden" name="alarm" value={alarmId} />
      <input type="hidden" name="seen" value={Math.max(seen, answer.seen)} />
      {children}
      <div className={styles.buttons}>
        {buttons.map(({ does, label, kind = "plain" }) => (
          <Button key={does} type="submit" name="do" value={does} kind={kind} aria-disabled={isPending}>
            {label}
          </Button>
        ))}
      </div>
      <div aria-live="polite" className={styles.answer}>
        <AnswerNote answer={answer} />
        {answer.since.length > 0 ? (
          <ul className={styles.since}>
            {answer.since.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        ) : null}
      </div>
    </form>
  );
}
