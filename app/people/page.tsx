import { listPeople, sessionsOf } from "../../db/people/manage";
import type { Words } from "../../lib/words/words";
import { mayCall, mayOpen, mayRun, requirePage } from "../access";
import { database } from "../database";
import { buttonClass, LinkButton } from "../fittings/controls";
import { Filled } from "../fittings/filled";
import { PageFrame, Section } from "../fittings/page-frame";
import { Table } from "../fittings/table";
import { When } from "../fittings/when";
import { words } from "../language/language";
import { plant } from "../plant";
import { sessionToken } from "../session";
import { deviceIn } from "./device-words";
import styles from "./people.module.css";
import { AddPerson, ChangePerson, EndSession, PasswordForm, PinForm } from "./people-forms";

export async function generateMetadata() {
  return { title: (await words()).people.title };
}

/** A person's own account; for an admin also everybody else's, and backups. */
export default async function PeoplePage() {
  const person = await requirePage("/people");
  const { zone } = await plant();
  const { people: said, plant: plantWords, trade } = await words();
  const { sessions: here, accounts } = said;
  const db = await database();
  const people = await listPeople(db);
  const now = Date.now();
  const sessions = await sessionsOf(db, { accountId: person.id, token: await sessionToken(), now });
  const forms = { ...said.personForm, roleNames: trade.roles };
  const own = people.find(({ id }) => id === person.id);
  return (
    <PageFrame
      title={said.title}
      purpose={said.purpose}
      actions={
        mayOpen(person, "/people/keys") ? (
          <>
            <LinkButton href="/people/keys">{said.toKeys}</LinkButton>
            <LinkButton href="/people/messages">{said.toMessages}</LinkButton>
            <LinkButton href="/people/plant">{plantWords.open}</LinkButton>
          </>
        ) : null
      }
    >
      <Section title={said.own(person.name)} purpose={said.ownPurpose}>
        <div className={styles.sideBySide}>
          <PinForm hasPin={own?.hasPin ?? false} words={said.pinForm} />
          <PasswordForm words={said.passwordForm} />
        </div>
      </Section>
      <Section title={here.title}>
        <Table
          caption={here.caption}
          isCaptionShown={false}
          rows={sessions}
          rowKey={({ id }) => id}
          columns={[
            {
              key: "device",
              head: here.browser,
              cell: ({ device, isThis }) =>
                isThis ? here.thisOne(deviceIn(device, here)) : deviceIn(device, here),
            },
            { key: "since", head: here.since, cell: ({ createdAt }) => <When at={createdAt} zone={zone} /> },
            { key: "until", head: here.until, cell: ({ expiresAt }) => <When at={expiresAt} zone={zone} /> },
            {
              key: "end",
              head: here.end,
              cell: ({ id, device, isThis }) =>
                isThis ? (
                  here.signOut
                ) : (
                  <EndSession id={id} device={deviceIn(device, here)} words={here.form} />
                ),
            },
          ]}
        />
      </Section>
      {mayRun(person, "changePerson") ? (
        <Section title={accounts.title} purpose={accounts.purpose}>
          <Table
            caption={accounts.caption}
            isCaptionShown={false}
            rows={people}
            rowKey={({ id }) => id}
            columns={[
              {
                key: "name",
                head: accounts.name,
                cell: ({ name, demo }) => (demo ? accounts.demo(name) : name),
              },
              { key: "login", head: accounts.login, tight: true, cell: ({ login }) => login },
              {
                key: "roles",
                head: accounts.roles,
                cell: ({ roles }) => roles.map((role) => trade.roles[role]).join(", "),
              },
              {
                key: "pin",
                head: accounts.pin,
                cell: ({ hasPin }) => (hasPin ? accounts.pinSet : accounts.noPin),
              },
              {
                key: "state",
                head: accounts.state,
                cell: (row) => <StateOf {...row} zone={zone} words={accounts} />,
              },
              {
                key: "change",
                head: accounts.change,
                cell: ({ id, name, roles, deactivatedAt }) => (
                  <ChangePerson
                    person={{ id, name, roles, isActive: deactivatedAt === null }}
                    words={forms}
                  />
                ),
              },
            ]}
          />
        </Section>
      ) : null}
      {mayRun(person, "addPerson") ? (
        <Section title={said.add}>
          <AddPerson words={forms} />
        </Section>
      ) : null}
      {mayCall(person, "GET /api/backup") ? (
        <Section title={said.backup.title} purpose={said.backup.purpose}>
          <p>
            <a href="/api/backup" download className={buttonClass({})}>
              {said.backup.take}
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
  words: said,
}: {
  hasPassword: boolean;
  deactivatedAt: number | null;
  zone: string;
  words: Words["people"]["accounts"];
}) {
  if (deactivatedAt !== null)
    return (
      <Filled
        text={said.deactivatedSince}
        holes={{ day: <When at={deactivatedAt} zone={zone} as="day" /> }}
      />
    );
  return hasPassword ? said.active : said.waits;
}
