"use client";

import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { TextField } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import { type SignInAnswer, signInWithPassword } from "./actions";
import styles from "./sign-in.module.css";

const NOTHING_YET: SignInAnswer = { done: false, message: "", login: "" };

export function SignInForm({ next, words }: { next: string; words: Words["signIn"]["form"] }) {
  const [answer, action] = useAnswer(signInWithPassword, NOTHING_YET);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <input type="hidden" name="next" value={next} />
      <TextField
        label={words.login}
        name="login"
        autoComplete="username"
        autoCapitalize="none"
        spellCheck={false}
        required
        defaultValue={answer.login}
        key={answer.login}
      />
      <TextField
        label={words.password}
        name="password"
        type="password"
        autoComplete="current-password"
        required
      />
      <SubmitButton working={words.working}>{words.signIn}</SubmitButton>
    </form>
  );
}
