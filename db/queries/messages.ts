import { and, asc, desc, eq, isNull, lte } from "drizzle-orm";
import { connectionOf, type Database } from "../connection";
import { feature, part, setting } from "../schema";
import { alarm } from "../schema-alarms";
import { messageOut, messageTarget } from "../schema-live";

export const TARGET_KINDS = ["webhook", "mail"] as const;
export type TargetKind = (typeof TARGET_KINDS)[number];

/** What a message tells of; what the alarm says is read when it is sent. */
export type MessageDetail = { kind: "alarm"; alarmId: number } | { kind: "trial" };

export type Target = {
  id: number;
  kind: TargetKind;
  name: string;
  address: string;
  createdAt: number;
  endedAt: number | null;
};

/** Receivers that were not taken out, in the order in which they were added. */
export async function listTargets(database: Database): Promise<Target[]> {
  return connectionOf(database)
    .orm.select()
    .from(messageTarget)
    .where(isNull(messageTarget.endedAt))
    .orderBy(asc(messageTarget.id))
    .all()
    .map(({ secret: _, accountId: __, ...row }) => ({ ...row, kind: row.kind as TargetKind }));
}

export type MessageState = "waiting" | "sent" | "given up";

export type MessageRow = {
  id: number;
  target: string;
  kind: TargetKind;
  detail: MessageDetail;
  at: number;
  state: MessageState;
  tries: number;
  nextTryAt: number;
  endedAt: number | null;
  lastError: string;
};

/** Messages, the latest first. */
export async function latestMessages(
  database: Database,
  { limit }: { limit: number },
): Promise<MessageRow[]> {
  return connectionOf(database)
    .orm.select({ message: messageOut, target: messageTarget })
    .from(messageOut)
    .innerJoin(messageTarget, eq(messageTarget.id, messageOut.targetId))
    .orderBy(desc(messageOut.id))
    .limit(limit)
    .all()
    .map(({ message, target }) => ({
      id: message.id,
      target: target.name,
      kind: target.kind as TargetKind,
      detail: JSON.parse(message.detail) as MessageDetail,
      at: message.at,
      state: message.state as MessageState,
      tries: message.tries,
      nextTryAt: message.nextTryAt,
      endedAt: message.endedAt,
      lastError: message.lastError,
    }));
}

export type DueMessage = {
  id: number;
  at: number;
  target: { id: number; kind: TargetKind; address: string; secret: string };
  /** Null for a trial. */
  alarm: {
    id: number;
    part: string;
    feature: string;
    words: string;
    raisedAt: number;
    isWithdrawn: boolean;
  } | null;
};

/** Messages whose time has come, the oldest first. Reads the index of waiting messages. */
export async function dueMessages(
  database: Database,
  { now, limit }: { now: number; limit: number },
): Promise<DueMessage[]> {
  const { orm } = connectionOf(database);
  const rows = orm
    .select({ message: messageOut, target: messageTarget })
    .from(messageOut)
    .innerJoin(messageTarget, eq(messageTarget.id, messageOut.targetId))
    .where(and(eq(messageOut.state, "waiting"), lte(messageOut.nextTryAt, now)))
    .orderBy(asc(messageOut.id))
    .limit(limit)
    .all();
  return rows.map(({ message, target }) => {
    const detail = JSON.parse(message.detail) as MessageDetail;
    const { id, kind, address, secret } = target;
    return {
      id: message.id,
      at: message.at,
      target: { id, kind: kind as TargetKind, address, secret },
      alarm: detail.kind === "trial" ? null : alarmTold(database, detail.alarmId),
    };
  });
}

function alarmTold(database: Database, id: number): DueMessage["alarm"] {
  const row = connectionOf(database)
    .orm.select({
      id: alarm.id,
      part: part.number,
      feature: feature.name,
      words: alarm.words,
      raisedAt: alarm.raisedAt,
      withdrawnAt: alarm.withdrawnAt,
    })
    .from(alarm)
    .innerJoin(feature, eq(feature.id, alarm.featureId))
    .innerJoin(part, eq(part.id, feature.partId))
    .where(eq(alarm.id, id))
    .get();
  if (!row) return null;
  const { withdrawnAt, ...told } = row;
  return { ...told, isWithdrawn: withdrawnAt !== null };
}

export type MailServer = {
  host: string;
  port: number;
  /** TLS from the first byte; without it the connection is made safe when the server offers it. */
  secure: boolean;
  user: string;
  password: string;
  from: string;
};

export const MAIL_SETTING = "mail server";

/** The server through which e-mail goes; null while none is set. */
export async function mailServer(database: Database): Promise<MailServer | null> {
  const row = connectionOf(database)
    .orm.select({ value: setting.value })
    .from(setting)
    .where(eq(setting.key, MAIL_SETTING))
    .get();
  return row ? (JSON.parse(row.value) as MailServer) : null;
}
