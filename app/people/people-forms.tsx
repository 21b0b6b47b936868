"use client";

import { useEffect, useState } from "react";
import { ROLE_WORDS, ROLES, type Role } from "../../lib/people/roles";
import { useAnswer } from "../fittings/answer";
import { AnswerNote } from "../fittings/answer-note";
import { Button } from "../fittings/controls";
import { CheckField, FieldGroup, TextField } from "../fittings/fields";
import { SubmitButton } from "../fittings/submit-button";
import { addPerson, changePassword, changePerson, choosePin, endSession, type PeopleAnswer } from "./actions";
import styles from "./people.module.css";

const NOTHING_YET: PeopleAnswer = { done: false, message: "", link: null };

/** Digits only, with the keyboard of digits on a tablet. */
const DIGITS = { type: "password", inputMode: "numeric", autoComplete: "off" } as const;

export function PinForm({ hasPin }: { hasPin: boolean }) {
  const [answer, action] = useAnswer(choosePin, NOTHING_YET);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <TextField
        label="New PIN"
        hint={
          hasPin
            ? "6 to 10 digits. Leave both fields empty to have none."
            : "6 to 10 digits without a pattern."
        }
        name="pin"
        {...DIGITS}
      />
      <TextField label="PIN once more" name="again" {...DIGITS} />
      <TextField
        label="Your password"
        name="password"
        type="password"
        autoComplete="current-password"
        required
      />
      <SubmitButton working="Saving …">{hasPin ? "Change the PIN" : "Set the PIN"}</SubmitButton>
    </form>
  );
}

export function PasswordForm() {
  const [answer, action] = useAnswer(changePassword, NOTHING_YET);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <TextField
        label="Password so far"
        name="password"
        type="password"
        autoComplete="current-password"
        required
      />
      <TextField
        label="New password"
        hint="At least 8 characters. It ends your other sessions."
        name="wanted"
        type="password"
        autoComplete="new-password"
        minLength={8}
        required
      />
      <TextField
        label="New password once more"
        name="again"
        type="password"
        autoComplete="new-password"
        required
      />
      <SubmitButton working="Saving …">Change the password</SubmitButton>
    </form>
  );
}

export function EndSession({ id, device }: { id: string; device: string }) {
  const [answer, action] = useAnswer(endSession, NOTHING_YET);
  return (
    <form action={action}>
      <input type="hidden" name="session" value={id} />
      <SubmitButton kind="plain" size="dense" working="Ending …">
        End<span className="only-read-out"> the session in {device}</span>
      </SubmitButton>
      <AnswerNote answer={answer.done ? NOTHING_YET : answer} />
    </form>
  );
}

export function AddPerson() {
  const [answer, action] = useAnswer(addPerson, NOTHING_YET);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <LinkOnce answer={answer} />
      <TextField label="Name" name="name" required maxLength={80} />
      <TextField
        label="Login"
        hint="Short, in small letters, such as jr or j.rossi."
        name="login"
        autoCapitalize="none"
        spellCheck={false}
        required
        maxLength={40}
      />
      <Roles chosen={["viewer"]} />
      <SubmitButton working="Adding …">Add and show the link</SubmitButton>
    </form>
  );
}

export function ChangePerson({
  person,
}: {
  person: { id: number; name: string; roles: readonly Role[]; isActive: boolean };
}) {
  const [answer, action] = useAnswer(changePerson, NOTHING_YET);
  return (
    <details className={styles.change}>
      <summary>
        Change<span className="only-read-out"> {person.name}</span>
      </summary>
      <form action={action} className={styles.form}>
        <AnswerNote answer={answer} />
        <LinkOnce answer={answer} />
        <input type="hidden" name="account" value={person.id} />
        <TextField label="Name" name="name" defaultValue={person.name} required maxLength={80} />
        <Roles chosen={person.roles} />
        <TextField label="Why" hint="For the record; may stay empty." name="reason" maxLength={500} />
        <div className={styles.wishes}>
          <Button type="submit" name="wish" value="save" kind="main">
            {person.isActive ? "Save" : "Save and let in again"}
          </Button>
          {person.isActive ? (
            <>
              <Button type="submit" name="wish" value="link">
                New link for a password
              </Button>
              <Button type="submit" name="wish" value="deactivate" kind="grave">
                Deactivate
              </Button>
            </>
          ) : null}
        </div>
      </form>
    </details>
  );
}

function Roles({ chosen }: { chosen: readonly Role[] }) {
  return (
    <FieldGroup legend="Roles">
      {ROLES.map((role) => (
        <CheckField
          key={role}
          label={ROLE_WORDS[role]}
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
