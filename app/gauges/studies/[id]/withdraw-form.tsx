"use client";

import type { Words } from "../../../../lib/words/words";
import { useAnswer } from "../../../fittings/answer";
import { AnswerNote } from "../../../fittings/answer-note";
import { Dialog } from "../../../fittings/dialog";
import entry from "../../../fittings/entry-form.module.css";
import { TextArea } from "../../../fittings/fields";
import { SubmitButton } from "../../../fittings/submit-button";
import { withdrawGaugeStudy } from "../../actions";
import type { WithdrawAnswer } from "../../answers";

/** Takes a study out of force, with a reason. */
export function WithdrawForm({
  studyId,
  words,
}: {
  studyId: number;
  words: Words["gaugeStudies"]["withdraw"];
}) {
  const [answer, action, isPending] = useAnswer<WithdrawAnswer>(withdrawGaugeStudy, {
    done: false,
    message: "",
  });
  return (
    <div className={entry.actions}>
      <Dialog label={words.open} title={words.open} kind="quiet" isShut={answer.done && !isPending}>
        <form action={action} className={entry.form}>
          {answer.done ? null : <AnswerNote answer={answer} />}
          <input type="hidden" name="study" value={studyId} />
          <TextArea label={words.why} name="because" hint={words.hint} />
          <div className={entry.actions}>
            <SubmitButton kind="grave" working={words.saving}>
              {words.submit}
            </SubmitButton>
          </div>
        </form>
      </Dialog>
    </div>
  );
}
