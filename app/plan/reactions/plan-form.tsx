"use client";

import type { Words } from "../../../lib/words/words";
import { useAnswer } from "../../fittings/answer";
import { AnswerNote } from "../../fittings/answer-note";
import { Button, ControlRow } from "../../fittings/controls";
import { unsent } from "../../fittings/entry";
import { TextArea, TextField } from "../../fittings/fields";
import { SubmitButton } from "../../fittings/submit-button";
import { saveReactions } from "./actions";
import type { ReactionAnswer, ReactionFields } from "./reaction-entry";
import styles from "./reactions.module.css";

/** The steps of one plan, one a line. */
export function ReactionForm({
  owner,
  before,
  stored,
  isOwn,
  words,
}: {
  owner: { name: "feature" | "part"; id: number };
  /** The version on which the change is made; 0 while there is none. */
  before: number;
  stored: ReactionFields;
  /** There is a plan of this owner that could be taken back. */
  isOwn: boolean;
  words: Words["reactionPlans"]["form"];
}) {
  const [answer, action] = useAnswer<ReactionAnswer>(saveReactions, unsent(stored));
  const { faults } = answer;
  const fields = answer.attempt === 0 || answer.done ? stored : answer.fields;
  return (
    <form action={action} className={styles.form} key={`${answer.attempt} ${before}`} noValidate>
      <AnswerNote answer={answer} />
      <input type="hidden" name={owner.name} value={owner.id} />
      <input type="hidden" name="before" value={before} />
      <TextArea
        label={words.steps}
        name="steps"
        rows={Math.max(6, fields.steps.split("\n").length + 1)}
        defaultValue={fields.steps}
        fault={faults.steps}
        hint={words.stepsHint}
      />
      <TextField
        label={words.verify}
        name="verify"
        inputMode="numeric"
        defaultValue={fields.verify}
        fault={faults.verify}
      />
      <TextField
        label={words.reason}
        name="reason"
        defaultValue={fields.reason}
        fault={faults.reason}
        maxLength={500}
      />
      <ControlRow>
        <SubmitButton working={words.saving}>{isOwn ? words.next : words.own}</SubmitButton>
        {isOwn ? (
          <Button type="submit" name="do" value="take back" kind="plain">
            {words.takeBack}
          </Button>
        ) : null}
      </ControlRow>
    </form>
  );
}
