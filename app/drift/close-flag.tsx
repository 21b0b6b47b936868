"use client";

import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { Dialog } from "../fittings/dialog";
import { TextArea } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import { closeDriftFlag } from "./actions";
import styles from "./drift.module.css";
import type { CloseAnswer } from "./event-entry";

/** Closes a flag with a remark, where the person knows better than the numbers. */
export function CloseFlag({ id, source }: { id: number; source: string }) {
  const [answer, action, isPending] = useAnswer<CloseAnswer>(closeDriftFlag, {
    done: false,
    message: "",
    remark: "",
    attempt: 0,
  });
  return (
    <Dialog label="Close this flag" title={`Close the flag of ${source}`} isShut={answer.done && !isPending}>
      <form action={action} className={styles.eventForm} key={answer.attempt}>
        {answer.done ? null : <AnswerNote answer={answer} />}
        <p>
          If something was done to {source}, log an event instead: its history then begins anew. A closed flag
          stays closed while the same change is found.
        </p>
        <input type="hidden" name="flag" value={id} />
        <TextArea
          label="Remark"
          name="remark"
          hint="What you found, even “no cause found”."
          defaultValue={answer.remark}
        />
        <div className={styles.formActions}>
          <SubmitButton working="Saving …">Close this flag</SubmitButton>
        </div>
      </form>
    </Dialog>
  );
}
