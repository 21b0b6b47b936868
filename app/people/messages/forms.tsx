"use client";

import { useState } from "react";
import type { MailServer } from "../../../db/queries/messages";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { useAnswer } from "../../fittings/answer";
import { AnswerNote } from "../../fittings/answer-note";
import { Dialog } from "../../fittings/dialog";
import { CheckField, FieldGroup, SelectField, TextField } from "../../fittings/fields";
import { SubmitButton } from "../../fittings/submit-button";
import styles from "../keys/keys.module.css";
import { addReceiver, endReceiver, type MessagesAnswer, saveMailServer, sendAgain } from "./actions";
import type { TargetAnswer } from "./entry";

type Said = Words["people"]["messages"];

const NOTHING: MessagesAnswer = { done: false, message: "" };

/** Adds a receiver; a webhook's secret stands there once. */
export function AddReceiver({ words, kinds }: { words: Said["receiverForm"]; kinds: Said["kinds"] }) {
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
      <FieldGroup legend={words.legend}>
        <SelectField
          label={words.by}
          name="kind"
          choices={[
            { value: "webhook", label: kinds.webhook },
            { value: "mail", label: kinds.mail },
          ]}
          defaultValue={kind}
          onChange={(event) => setKind(event.target.value === "mail" ? "mail" : "webhook")}
        />
        <TextField label={words.name} name="name" required maxLength={80} defaultValue={answer.fields.name} />
        <TextField
          label={words.address}
          name="address"
          required
          maxLength={500}
          inputMode={kind === "mail" ? "email" : "url"}
          hint={kind === "mail" ? words.mailHint : words.urlHint}
          defaultValue={answer.fields.address}
        />
      </FieldGroup>
      <div>
        <SubmitButton working={words.adding}>{words.add}</SubmitButton>
      </div>
    </form>
  );
}

export function EndReceiver({ id, name, words }: { id: number; name: string; words: Said["end"] }) {
  const [answer, action] = useAnswer(endReceiver, NOTHING);
  return (
    <Dialog
      label={words.label}
      title={fill(words.title, { name })}
      kind="grave"
      size="dense"
      isShut={answer.done}
    >
      <p>{words.warning}</p>
      <AnswerNote answer={answer} />
      <form action={action}>
        <input type="hidden" name="receiver" value={id} />
        <SubmitButton kind="grave" working={words.working}>
          {words.end}
        </SubmitButton>
      </form>
    </Dialog>
  );
}

export function SendAgain({ words }: { words: Said["again"] }) {
  const [answer, action] = useAnswer<MessagesAnswer>(sendAgain, NOTHING);
  return (
    <form action={action} className={styles.form}>
      <div>
        <SubmitButton kind="plain" working={words.working}>
          {words.send}
        </SubmitButton>
      </div>
      <AnswerNote answer={answer} />
    </form>
  );
}

/** The password is never shown; an empty field keeps it. */
export function MailServerForm({
  server,
  words,
}: {
  server: Omit<MailServer, "password"> | null;
  words: Said["serverForm"];
}) {
  const [answer, action] = useAnswer(saveMailServer, NOTHING);
  return (
    <form action={action} className={styles.form}>
      <AnswerNote answer={answer} />
      <FieldGroup legend={words.legend}>
        <TextField label={words.host} name="host" required defaultValue={server?.host ?? ""} />
        <TextField
          label={words.port}
          name="port"
          inputMode="numeric"
          required
          defaultValue={String(server?.port ?? 587)}
        />
        <TextField
          label={words.sender}
          name="from"
          inputMode="email"
          required
          hint={words.senderHint}
          defaultValue={server?.from ?? ""}
        />
        <TextField label={words.user} name="user" hint={words.userHint} defaultValue={server?.user ?? ""} />
        <TextField
          label={words.password}
          name="password"
          type="password"
          autoComplete="new-password"
          hint={server ? words.keepHint : undefined}
        />
      </FieldGroup>
      <CheckField
        label={words.tls}
        hint={words.tlsHint}
        name="secure"
        defaultChecked={server?.secure ?? false}
      />
      <div>
        <SubmitButton working={words.saving}>{words.save}</SubmitButton>
      </div>
    </form>
  );
}
