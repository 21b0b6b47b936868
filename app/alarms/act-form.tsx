"use client";

import { type FormEvent, type ReactNode, startTransition, useEffect, useRef, useState } from "react";
import { useCommonWords } from "#common-words";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { Button, type ButtonKind } from "../fittings/controls";
import { SignerFields } from "../fittings/signer";
import { answerAlarm } from "./actions";
import styles from "./alarm.module.css";
import { NO_ANSWER } from "./answer";

export type ActButton = { does: string; label: ReactNode; kind?: ButtonKind };

/**
 * A form that does something to an alarm, with its buttons and the answer beside them.
 *
 * It carries the last event that its page showed, so that nobody overwrites what another person did meanwhile.
 * What was typed stays until it was saved: also when the alarm no longer wants it, because somebody else was
 * faster; then it can be kept as a remark.
 */
export function ActForm({
  alarmId,
  seen,
  buttons,
  className,
  isWanted = true,
  otherwise = null,
  onEmptied,
  children,
}: {
  alarmId: number;
  /** Id of the last event on the page. */
  seen: number;
  buttons: readonly ActButton[];
  className?: string | undefined;
  /** As the alarm stands, there is something to do here. */
  isWanted?: boolean;
  /** Stands here when nothing is to be done and nothing was typed. */
  otherwise?: ReactNode;
  /** Its fields were emptied, because what was in them is saved. */
  onEmptied?: () => void;
  children?: ReactNode;
}) {
  const { fittings } = useCommonWords();
  const form = useRef<HTMLFormElement>(null);
  const [answer, send, isPending] = useAnswer(answerAlarm, NO_ANSWER);

  const [isTouched, setTouched] = useState(false);

  useEffect(() => {
    if (!answer.done) return;
    form.current?.reset();
    setTouched(false);
  }, [answer]);

  // Sent by hand, because a form's own action would empty it also when nothing was saved.
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    const { submitter } = event.nativeEvent as SubmitEvent;
    const data = new FormData(event.currentTarget, submitter);
    if (!isPending) startTransition(() => send(data));
  }

  if (!(isWanted || isTouched)) return otherwise;
  return (
    <form
      ref={form}
      action={send}
      onSubmit={submit}
      onReset={onEmptied}
      onInput={() => setTouched(true)}
      className={className ?? styles.form}
      noValidate
    >
      <input type="hidden" name="alarm" value={alarmId} />
      <input type="hidden" name="seen" value={Math.max(seen, answer.seen)} />
      <SignerFields />
      {children}
      <div className={styles.buttons}>
        {(isWanted ? buttons : [{ does: "remark", label: fittings.asRemark }]).map(
          ({ does, label, kind = "plain" }: ActButton) => (
            <Button key={does} type="submit" name="do" value={does} kind={kind} aria-disabled={isPending}>
              {label}
            </Button>
          ),
        )}
      </div>
      <div aria-live="polite" className={styles.answer}>
        <AnswerNote answer={answer} />
        {answer.since.length > 0 ? (
          <ul className={styles.since}>
            {answer.since.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        ) : null}
      </div>
    </form>
  );
}
