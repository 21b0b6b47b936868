"use client";

import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { TextField } from "../fittings/fields";
import { LinkToken, NewPassword } from "../fittings/new-password";
import { SubmitButton } from "../fittings/submit-button";
import { type SetUpAnswer, setUpFirstAccount } from "./actions";
import styles from "./set-up.module.css";

const NOTHING_YET: SetUpAnswer = { done: false, message: "", login: "", name: "" };

export function SetUpForm({ words }: { words: Words["welcome"]["setUp"]["form"] }) {
  const [answer, action] = useAnswer(setUpFirstAccount, NOTHING_YET);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <LinkToken />
      <TextField label={words.name} name="name" autoComplete="name" required defaultValue={answer.name} />
      <TextField
        label={words.login}
        hint={words.loginHint}
        name="login"
        autoComplete="username"
        autoCapitalize="none"
        spellCheck={false}
        required
        defaultValue={answer.login}
      />
      <NewPassword />
      <SubmitButton working={words.creating}>{words.create}</SubmitButton>
    </form>
  );
}
