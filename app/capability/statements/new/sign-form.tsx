"use client";

import { useAnswer } from "../../../fittings/answer";
import { AnswerNote } from "../../../fittings/answer-note";
import { AwaitedWork } from "../../../fittings/awaited-work";
import { CheckField, TextField } from "../../../fittings/fields";
import { SubmitButton } from "../../../fittings/submit-button";
import { signStatement } from "../actions";
import styles from "../statements.module.css";

/** Title and signature; what is signed comes along in hidden fields, which the server reads anew. */
export function SignForm({ fields }: { fields: readonly (readonly [name: string, value: string])[] }) {
  const [answer, send] = useAnswer(signStatement, { done: false, message: "", title: "" });
  return (
    <form action={send} className={styles.form}>
      {fields.map(([name, value]) => (
        <input key={`${name} ${value}`} type="hidden" name={name} value={value} />
      ))}
      <TextField
        key={answer.title}
        label="What the statement is for"
        name="title"
        required
        maxLength={200}
        defaultValue={answer.title}
        hint="Such as the customer, the order and the drawing"
      />
      <CheckField
        label="I sign this statement"
        name="sign"
        value="yes"
        hint="Your name and the time stand on every page of it."
      />
      <AwaitedWork unit="features studied" />
      <AnswerNote answer={answer} />
      <SubmitButton working="Computing and freezing …">Freeze and sign</SubmitButton>
    </form>
  );
}
