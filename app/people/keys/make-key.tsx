"use client";

import { useState } from "react";
import { SCOPE_WORDS, SCOPES, type Scope } from "../../../lib/people/scopes";
import { useAnswer } from "../../fittings/answer";
import { AnswerNote } from "../../fittings/answer-note";
import { Button } from "../../fittings/controls";
import { CheckField, FieldGroup, SelectField, TextField } from "../../fittings/fields";
import { SubmitButton } from "../../fittings/submit-button";
import { makeKey } from "./actions";
import { type KeyAnswer, LASTING } from "./key-entry";
import styles from "./keys.module.css";

const SCOPE_HINTS: Record<Scope, string> = {
  "read-metrics": "For a monitoring system: GET /api/metrics, in the text exposition format.",
  "post-measurements": "For a measuring machine or a program between it and here: POST /api/v1/measurements.",
  "show-wall":
    "For a screen on a wall: open /wall on it and type the key. It shows the board and can change nothing.",
};

/** Makes a key; the secret stands there once. */
export function MakeKey() {
  const [answer, action] = useAnswer<KeyAnswer>(makeKey, {
    done: false,
    message: "",
    secret: null,
    fields: { name: "", scopes: ["post-measurements"], days: "365" },
    attempt: 0,
  });
  const { fields } = answer;
  return (
    <form action={action} className={styles.form} key={answer.attempt}>
      <AnswerNote answer={answer} />
      {answer.secret ? <Secret secret={answer.secret} /> : null}
      <FieldGroup legend="The key">
        <TextField
          label="Name"
          name="name"
          required
          maxLength={80}
          hint="The machine that uses it."
          defaultValue={fields.name}
        />
        <SelectField label="Lasts" name="days" choices={LASTING} defaultValue={fields.days} />
      </FieldGroup>
      <FieldGroup legend="May" isStacked>
        {SCOPES.map((scope) => (
          <CheckField
            key={scope}
            label={SCOPE_WORDS[scope]}
            hint={SCOPE_HINTS[scope]}
            name="scope"
            value={scope}
            defaultChecked={fields.scopes.includes(scope)}
          />
        ))}
      </FieldGroup>
      <div>
        <SubmitButton working="Making …">Make the key</SubmitButton>
      </div>
    </form>
  );
}

function Secret({ secret }: { secret: string }) {
  const [isCopied, setCopied] = useState(false);
  return (
    <div className={styles.secret}>
      <code>{secret}</code>
      <Button
        onClick={async () => {
          // Without an encrypted connection a browser has no clipboard; the text can still be marked.
          await navigator.clipboard?.writeText(secret);
          setCopied(navigator.clipboard !== undefined);
        }}
      >
        {isCopied ? "Copied" : "Copy"}
      </Button>
    </div>
  );
}
