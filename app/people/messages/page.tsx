import { latestMessages, listTargets, type MessageRow, mailServer } from "../../../db/queries/messages";
import type { Words } from "../../../lib/words/words";
import { requirePage } from "../../access";
import { database } from "../../database";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { StateShape, type Tone } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { AddReceiver, EndReceiver, MailServerForm, SendAgain } from "./forms";

export async function generateMetadata() {
  return { title: (await words()).people.messages.title };
}

const SHOWN = 50;

const TONES: Record<MessageRow["state"], Tone> = { waiting: "watch", sent: "done", "given up": "act" };

/** Who is told of alarms outside the program, and whether it arrived. */
export default async function MessagesPage() {
  await requirePage("/people/messages");
  const db = await database();
  const { zone } = await plant();
  const { people } = await words();
  const { messages: said } = people;
  const { heads } = said;
  const [targets, messages, server] = [
    await listTargets(db),
    await latestMessages(db, { limit: SHOWN }),
    await mailServer(db),
  ];
  // The password stays on the server.
  const shown = server && (({ password: _, ...rest }) => rest)(server);
  const failing = messages.filter(
    ({ state, tries }) => state === "given up" || (state === "waiting" && tries > 0),
  );
  return (
    <PageFrame title={said.title} above={<Link href="/people">{people.title}</Link>} purpose={said.purpose}>
      {failing.length > 0 ? (
        <Note kind="broken" title={said.failing(failing.length)} actions={<SendAgain words={said.again} />}>
          {said.failingWhy}
        </Note>
      ) : null}
      <Section title={said.receivers}>
        <Table
          caption={said.receivers}
          isCaptionShown={false}
          rows={targets}
          rowKey={({ id }) => id}
          empty={<Note kind="empty">{said.nobody}</Note>}
          columns={[
            { key: "name", head: heads.name, cell: ({ name }) => name },
            {
              key: "kind",
              head: heads.by,
              tight: true,
              cell: ({ kind }) => said.kinds[kind],
            },
            { key: "address", head: heads.address, cell: ({ address }) => address },
            {
              key: "added",
              head: heads.added,
              cell: ({ createdAt }) => <When at={createdAt} zone={zone} as="day" />,
            },
            {
              key: "end",
              head: <span className="only-read-out">{heads.end}</span>,
              cell: ({ id, name }) => <EndReceiver id={id} name={name} words={said.end} />,
            },
          ]}
        />
        <AddReceiver words={said.receiverForm} kinds={said.kinds} />
      </Section>
      <Section title={said.mailServer}>
        <MailServerForm server={shown} words={said.serverForm} />
      </Section>
      <Section title={said.latest}>
        <Messages messages={messages} zone={zone} words={said} />
      </Section>
    </PageFrame>
  );
}

function Messages({
  messages,
  zone,
  words: said,
}: {
  messages: readonly MessageRow[];
  zone: string;
  words: Words["people"]["messages"];
}) {
  const heads = said.latestHeads;
  return (
    <Table
      caption={said.caption(SHOWN)}
      isCaptionShown={false}
      rows={messages}
      rowKey={({ id }) => id}
      empty={<Note kind="empty">{said.none}</Note>}
      columns={[
        {
          key: "at",
          head: heads.at,
          tight: true,
          cell: ({ at }) => <When at={at} zone={zone} as="short" />,
        },
        { key: "to", head: heads.to, cell: ({ target }) => target },
        {
          key: "what",
          head: heads.what,
          cell: ({ detail }) =>
            detail.kind === "trial" ? (
              said.trial
            ) : (
              <Link href={`/alarms/${detail.alarmId}`}>{said.alarm(detail.alarmId)}</Link>
            ),
        },
        {
          key: "state",
          head: heads.state,
          tight: true,
          cell: ({ state }) => (
            <>
              <StateShape tone={TONES[state]} /> {said.states[state]}
            </>
          ),
        },
        { key: "tries", head: heads.tries, figures: true, cell: ({ tries }) => tries },
        {
          key: "next",
          head: heads.next,
          tight: true,
          cell: ({ state, tries, nextTryAt }) =>
            state === "waiting" && tries > 0 ? <When at={nextTryAt} zone={zone} as="short" /> : "–",
        },
        { key: "why", head: heads.why, cell: ({ lastError }) => lastError || "–" },
      ]}
    />
  );
}
