"use client";

import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { TextArea } from "../fittings/fields";
import { SignerFields, useSignerName } from "../fittings/signer";
import { SubmitButton } from "../fittings/submit-button";
import { signShift } from "./actions";
import styles from "./handover.module.css";

/** What a person adds before signing. */
export function SignForm({ shiftFrom, words }: { shiftFrom: number; words: Words["handover"]["form"] }) {
  const [answer, action] = useAnswer(signShift, { done: false, message: "", remarks: "", attempt: 0 });
  const name = useSignerName();
  return (
    <form action={action} className={styles.sign} key={answer.attempt}>
      <AnswerNote answer={answer} />
      <input type="hidden" name="shift" value={shiftFrom} />
      <SignerFields />
      <TextArea
        label={words.remarks}
        name="remarks"
        rows={4}
        maxLength={4000}
        defaultValue={answer.remarks}
        hint={words.hint}
      />
      <SubmitButton working={words.signing}>
        {name === "" ? words.sign : fill(words.signAs, { name })}
      </SubmitButton>
    </form>
  );
}
