import "server-only";
import { recordView } from "../../db/commands/statements";
import { openShare, type Statement, statementById } from "../../db/queries/statements";
import { database } from "../database";

/** A token is 32 random bytes in base64url; anything else is not looked up. */
const TOKEN = /^[A-Za-z0-9_-]{43}$/;

/** Viewings of one link in a minute: more is no reader. */
const MOST_A_MINUTE = 60;
const MINUTE = 60_000;

type Holder = { steadyrestViewings?: Map<number, number[]> };
const holder = globalThis as Holder;

export type Opened =
  | { state: "open"; statement: Statement; expiresAt: number; recipient: string }
  /** Unknown, expired or revoked: whoever asks is not told which. */
  | { state: "closed" }
  | { state: "busy" };

/** What a link shows, with the viewing recorded. Links live by the real clock, also in a demo that stands still. */
export async function opened(token: string, what: string): Promise<Opened> {
  if (!TOKEN.test(token)) return { state: "closed" };
  const db = await database();
  const now = Date.now();
  const share = await openShare(db, { token, now });
  if (!share) return { state: "closed" };
  if (isTooOften(share.shareId, now)) return { state: "busy" };
  const statement = await statementById(db, share.statementId);
  if (!statement) return { state: "closed" };
  await recordView(db, { shareId: share.shareId, at: now, what });
  return { state: "open", statement, expiresAt: share.expiresAt, recipient: share.recipient };
}

function isTooOften(shareId: number, now: number): boolean {
  holder.steadyrestViewings ??= new Map();
  const recent = (holder.steadyrestViewings.get(shareId) ?? []).filter((at) => at > now - MINUTE);
  if (recent.length >= MOST_A_MINUTE) return true;
  holder.steadyrestViewings.set(shareId, [...recent, now]);
  return false;
}
