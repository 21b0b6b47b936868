"use client";

import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { TextField } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import { showOnWall, type WallAnswer } from "./actions";
import styles from "./wall-key.module.css";

/** Takes a display key once; the screen keeps it. */
export function WallKeyForm({ words }: { words: Words["signIn"]["wall"]["form"] }) {
  const [answer, action] = useAnswer<WallAnswer>(showOnWall, { done: false, message: "" });
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <TextField label={words.key} name="key" type="password" required maxLength={200} />
      <div>
        <SubmitButton working={words.working}>{words.show}</SubmitButton>
      </div>
    </form>
  );
}
