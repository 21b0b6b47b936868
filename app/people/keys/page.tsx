import { type ApiKey, listApiKeys } from "../../../db/people/api-keys";
import { SCOPE_WORDS } from "../../../lib/people/scopes";
import { requirePage } from "../../access";
import { database } from "../../database";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { StateShape } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { plant } from "../../plant";
import { EndKey } from "./end-key";
import { MakeKey } from "./make-key";

export const metadata = { title: "Keys" };

/** Keys with which machines post measurements and screens show the board: who made which, when each was used. */
export default async function KeysPage() {
  await requirePage("/people/keys");
  const { zone } = await plant();
  const keys = await listApiKeys(await database());
  const now = Date.now();
  return (
    <PageFrame
      title="Keys"
      above={<Link href="/people">People</Link>}
      purpose="With a key a machine posts measurements, or a screen on a wall shows the board. One for each, so that one can be ended without the others."
    >
      <Section title="Make a key">
        <MakeKey />
      </Section>
      <Section title="Keys so far">
        <Table
          caption="Keys, the newest first"
          isCaptionShown={false}
          rows={keys}
          rowKey={({ id }) => id}
          empty={
            <Note kind="empty" title="No keys yet">
              Files, the watched folder and the bench need none; only machines that post do.
            </Note>
          }
          columns={[
            { key: "name", head: "Name", cell: ({ name }) => name },
            { key: "hint", head: "Begins with", tight: true, cell: ({ hint }) => <code>{hint}…</code> },
            {
              key: "scopes",
              head: "May",
              cell: ({ scopes }) => scopes.map((scope) => SCOPE_WORDS[scope]).join(", "),
            },
            {
              key: "made",
              head: "Made",
              cell: ({ createdAt, createdBy }) => (
                <>
                  <When at={createdAt} zone={zone} as="day" /> {createdBy ? `by ${createdBy}` : ""}
                </>
              ),
            },
            {
              key: "used",
              head: "Last used",
              cell: ({ lastUsedAt }) =>
                lastUsedAt === null ? "never" : <When at={lastUsedAt} zone={zone} as="ago" now={now} />,
            },
            {
              key: "ends",
              head: "Ends",
              cell: ({ expiresAt }) =>
                expiresAt === null ? "not by itself" : <When at={expiresAt} zone={zone} as="day" />,
            },
            {
              key: "state",
              head: "State",
              tight: true,
              cell: (key) => <KeyState shown={key} zone={zone} now={now} />,
            },
          ]}
        />
      </Section>
    </PageFrame>
  );
}

function KeyState({ shown, zone, now }: { shown: ApiKey; zone: string; now: number }) {
  if (shown.revokedAt !== null)
    return (
      <>
        <StateShape tone="none" /> ended <When at={shown.revokedAt} zone={zone} as="day" />
      </>
    );
  if (shown.expiresAt !== null && shown.expiresAt <= now)
    return (
      <>
        <StateShape tone="none" /> has run out
      </>
    );
  return <EndKey id={shown.id} name={shown.name} />;
}
