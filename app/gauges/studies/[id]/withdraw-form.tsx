"use client";

import { useAnswer } from "../../../fittings/answer";
import { AnswerNote } from "../../../fittings/answer-note";
import { Dialog } from "../../../fittings/dialog";
import entry from "../../../fittings/entry-form.module.css";
import { TextArea } from "../../../fittings/fields";
import { SubmitButton } from "../../../fittings/submit-button";
import { withdrawGaugeStudy } from "../../actions";
import type { WithdrawAnswer } from "../../answers";

/** Takes a study out of force, with a reason. */
export function WithdrawForm({ studyId }: { studyId: number }) {
  const [answer, action, isPending] = useAnswer<WithdrawAnswer>(withdrawGaugeStudy, {
    done: false,
    message: "",
  });
  return (
    <div className={entry.actions}>
      <Dialog
        label="Withdraw this study"
        title="Withdraw this study"
        kind="quiet"
        isShut={answer.done && !isPending}
      >
        <form action={action} className={entry.form}>
          {answer.done ? null : <AnswerNote answer={answer} />}
          <input type="hidden" name="study" value={studyId} />
          <TextArea
            label="Why it does not hold"
            name="because"
            hint="For example: made with a worn stylus. The study stays readable with this reason."
          />
          <div className={entry.actions}>
            <SubmitButton kind="grave" working="Saving …">
              Withdraw it
            </SubmitButton>
          </div>
        </form>
      </Dialog>
    </div>
  );
}
