import { type ApiKey, listApiKeys } from "../../../db/people/api-keys";
import type { Words } from "../../../lib/words/words";
import { requirePage } from "../../access";
import { database } from "../../database";
import { Filled } from "../../fittings/filled";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { StateShape } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { EndKey } from "./end-key";
import { MakeKey } from "./make-key";

export async function generateMetadata() {
  return { title: (await words()).people.keys.title };
}

/** Keys with which machines post measurements and screens show the board: who made which, when each was used. */
export default async function KeysPage() {
  await requirePage("/people/keys");
  const { zone } = await plant();
  const { people } = await words();
  const { keys: said } = people;
  const { heads } = said;
  const keys = await listApiKeys(await database());
  const now = Date.now();
  return (
    <PageFrame title={said.title} above={<Link href="/people">{people.title}</Link>} purpose={said.purpose}>
      <Section title={said.make}>
        <MakeKey words={said.form} scopes={said.scopes} />
      </Section>
      <Section title={said.soFar}>
        <Table
          caption={said.caption}
          isCaptionShown={false}
          rows={keys}
          rowKey={({ id }) => id}
          empty={
            <Note kind="empty" title={said.none}>
              {said.noneWhy}
            </Note>
          }
          columns={[
            { key: "name", head: heads.name, cell: ({ name }) => name },
            { key: "hint", head: heads.hint, tight: true, cell: ({ hint }) => <code>{hint}…</code> },
            {
              key: "scopes",
              head: heads.may,
              cell: ({ scopes }) => scopes.map((scope) => said.scopes[scope]).join(", "),
            },
            {
              key: "made",
              head: heads.made,
              cell: ({ createdAt, createdBy }) => (
                <>
                  <When at={createdAt} zone={zone} as="day" /> {createdBy ? said.by(createdBy) : ""}
                </>
              ),
            },
            {
              key: "used",
              head: heads.used,
              cell: ({ lastUsedAt }) =>
                lastUsedAt === null ? said.never : <When at={lastUsedAt} zone={zone} as="ago" now={now} />,
            },
            {
              key: "ends",
              head: heads.ends,
              cell: ({ expiresAt }) =>
                expiresAt === null ? said.notByItself : <When at={expiresAt} zone={zone} as="day" />,
            },
            {
              key: "state",
              head: heads.state,
              tight: true,
              cell: (key) => <KeyState shown={key} zone={zone} now={now} words={said} />,
            },
          ]}
        />
      </Section>
    </PageFrame>
  );
}

function KeyState({
  shown,
  zone,
  now,
  words: said,
}: {
  shown: ApiKey;
  zone: string;
  now: number;
  words: Words["people"]["keys"];
}) {
  if (shown.revokedAt !== null)
    return (
      <>
        <StateShape tone="none" />{" "}
        <Filled text={said.ended} holes={{ day: <When at={shown.revokedAt} zone={zone} as="day" /> }} />
      </>
    );
  if (shown.expiresAt !== null && shown.expiresAt <= now)
    return (
      <>
        <StateShape tone="none" /> {said.ranOut}
      </>
    );
  return <EndKey id={shown.id} name={shown.name} words={said.end} />;
}
