"use client";

import { useState } from "react";
import type { MailServer } from "../../../db/queries/messages";
import { useAnswer } from "../../fittings/answer";
import { AnswerNote } from "../../fittings/answer-note";
import { Dialog } from "../../fittings/dialog";
import { CheckField, FieldGroup, SelectField, TextField } from "../../fittings/fields";
import { SubmitButton } from "../../fittings/submit-button";
import styles from "../keys/keys.module.css";
import { addReceiver, endReceiver, type MessagesAnswer, saveMailServer, sendAgain } from "./actions";
import type { TargetAnswer } from "./entry";

const NOTHING: MessagesAnswer = { done: false, message: "" };

/** Adds a receiver; a webhook's secret stands there once. */
export function AddReceiver() {
  const [answer, action] = useAnswer<TargetAnswer>(addReceiver, {
    done: false,
    message: "",
    secret: null,
    fields: { kind: "webhook", name: "", address: "" },
    attempt: 0,
  });
  const [kind, setKind] = useState(answer.fields.kind);
  return (
    <form action={action} className={styles.form} key={answer.attempt}>
      <AnswerNote answer={answer} />
      {answer.secret ? (
        <div className={styles.secret}>
          <code>{answer.secret}</code>
        </div>
      ) : null}
      <FieldGroup legend="The receiver">
        <SelectField
          label="By"
          name="kind"
          choices={[
            { value: "webhook", label: "webhook" },
            { value: "mail", label: "e-mail" },
          ]}
          defaultValue={kind}
          onChange={(event) => setKind(event.target.value === "mail" ? "mail" : "webhook")}
        />
        <TextField label="Name" name="name" required maxLength={80} defaultValue={answer.fields.name} />
        <TextField
          label="Address"
          name="address"
          required
          maxLength={500}
          inputMode={kind === "mail" ? "email" : "url"}
          hint={
            kind === "mail"
              ? "name@plant.example"
              : "https://host/path; signed, so the path need not be secret."
          }
          defaultValue={answer.fields.address}
        />
      </FieldGroup>
      <div>
        <SubmitButton working="Adding …">Add the receiver</SubmitButton>
      </div>
    </form>
  );
}

export function EndReceiver({ id, name }: { id: number; name: string }) {
  const [answer, action] = useAnswer(endReceiver, NOTHING);
  return (
    <Dialog label="Take out" title={`Take ${name} out?`} kind="grave" size="dense" isShut={answer.done}>
      <p>Nothing more is sent there. What still waits for it is given up.</p>
      <AnswerNote answer={answer} />
      <form action={action}>
        <input type="hidden" name="receiver" value={id} />
        <SubmitButton kind="grave" working="Taking out …">
          Take it out
        </SubmitButton>
      </form>
    </Dialog>
  );
}

export function SendAgain() {
  const [answer, action] = useAnswer<MessagesAnswer>(sendAgain, NOTHING);
  return (
    <form action={action} className={styles.form}>
      <div>
        <SubmitButton kind="plain" working="Sending …">
          Try what failed again now
        </SubmitButton>
      </div>
      <AnswerNote answer={answer} />
    </form>
  );
}

/** The password is never shown; an empty field keeps it. */
export function MailServerForm({ server }: { server: Omit<MailServer, "password"> | null }) {
  const [answer, action] = useAnswer(saveMailServer, NOTHING);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <FieldGroup legend="Mail server (SMTP)">
        <TextField label="Host" name="host" required defaultValue={server?.host ?? ""} />
        <TextField
          label="Port"
          name="port"
          inputMode="numeric"
          required
          defaultValue={String(server?.port ?? 587)}
        />
        <TextField
          label="Sender"
          name="from"
          inputMode="email"
          required
          hint="steadyrest@plant.example"
          defaultValue={server?.from ?? ""}
        />
        <TextField
          label="User"
          name="user"
          hint="Empty where none is asked."
          defaultValue={server?.user ?? ""}
        />
        <TextField
          label="Password"
          name="password"
          type="password"
          autoComplete="new-password"
          hint={server ? "Empty: as it is set." : undefined}
        />
      </FieldGroup>
      <CheckField
        label="TLS from the first byte"
        hint="As on port 465. Without it the connection is made safe as soon as the server offers it."
        name="secure"
        defaultChecked={server?.secure ?? false}
      />
      <div>
        <SubmitButton working="Saving …">Save the mail server</SubmitButton>
      </div>
    </form>
  );
}
