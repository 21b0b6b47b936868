"use client";

import type { Words } from "../../../../lib/words/words";
import { useAnswer } from "../../../fittings/answer";
import { AnswerNote } from "../../../fittings/answer-note";
import { TextField } from "../../../fittings/fields";
import { SubmitButton } from "../../../fittings/submit-button";
import { revokeLink, shareSigned } from "../actions";
import styles from "../statements.module.css";

type FormWords = Words["statements"]["shares"]["form"];

/** Ends a link. */
export function Revoke({ share, words }: { share: number; words: FormWords }) {
  const [answer, send] = useAnswer(revokeLink, { done: false, message: "" });
  return (
    <form action={send}>
      <input type="hidden" name="share" value={share} />
      <SubmitButton kind="grave" size="dense" working={words.revoking}>
        {words.revoke}
      </SubmitButton>
      <AnswerNote answer={answer} />
    </form>
  );
}

/** Makes a link, which stands there once. */
export function NewLink({ id, words }: { id: number; words: FormWords }) {
  const [answer, send] = useAnswer(shareSigned, {
    done: false,
    message: "",
    link: null,
    recipient: "",
  });
  return (
    <form action={send} className={styles.form}>
      <input type="hidden" name="statement" value={id} />
      <TextField
        key={answer.recipient}
        label={words.recipient}
        name="recipient"
        required
        maxLength={200}
        defaultValue={answer.recipient}
      />
      <TextField label={words.days} name="days" type="number" min={1} max={365} defaultValue={30} required />
      <AnswerNote answer={answer} />
      {answer.link === null ? null : <output className={styles.link}>{answer.link}</output>}
      <SubmitButton kind="plain" working={words.making}>
        {words.make}
      </SubmitButton>
    </form>
  );
}
