"use client";

import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { TextArea } from "../fittings/fields";
import { SignerFields, useSignerName } from "../fittings/signer";
import { SubmitButton } from "../fittings/submit-button";
import { signShift } from "./actions";
import styles from "./handover.module.css";

/** What a person adds before signing. */
export function SignForm({ shiftFrom }: { shiftFrom: number }) {
  const [answer, action] = useAnswer(signShift, { done: false, message: "", remarks: "", attempt: 0 });
  const name = useSignerName();
  return (
    <form action={action} className={styles.sign} key={answer.attempt}>
      <AnswerNote answer={answer} />
      <input type="hidden" name="shift" value={shiftFrom} />
      <SignerFields />
      <TextArea
        label="Remarks for the next shift"
        name="remarks"
        rows={4}
        maxLength={4000}
        defaultValue={answer.remarks}
        hint="What the page cannot know: people, material, machines, promises."
      />
      <SubmitButton working="Signing …">{name === "" ? "Sign" : `Sign as ${name}`}</SubmitButton>
    </form>
  );
}
