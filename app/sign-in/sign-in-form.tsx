"use client";

import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { TextField } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import { type SignInAnswer, signInWithPassword } from "./actions";
import styles from "./sign-in.module.css";

const NOTHING_YET: SignInAnswer = { done: false, message: "", login: "" };

export function SignInForm({ next }: { next: string }) {
  const [answer, action] = useAnswer(signInWithPassword, NOTHING_YET);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <input type="hidden" name="next" value={next} />
      <TextField
        label="Login"
        name="login"
        autoComplete="username"
        autoCapitalize="none"
        spellCheck={false}
        required
        defaultValue={answer.login}
        key={answer.login}
      />
      <TextField label="Password" name="password" type="password" autoComplete="current-password" required />
      <SubmitButton working="Signing in …">Sign in</SubmitButton>
    </form>
  );
}
