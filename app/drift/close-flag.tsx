"use client";

import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { Dialog } from "../fittings/dialog";
import { TextArea } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import { closeDriftFlag } from "./actions";
import styles from "./drift.module.css";
import type { CloseAnswer } from "./event-entry";

/** Closes a flag with a remark, where the person knows better than the numbers. */
export function CloseFlag({
  id,
  source,
  words,
}: {
  id: number;
  source: string;
  words: Words["driftPage"]["close"];
}) {
  const [answer, action, isPending] = useAnswer<CloseAnswer>(closeDriftFlag, {
    done: false,
    message: "",
    remark: "",
    attempt: 0,
  });
  return (
    <Dialog label={words.label} title={fill(words.title, { source })} isShut={answer.done && !isPending}>
      <form action={action} className={styles.eventForm} key={answer.attempt}>
        {answer.done ? null : <AnswerNote answer={answer} />}
        <p>{fill(words.advice, { source })}</p>
        <input type="hidden" name="flag" value={id} />
        <TextArea label={words.remark} name="remark" hint={words.hint} defaultValue={answer.remark} />
        <div className={styles.formActions}>
          <SubmitButton working={words.saving}>{words.label}</SubmitButton>
        </div>
      </form>
    </Dialog>
  );
}
