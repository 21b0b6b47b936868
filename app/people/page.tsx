import { listPeople, sessionsOf } from "../../db/people/manage";
import { ROLE_WORDS } from "../../lib/people/roles";
import { mayCall, mayOpen, mayRun, requirePage } from "../access";
import { database } from "../database";
import { buttonClass, LinkButton } from "../fittings/controls";
import { PageFrame, Section } from "../fittings/page-frame";
import { Table } from "../fittings/table";
import { When } from "../fittings/when";
import { words } from "../language/language";
import { plant } from "../plant";
import { sessionToken } from "../session";
import styles from "./people.module.css";
import { AddPerson, ChangePerson, EndSession, PasswordForm, PinForm } from "./people-forms";

export const metadata = { title: "People" };

/** A person's own account; for an admin also everybody else's, and backups. */
export default async function PeoplePage() {
  const person = await requirePage("/people");
  const { zone } = await plant();
  const { plant: said } = await words();
  const db = await database();
  const people = await listPeople(db);
  const now = Date.now();
  const sessions = await sessionsOf(db, { accountId: person.id, token: await sessionToken(), now });
  const own = people.find(({ id }) => id === person.id);
  return (
    <PageFrame
      title="People"
      purpose="Your own password, PIN and sessions; for an admin also who may do what."
      actions={
        mayOpen(person, "/people/keys") ? (
          <>
            <LinkButton href="/people/keys">Keys of machines</LinkButton>
            <LinkButton href="/people/messages">Messages</LinkButton>
            <LinkButton href="/people/plant">{said.open}</LinkButton>
          </>
        ) : null
      }
    >
      <Section
        title={`Your account: ${person.name}`}
        purpose="With the PIN you put your name to an answer on a tablet on which somebody else is signed in."
      >
        <div className={styles.sideBySide}>
          <PinForm hasPin={own?.hasPin ?? false} />
          <PasswordForm />
        </div>
      </Section>
      <Section title="Where you are signed in">
        <Table
          caption="Your sessions, the newest first"
          isCaptionShown={false}
          rows={sessions}
          rowKey={({ id }) => id}
          columns={[
            {
              key: "device",
              head: "Browser",
              cell: ({ device, isThis }) => (isThis ? `${device}, this one` : device),
            },
            { key: "since", head: "Since", cell: ({ createdAt }) => <When at={createdAt} zone={zone} /> },
            { key: "until", head: "Until", cell: ({ expiresAt }) => <When at={expiresAt} zone={zone} /> },
            {
              key: "end",
              head: "End it",
              cell: ({ id, device, isThis }) =>
                isThis ? "by signing out" : <EndSession id={id} device={device} />,
            },
          ]}
        />
      </Section>
      {mayRun(person, "changePerson") ? (
        <Section
          title="Accounts"
          purpose="Nobody is ever removed: what a person did keeps their name. A deactivated account lets nobody in."
        >
          <Table
            caption="Accounts, by name"
            isCaptionShown={false}
            rows={people}
            rowKey={({ id }) => id}
            columns={[
              { key: "name", head: "Name", cell: ({ name, demo }) => (demo ? `${name} (demo)` : name) },
              { key: "login", head: "Login", tight: true, cell: ({ login }) => login },
              {
                key: "roles",
                head: "Roles",
                cell: ({ roles }) => roles.map((role) => ROLE_WORDS[role]).join(", "),
              },
              { key: "pin", head: "PIN", cell: ({ hasPin }) => (hasPin ? "set" : "none") },
              { key: "state", head: "State", cell: (row) => <StateOf {...row} zone={zone} /> },
              {
                key: "change",
                head: "Change",
                cell: ({ id, name, roles, deactivatedAt }) => (
                  <ChangePerson person={{ id, name, roles, isActive: deactivatedAt === null }} />
                ),
              },
            ]}
          />
        </Section>
      ) : null}
      {mayRun(person, "addPerson") ? (
        <Section title="Add a person">
          <AddPerson />
        </Section>
      ) : null}
      {mayCall(person, "GET /api/backup") ? (
        <Section
          title="Backup"
          purpose="A copy of everything as of one moment, taken while the line goes on storing. It holds the accounts with the digests of their passwords: keep it as you keep keys."
        >
          <p>
            <a href="/api/backup" download className={buttonClass({})}>
              Take and download a backup
            </a>
          </p>
        </Section>
      ) : null}
    </PageFrame>
  );
}

function StateOf({
  hasPassword,
  deactivatedAt,
  zone,
}: {
  hasPassword: boolean;
  deactivatedAt: number | null;
  zone: string;
}) {
  if (deactivatedAt !== null)
    return (
      <>
        deactivated since <When at={deactivatedAt} zone={zone} as="day" />
      </>
    );
  return hasPassword ? "active" : "waits for its link to be used";
}
