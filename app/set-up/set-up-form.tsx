"use client";

import { useEffect, useState } from "react";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { TextField } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import { type SetUpAnswer, setUpFirstAccount } from "./actions";
import styles from "./set-up.module.css";

const NOTHING_YET: SetUpAnswer = { done: false, message: "", login: "", name: "" };

export function SetUpForm() {
  const [answer, action] = useAnswer(setUpFirstAccount, NOTHING_YET);
  const [token, setToken] = useState("");
  useEffect(() => setToken(window.location.hash.slice(1)), []);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <input type="hidden" name="token" value={token} />
      <TextField label="Your name" name="name" autoComplete="name" required defaultValue={answer.name} />
      <TextField
        label="Login"
        hint="Short, in small letters, such as jr or j.rossi."
        name="login"
        autoComplete="username"
        autoCapitalize="none"
        spellCheck={false}
        required
        defaultValue={answer.login}
      />
      <TextField
        label="Password"
        hint="At least 8 characters."
        name="password"
        type="password"
        autoComplete="new-password"
        minLength={8}
        required
      />
      <TextField
        label="Password once more"
        name="again"
        type="password"
        autoComplete="new-password"
        minLength={8}
        required
      />
      <SubmitButton working="Creating …">Create the account</SubmitButton>
    </form>
  );
}
