"use client";

import type { ReactNode } from "react";
import { type Answer, useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { SubmitButton } from "../fittings/submit-button";

/** Cancels the scan or begins it; what became of it the page itself says. */
export function ScanButton({
  action,
  working,
  children,
}: {
  action: (before: Answer) => Promise<Answer>;
  working: string;
  children: ReactNode;
}) {
  const [answer, send, isPending] = useAnswer(action, { done: false, message: "" });
  return (
    <form action={send}>
      <SubmitButton kind="plain" size="dense" working={working}>
        {children}
      </SubmitButton>
      {isPending || answer.done ? null : <AnswerNote answer={answer} />}
    </form>
  );
}
