"use client";

import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { LinkToken, NewPassword } from "../fittings/new-password";
import { SubmitButton } from "../fittings/submit-button";
import styles from "../set-up/set-up.module.css";
import { type WelcomeAnswer, welcome } from "./actions";

const NOTHING_YET: WelcomeAnswer = { done: false, message: "" };

export function WelcomeForm({ words }: { words: Words["welcome"]["form"] }) {
  const [answer, action] = useAnswer(welcome, NOTHING_YET);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <LinkToken />
      <NewPassword />
      <SubmitButton working={words.saving}>{words.choose}</SubmitButton>
    </form>
  );
}
