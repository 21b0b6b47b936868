"use client";

import { useState } from "react";
import { SCOPES } from "../../../lib/people/scopes";
import type { Words } from "../../../lib/words/words";
import { useAnswer } from "../../fittings/answer";
import { AnswerNote } from "../../fittings/answer-note";
import { Button } from "../../fittings/controls";
import { CheckField, FieldGroup, SelectField, TextField } from "../../fittings/fields";
import { SubmitButton } from "../../fittings/submit-button";
import { makeKey } from "./actions";
import { type KeyAnswer, LASTING } from "./key-entry";
import styles from "./keys.module.css";

type KeyWords = Words["people"]["keys"];

/** Makes a key; the secret stands there once. */
export function MakeKey({ words, scopes }: { words: KeyWords["form"]; scopes: KeyWords["scopes"] }) {
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
      {answer.secret ? <Secret secret={answer.secret} words={words} /> : null}
      <FieldGroup legend={words.legend}>
        <TextField
          label={words.name}
          name="name"
          required
          maxLength={80}
          hint={words.nameHint}
          defaultValue={fields.name}
        />
        <SelectField
          label={words.lasts}
          name="days"
          choices={LASTING.map((value) => ({ value, label: words.lasting[value] }))}
          defaultValue={fields.days}
        />
      </FieldGroup>
      <FieldGroup legend={words.may} isStacked>
        {SCOPES.map((scope) => (
          <CheckField
            key={scope}
            label={scopes[scope]}
            hint={words.scopeHints[scope]}
            name="scope"
            value={scope}
            defaultChecked={fields.scopes.includes(scope)}
          />
        ))}
      </FieldGroup>
      <div>
        <SubmitButton working={words.making}>{words.make}</SubmitButton>
      </div>
    </form>
  );
}

function Secret({ secret, words }: { secret: string; words: KeyWords["form"] }) {
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
        {isCopied ? words.copied : words.copy}
      </Button>
    </div>
  );
}
