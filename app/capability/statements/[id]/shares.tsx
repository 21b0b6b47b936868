import type { ShareRow } from "../../../../db/queries/statements";
import type { Words } from "../../../../lib/words/words";
import { Filled } from "../../../fittings/filled";
import { Note } from "../../../fittings/note";
import { Table } from "../../../fittings/table";
import { When } from "../../../fittings/when";
import { NewLink, Revoke } from "./share-forms";

/** The links of a statement, and for who may sign one the form that makes another. */
export function Shares({
  id,
  shares,
  maySign,
  zone,
  now,
  words: { shares: said, program },
}: {
  id: number;
  shares: readonly ShareRow[];
  maySign: boolean;
  zone: string;
  now: number;
  words: Words["statements"];
}) {
  const { heads } = said;
  return (
    <>
      <Table
        caption={said.count(shares.length)}
        rows={shares}
        rowKey={(share) => share.id}
        empty={<Note kind="empty">{said.none}</Note>}
        columns={[
          { key: "recipient", head: heads.recipient, cell: ({ recipient }) => recipient },
          { key: "by", head: heads.by, cell: ({ by }) => by ?? program },
          {
            key: "expires",
            head: heads.expires,
            cell: ({ expiresAt }) => <When at={expiresAt} zone={zone} as="day" />,
          },
          {
            key: "views",
            head: heads.views,
            cell: ({ views, lastViewAt }) =>
              views === 0 ? (
                said.notYet
              ) : (
                <Filled text={said.viewed(views)} holes={{ when: <When at={lastViewAt} zone={zone} /> }} />
              ),
          },
          {
            key: "state",
            head: heads.state,
            cell: ({ id: share, revokedAt, expiresAt }) =>
              revokedAt !== null ? (
                said.revoked
              ) : expiresAt <= now ? (
                said.expired
              ) : maySign ? (
                <Revoke share={share} words={said.form} />
              ) : (
                said.open
              ),
          },
        ]}
      />
      {maySign ? <NewLink id={id} words={said.form} /> : null}
    </>
  );
}
