"use client";

import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { useAnswer } from "../../fittings/answer";
import { AnswerNote } from "../../fittings/answer-note";
import { Dialog } from "../../fittings/dialog";
import { SubmitButton } from "../../fittings/submit-button";
import { type EndKeyAnswer, endKey } from "./actions";

/** Ends a key, after saying what that does. */
export function EndKey({
  id,
  name,
  words,
}: {
  id: number;
  name: string;
  words: Words["people"]["keys"]["end"];
}) {
  const [answer, action] = useAnswer<EndKeyAnswer>(endKey, { done: false, message: "" });
  return (
    <Dialog
      label={words.label}
      title={fill(words.title, { name })}
      kind="grave"
      size="dense"
      isShut={answer.done}
    >
      <p>{words.warning}</p>
      <AnswerNote answer={answer} />
      <form action={action}>
        <input type="hidden" name="key" value={id} />
        <SubmitButton kind="grave" working={words.ending}>
          {words.end}
        </SubmitButton>
      </form>
    </Dialog>
  );
}
