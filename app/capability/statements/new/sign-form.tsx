"use client";

import type { Words } from "../../../../lib/words/words";
import { useAnswer } from "../../../fittings/answer";
import { AnswerNote } from "../../../fittings/answer-note";
import { AwaitedWork } from "../../../fittings/awaited-work";
import { CheckField, TextField } from "../../../fittings/fields";
import { SubmitButton } from "../../../fittings/submit-button";
import { signStatement } from "../actions";
import styles from "../statements.module.css";

/** Title and signature; what is signed comes along in hidden fields, which the server reads anew. */
export function SignForm({
  fields,
  words,
}: {
  fields: readonly (readonly [name: string, value: string])[];
  words: Words["statements"]["create"]["form"];
}) {
  const [answer, send] = useAnswer(signStatement, { done: false, message: "", title: "" });
  return (
    <form action={send} className={styles.form}>
      {fields.map(([name, value]) => (
        <input key={`${name} ${value}`} type="hidden" name={name} value={value} />
      ))}
      <TextField
        key={answer.title}
        label={words.title}
        name="title"
        required
        maxLength={200}
        defaultValue={answer.title}
        hint={words.titleHint}
      />
      <CheckField label={words.sign} name="sign" value="yes" hint={words.signHint} />
      <AwaitedWork unit={words.unit} />
      <AnswerNote answer={answer} />
      <SubmitButton working={words.working}>{words.freeze}</SubmitButton>
    </form>
  );
}
