import { createTransport } from "nodemailer";
import { noteTry } from "../../db/commands/messages";
import type { Database } from "../../db/connection";
import { type DueMessage, dueMessages, type MailServer, mailServer } from "../../db/queries/messages";
import { plantSettings } from "../../db/queries/settings";
import { WORDS } from "../../lib/words/words";
import { postWebhook } from "./webhook";
import { type MailNames, mailText, webhookBody } from "./words";

const AT_ONCE = 50;
const MAIL_WITHIN_MS = 20_000;

/**
 * Sends what is due, to each receiver by itself so that a dead one holds up no other, and notes how each try went.
 * Returns how many messages were due.
 */
export async function sendDue(
  database: Database,
  { now, allowsOwn }: { now: number; allowsOwn: boolean },
): Promise<number> {
  const due = await dueMessages(database, { now, limit: AT_ONCE });
  const names = await plantSettings(database);
  const byTarget = new Map<number, DueMessage[]>();
  for (const message of due) {
    const known = byTarget.get(message.target.id);
    if (known) known.push(message);
    else byTarget.set(message.target.id, [message]);
  }
  await Promise.all(
    [...byTarget.values()].map(async (messages) => {
      if (messages[0]?.target.kind === "webhook") {
        await sendToWebhook(database, messages, { plant: names.name, now, allowsOwn });
        return;
      }
      const server = await mailServer(database);
      const error = await failureOf(
        sendMail(server, messages, { plant: names.name, zone: names.zone, words: WORDS[names.language] }),
      );
      await noteTry(database, { ids: messages.map(({ id }) => id), error, now });
    }),
  );
  return due.length;
}

/** One after the other; when one fails, those behind it share its fate instead of waiting ten seconds each. */
async function sendToWebhook(
  database: Database,
  messages: readonly DueMessage[],
  { plant, now, allowsOwn }: { plant: string; now: number; allowsOwn: boolean },
): Promise<void> {
  for (const [index, message] of messages.entries()) {
    const { id, target } = message;
    const body = webhookBody(message, { plant });
    const error = await failureOf(postWebhook({ ...target, id, body, now, allowsOwn }));
    const tried = error === null ? [message] : messages.slice(index);
    await noteTry(database, { ids: tried.map((each) => each.id), error, now });
    if (error !== null) return;
  }
}

async function sendMail(
  server: MailServer | null,
  messages: readonly DueMessage[],
  names: MailNames,
): Promise<void> {
  const to = messages[0]?.target.address;
  if (!server || !to) throw new Error("No mail server is set. An admin sets it on the page Messages.");
  const { host, port, secure, user, password, from } = server;
  const transport = createTransport({
    host,
    port,
    secure,
    ...(user === "" ? {} : { auth: { user, pass: password } }),
    connectionTimeout: MAIL_WITHIN_MS,
    greetingTimeout: MAIL_WITHIN_MS,
    socketTimeout: MAIL_WITHIN_MS,
  });
  try {
    await transport.sendMail({ from, to, ...mailText(messages, names) });
  } finally {
    transport.close();
  }
}

async function failureOf(sending: Promise<void>): Promise<string | null> {
  try {
    await sending;
    return null;
  } catch (error) {
    return (error instanceof Error ? error.message : String(error)).slice(0, 300);
  }
}
