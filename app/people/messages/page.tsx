import { latestMessages, listTargets, type MessageRow, mailServer } from "../../../db/queries/messages";
import { requirePage } from "../../access";
import { database } from "../../database";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { StateShape, type Tone } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { plant } from "../../plant";
import { AddReceiver, EndReceiver, MailServerForm, SendAgain } from "./forms";

export const metadata = { title: "Messages" };

const SHOWN = 50;

const TONES: Record<MessageRow["state"], Tone> = { waiting: "watch", sent: "done", "given up": "act" };

/** Who is told of alarms outside the program, and whether it arrived. */
export default async function MessagesPage() {
  await requirePage("/people/messages");
  const db = await database();
  const { zone } = await plant();
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
    <PageFrame
      title="Messages"
      above={<Link href="/people">People</Link>}
      purpose="Raised alarms are told outside the program too: to another system by a signed webhook, to people by e-mail."
    >
      {failing.length > 0 ? (
        <Note
          kind="broken"
          title={`${failing.length} of the latest messages did not arrive`}
          actions={<SendAgain />}
        >
          They are tried again with growing pauses for about a day. The reason stands beside each below.
        </Note>
      ) : null}
      <Section title="Receivers">
        <Table
          caption="Receivers"
          isCaptionShown={false}
          rows={targets}
          rowKey={({ id }) => id}
          empty={
            <Note kind="empty">
              Nobody is told yet. Alarms stand on the board and on Alarms all the same.
            </Note>
          }
          columns={[
            { key: "name", head: "Name", cell: ({ name }) => name },
            {
              key: "kind",
              head: "By",
              tight: true,
              cell: ({ kind }) => (kind === "mail" ? "e-mail" : "webhook"),
            },
            { key: "address", head: "Address", cell: ({ address }) => address },
            {
              key: "added",
              head: "Added",
              cell: ({ createdAt }) => <When at={createdAt} zone={zone} as="day" />,
            },
            {
              key: "end",
              head: <span className="only-read-out">Take out</span>,
              cell: ({ id, name }) => <EndReceiver id={id} name={name} />,
            },
          ]}
        />
        <AddReceiver />
      </Section>
      <Section title="Mail server">
        <MailServerForm server={shown} />
      </Section>
      <Section title="Latest messages">
        <Messages messages={messages} zone={zone} />
      </Section>
    </PageFrame>
  );
}

function Messages({ messages, zone }: { messages: readonly MessageRow[]; zone: string }) {
  return (
    <Table
      caption={`The latest ${SHOWN} messages`}
      isCaptionShown={false}
      rows={messages}
      rowKey={({ id }) => id}
      empty={<Note kind="empty">Nothing was sent yet.</Note>}
      columns={[
        {
          key: "at",
          head: "Written",
          tight: true,
          cell: ({ at }) => <When at={at} zone={zone} as="short" />,
        },
        { key: "to", head: "To", cell: ({ target }) => target },
        {
          key: "what",
          head: "What",
          cell: ({ detail }) =>
            detail.kind === "trial" ? (
              "trial"
            ) : (
              <Link href={`/alarms/${detail.alarmId}`}>alarm {detail.alarmId}</Link>
            ),
        },
        {
          key: "state",
          head: "State",
          tight: true,
          cell: ({ state }) => (
            <>
              <StateShape tone={TONES[state]} /> {state}
            </>
          ),
        },
        { key: "tries", head: "Tries", figures: true, cell: ({ tries }) => tries },
        {
          key: "next",
          head: "Next try",
          tight: true,
          cell: ({ state, tries, nextTryAt }) =>
            state === "waiting" && tries > 0 ? <When at={nextTryAt} zone={zone} as="short" /> : "–",
        },
        { key: "why", head: "Why not", cell: ({ lastError }) => lastError || "–" },
      ]}
    />
  );
}
