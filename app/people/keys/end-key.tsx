"use client";

import { useAnswer } from "../../fittings/answer";
import { AnswerNote } from "../../fittings/answer-note";
import { Dialog } from "../../fittings/dialog";
import { SubmitButton } from "../../fittings/submit-button";
import { type EndKeyAnswer, endKey } from "./actions";

/** Ends a key, after saying what that does. */
export function EndKey({ id, name }: { id: number; name: string }) {
  const [answer, action] = useAnswer<EndKeyAnswer>(endKey, { done: false, message: "" });
  return (
    <Dialog label="End" title={`End the key "${name}"?`} kind="grave" size="dense" isShut={answer.done}>
      <p>Whatever uses it is refused from this moment on. It cannot be taken back; make a new key instead.</p>
      <AnswerNote answer={answer} />
      <form action={action}>
        <input type="hidden" name="key" value={id} />
        <SubmitButton kind="grave" working="Ending …">
          End it
        </SubmitButton>
      </form>
    </Dialog>
  );
}
