"use client";

import type { ShareRow } from "../../../../db/queries/statements";
import { counted } from "../../../../lib/format/numbers";
import { useAnswer } from "../../../fittings/answer";
import { AnswerNote } from "../../../fittings/answer-note";
import { TextField } from "../../../fittings/fields";
import { Note } from "../../../fittings/note";
import { SubmitButton } from "../../../fittings/submit-button";
import { Table } from "../../../fittings/table";
import { When } from "../../../fittings/when";
import { revokeLink, shareSigned } from "../actions";
import styles from "../statements.module.css";

/** The links of a statement, and for who may sign one the form that makes another. */
export function Shares({
  id,
  shares,
  maySign,
  zone,
  now,
}: {
  id: number;
  shares: readonly ShareRow[];
  maySign: boolean;
  zone: string;
  now: number;
}) {
  return (
    <>
      <Table
        caption={counted(shares.length, "link")}
        rows={shares}
        rowKey={(share) => share.id}
        empty={<Note kind="empty">No link was made.</Note>}
        columns={[
          { key: "recipient", head: "For", cell: ({ recipient }) => recipient },
          { key: "by", head: "Made by", cell: ({ by }) => by ?? "the program" },
          {
            key: "expires",
            head: "Expires",
            cell: ({ expiresAt }) => <When at={expiresAt} zone={zone} as="day" />,
          },
          {
            key: "views",
            head: "Viewed",
            cell: ({ views, lastViewAt }) =>
              views === 0 ? (
                "not yet"
              ) : (
                <>
                  {counted(views, "time")}, last <When at={lastViewAt} zone={zone} />
                </>
              ),
          },
          {
            key: "state",
            head: "State",
            cell: ({ id: share, revokedAt, expiresAt }) =>
              revokedAt !== null ? (
                "revoked"
              ) : expiresAt <= now ? (
                "expired"
              ) : maySign ? (
                <Revoke share={share} />
              ) : (
                "open"
              ),
          },
        ]}
      />
      {maySign ? <NewLink id={id} /> : null}
    </>
  );
}

function Revoke({ share }: { share: number }) {
  const [answer, send] = useAnswer(revokeLink, { done: false, message: "" });
  return (
    <form action={send}>
      <input type="hidden" name="share" value={share} />
      <SubmitButton kind="grave" size="dense" working="Revoking …">
        Revoke
      </SubmitButton>
      <AnswerNote answer={answer} />
    </form>
  );
}

function NewLink({ id }: { id: number }) {
  const [answer, send] = useAnswer(shareSigned, {
    done: false,
    message: "",
    link: null,
    recipient: "",
  });
  return (
    <form action={send} className={styles.form}>
      <input type="hidden" name="statement" value={id} />
      <TextField
        key={answer.recipient}
        label="Who gets the link"
        name="recipient"
        required
        maxLength={200}
        defaultValue={answer.recipient}
      />
      <TextField
        label="Days until it expires"
        name="days"
        type="number"
        min={1}
        max={365}
        defaultValue={30}
        required
      />
      <AnswerNote answer={answer} />
      {answer.link === null ? null : <output className={styles.link}>{answer.link}</output>}
      <SubmitButton kind="plain" working="Making the link …">
        Make a link
      </SubmitButton>
    </form>
  );
}
