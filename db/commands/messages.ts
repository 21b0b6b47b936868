import { and, eq, inArray, isNull, lt } from "drizzle-orm";
import { waitAfter } from "../../lib/messages/back-off";
import { type Refused, refused } from "../../lib/words/refusal";
import { type Connection, type Database, once, write } from "../connection";
import { newToken } from "../people/token";
import { MAIL_SETTING, type MailServer, type MessageDetail, type TargetKind } from "../queries/messages";
import { setting } from "../schema";
import { messageOut, messageTarget } from "../schema-live";
import { type Actor, record } from "./audit";

/*
 * Messages to people outside the program. A message is written in the transaction of the alarm it tells of and is
 * sent afterwards by whoever holds the lease, so that none is lost and none tells of what never was. A receiver
 * may get one twice, when the answer to the first was lost; its number tells.
 */

/** Sent messages are kept this long for a look back. */
const KEPT_MS = 30 * 24 * 3_600_000;

/** Puts a message to every target into the box. For `tell`, inside the transaction of what it tells of. */
export function queueMessages(connection: Connection, detail: MessageDetail, at: number): void {
  const { targets, add } = statementsOf(connection);
  for (const targetId of targets.all() as number[])
    add.run(targetId, detail.kind, JSON.stringify(detail), at, at);
}

const statementsOf = once(({ sqlite }) => ({
  targets: sqlite.prepare("select id from message_target where ended_at is null").pluck(),
  add: sqlite.prepare(
    `insert into message_out (target_id, kind, detail, at, state, next_try_at) values (?, ?, ?, ?, 'waiting', ?)`,
  ),
}));

/** Adds a receiver of messages and puts a trial message for it into the box. A webhook's secret is made here. */
export async function addTarget(
  database: Database,
  { kind, name, address, actor }: { kind: TargetKind; name: string; address: string; actor: Actor },
): Promise<{ ok: true; secret: string } | Refused> {
  const secret = kind === "webhook" ? newToken() : "";
  return write(database, (connection) => {
    const { orm } = connection;
    const known = orm
      .select({ id: messageTarget.id })
      .from(messageTarget)
      .where(and(eq(messageTarget.address, address), isNull(messageTarget.endedAt)))
      .get();
    if (known) return refused("receiver-there");
    const row = { kind, name, address, createdAt: actor.at, accountId: actor.accountId };
    const { id } = orm
      .insert(messageTarget)
      .values({ ...row, secret })
      .returning({ id: messageTarget.id })
      .get();
    record(connection, actor, { action: "add receiver", subject: `receiver ${name}`, after: { id, ...row } });
    const trial: MessageDetail = { kind: "trial" };
    orm
      .insert(messageOut)
      .values({
        targetId: id,
        kind: trial.kind,
        detail: JSON.stringify(trial),
        at: actor.at,
        state: "waiting",
        nextTryAt: actor.at,
      })
      .run();
    return { ok: true, secret };
  });
}

/** Sends nothing more to a receiver; what still waits for it is given up. */
export async function endTarget(
  database: Database,
  { id, actor }: { id: number; actor: Actor },
): Promise<{ ok: true; name: string } | Refused> {
  return write(database, (connection) => {
    const { orm } = connection;
    const row = orm
      .update(messageTarget)
      .set({ endedAt: actor.at })
      .where(and(eq(messageTarget.id, id), isNull(messageTarget.endedAt)))
      .returning({ name: messageTarget.name })
      .get();
    if (!row) return refused("receiver-gone");
    orm
      .update(messageOut)
      .set({ state: "given up", endedAt: actor.at, lastError: "The receiver was taken out." })
      .where(and(eq(messageOut.targetId, id), eq(messageOut.state, "waiting")))
      .run();
    record(connection, actor, { action: "end receiver", subject: `receiver ${row.name}`, after: { id } });
    return { ok: true, name: row.name };
  });
}

/** Writes down how a try went; `error` is null when it arrived. Gives up by itself after a day of tries. */
export async function noteTry(
  database: Database,
  { ids, error, now }: { ids: readonly number[]; error: string | null; now: number },
): Promise<void> {
  await write(database, ({ orm }) => {
    const rows = orm
      .select()
      .from(messageOut)
      .where(and(inArray(messageOut.id, [...ids]), eq(messageOut.state, "waiting")))
      .all();
    for (const { id, tries: before } of rows) {
      const tries = before + 1;
      const wait = error === null ? null : waitAfter(tries);
      const next =
        error === null
          ? { state: "sent", endedAt: now }
          : wait === null
            ? { state: "given up", endedAt: now }
            : { nextTryAt: now + wait };
      orm
        .update(messageOut)
        .set({ tries, lastError: error ?? "", ...next })
        .where(eq(messageOut.id, id))
        .run();
    }
  });
}

/** Lets a person have everything that waits or was given up tried again at once; returns how many that are. */
export async function tryAgain(database: Database, { actor }: { actor: Actor }): Promise<number> {
  return write(database, (connection) => {
    const open = connection.orm
      .select({ id: messageTarget.id })
      .from(messageTarget)
      .where(isNull(messageTarget.endedAt));
    const { changes } = connection.orm
      .update(messageOut)
      .set({ state: "waiting", tries: 0, nextTryAt: actor.at, endedAt: null })
      .where(and(inArray(messageOut.state, ["waiting", "given up"]), inArray(messageOut.targetId, open)))
      .run();
    if (changes > 0) record(connection, actor, { action: "send again", subject: `${changes} messages` });
    return changes;
  });
}

/** Sets the server through which e-mail goes. The record does not get the password. */
export async function setMailServer(
  database: Database,
  { server, actor }: { server: MailServer; actor: Actor },
): Promise<void> {
  await write(database, (connection) => {
    const value = JSON.stringify(server);
    connection.orm
      .insert(setting)
      .values({ key: MAIL_SETTING, value })
      .onConflictDoUpdate({ target: setting.key, set: { value } })
      .run();
    const { password: _, ...told } = server;
    record(connection, actor, { action: "set mail server", subject: "mail server", after: told });
  });
}

/** Forgets messages that ended a month ago; returns how many those were. */
export async function pruneMessages(database: Database, { now }: { now: number }): Promise<number> {
  return write(
    database,
    ({ orm }) =>
      orm
        .delete(messageOut)
        .where(lt(messageOut.endedAt, now - KEPT_MS))
        .run().changes,
  );
}
