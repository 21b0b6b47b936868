"use client";

import { useEffect, useState } from "react";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { TextField } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import styles from "../set-up/set-up.module.css";
import { type WelcomeAnswer, welcome } from "./actions";

const NOTHING_YET: WelcomeAnswer = { done: false, message: "" };

export function WelcomeForm() {
  const [answer, action] = useAnswer(welcome, NOTHING_YET);
  const [token, setToken] = useState("");
  useEffect(() => setToken(window.location.hash.slice(1)), []);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <input type="hidden" name="token" value={token} />
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
        required
      />
      <SubmitButton working="Saving …">Choose this password</SubmitButton>
    </form>
  );
}
