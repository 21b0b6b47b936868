"use client";

import { useEffect, useState } from "react";
import { ROLES, type Role } from "../../lib/people/roles";
import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { Button } from "../fittings/controls";
import { CheckField, FieldGroup, TextField } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import { addPerson, changePassword, changePerson, choosePin, endSession, type PeopleAnswer } from "./actions";
import styles from "./people.module.css";

type Said = Words["people"];
type FormWords = Said["personForm"] & { roleNames: Record<Role, string> };

const NOTHING_YET: PeopleAnswer = { done: false, message: "", link: null };

/** Digits only, with the keyboard of digits on a tablet. */
const DIGITS = { type: "password", inputMode: "numeric", autoComplete: "off" } as const;

export function PinForm({ hasPin, words }: { hasPin: boolean; words: Said["pinForm"] }) {
  const [answer, action] = useAnswer(choosePin, NOTHING_YET);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <TextField
        label={words.label}
        hint={hasPin ? words.hintChange : words.hintNew}
        name="pin"
        {...DIGITS}
      />
      <TextField label={words.again} name="again" {...DIGITS} />
      <TextField
        label={words.password}
        name="password"
        type="password"
        autoComplete="current-password"
        required
      />
      <SubmitButton working={words.saving}>{hasPin ? words.change : words.set}</SubmitButton>
    </form>
  );
}

export function PasswordForm({ words }: { words: Said["passwordForm"] }) {
  const [answer, action] = useAnswer(changePassword, NOTHING_YET);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <TextField
        label={words.current}
        name="password"
        type="password"
        autoComplete="current-password"
        required
      />
      <TextField
        label={words.wanted}
        hint={words.hint}
        name="wanted"
        type="password"
        autoComplete="new-password"
        minLength={8}
        required
      />
      <TextField label={words.again} name="again" type="password" autoComplete="new-password" required />
      <SubmitButton working={words.saving}>{words.change}</SubmitButton>
    </form>
  );
}

export function EndSession({
  id,
  device,
  words,
}: {
  id: string;
  device: string;
  words: Said["sessions"]["form"];
}) {
  const [answer, action] = useAnswer(endSession, NOTHING_YET);
  return (
    <form action={action}>
      <input type="hidden" name="session" value={id} />
      <SubmitButton kind="plain" size="dense" working={words.ending}>
        {words.end}
        <span className="only-read-out">{fill(words.which, { device })}</span>
      </SubmitButton>
      <AnswerNote answer={answer.done ? NOTHING_YET : answer} />
    </form>
  );
}

export function AddPerson({ words }: { words: FormWords }) {
  const [answer, action] = useAnswer(addPerson, NOTHING_YET);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <LinkOnce answer={answer} />
      <TextField label={words.name} name="name" required maxLength={80} />
      <TextField
        label={words.login}
        hint={words.loginHint}
        name="login"
        autoCapitalize="none"
        spellCheck={false}
        required
        maxLength={40}
      />
      <Roles chosen={["viewer"]} words={words} />
      <SubmitButton working={words.adding}>{words.add}</SubmitButton>
    </form>
  );
}

export function ChangePerson({
  person,
  words,
}: {
  person: { id: number; name: string; roles: readonly Role[]; isActive: boolean };
  words: FormWords;
}) {
  const [answer, action] = useAnswer(changePerson, NOTHING_YET);
  return (
    <details className={styles.change}>
      <summary>
        {words.change}
        <span className="only-read-out"> {person.name}</span>
      </summary>
      <form action={action} className={styles.form}>
        <AnswerNote answer={answer} />
        <LinkOnce answer={answer} />
        <input type="hidden" name="account" value={person.id} />
        <TextField label={words.name} name="name" defaultValue={person.name} required maxLength={80} />
        <Roles chosen={person.roles} words={words} />
        <TextField label={words.why} hint={words.whyHint} name="reason" maxLength={500} />
        <div className={styles.wishes}>
          <Button type="submit" name="wish" value="save" kind="main">
            {person.isActive ? words.save : words.saveActive}
          </Button>
          {person.isActive ? (
            <>
              <Button type="submit" name="wish" value="link">
                {words.newLink}
              </Button>
              <Button type="submit" name="wish" value="deactivate" kind="grave">
                {words.deactivate}
              </Button>
            </>
          ) : null}
        </div>
      </form>
    </details>
  );
}

function Roles({ chosen, words }: { chosen: readonly Role[]; words: FormWords }) {
  return (
    <FieldGroup legend={words.roles}>
      {ROLES.map((role) => (
        <CheckField
          key={role}
          label={words.roleNames[role]}
          name="role"
          value={role}
          defaultChecked={chosen.includes(role)}
        />
      ))}
    </FieldGroup>
  );
}

/** With this server's own address before it, which only the browser knows for sure. */
function LinkOnce({ answer }: { answer: PeopleAnswer }) {
  const [origin, setOrigin] = useState("");
  useEffect(() => setOrigin(window.location.origin), []);
  if (answer.link === null) return null;
  return (
    <p className={styles.secret}>
      <code>
        {origin}
        {answer.link}
      </code>
    </p>
  );
}
