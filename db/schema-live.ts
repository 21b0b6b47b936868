import { index, integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { account } from "./schema";

/*
 * Tables of what goes on between this program and others: news for open pages, keys of machines that post, and
 * messages on their way out. `schema.ts` has the plant's own.
 */

/**
 * What happened, for open pages: each row is written in the transaction of the change it tells of. Ids grow in
 * the order of commits, because a transaction that writes holds the only write lock; AUTOINCREMENT never gives
 * one twice, so that a page can ask for what came after the last it has seen.
 */
export const news = sqliteTable("news", {
  id: integer("id").primaryKey({ autoIncrement: true }),
  at: integer("at").notNull(),
  kind: text("kind").notNull(),
  detail: text("detail").notNull(),
});

/** Lets a machine in: its secret is shown once and stored as a digest. */
export const apiKey = sqliteTable("api_key", {
  id: integer("id").primaryKey(),
  name: text("name").notNull(),
  /** The first characters of the secret, by which a person tells keys apart. */
  hint: text("hint").notNull(),
  secretDigest: text("secret_digest").notNull().unique(),
  scopes: text("scopes", { mode: "json" }).$type<string[]>().notNull(),
  createdAt: integer("created_at").notNull(),
  accountId: integer("account_id").references(() => account.id),
  expiresAt: integer("expires_at"),
  lastUsedAt: integer("last_used_at"),
  revokedAt: integer("revoked_at"),
});

/** What a posted request was answered, so that the same one sent again gets the same answer and stores nothing. */
export const postAnswer = sqliteTable(
  "post_answer",
  {
    apiKeyId: integer("api_key_id").notNull(),
    idempotencyKey: text("idempotency_key").notNull(),
    bodyDigest: text("body_digest").notNull(),
    status: integer("status").notNull(),
    answer: text("answer").notNull(),
    at: integer("at").notNull(),
  },
  (t) => [primaryKey({ columns: [t.apiKeyId, t.idempotencyKey] }), index("post_answer_in_time").on(t.at)],
);

/** Where alarms are told outside the program. */
export const messageTarget = sqliteTable("message_target", {
  id: integer("id").primaryKey(),
  kind: text("kind").notNull(),
  name: text("name").notNull(),
  address: text("address").notNull(),
  /** Signs a webhook's messages, so it is kept as it is; empty for e-mail. */
  secret: text("secret").notNull().default(""),
  createdAt: integer("created_at").notNull(),
  accountId: integer("account_id").references(() => account.id),
  endedAt: integer("ended_at"),
});

/** Messages on their way out: written with what they tell of, taken out by whoever sends them. */
export const messageOut = sqliteTable(
  "message_out",
  {
    id: integer("id").primaryKey({ autoIncrement: true }),
    targetId: integer("target_id")
      .notNull()
      .references(() => messageTarget.id),
    kind: text("kind").notNull(),
    detail: text("detail").notNull(),
    at: integer("at").notNull(),
    state: text("state").notNull(),
    tries: integer("tries").notNull().default(0),
    nextTryAt: integer("next_try_at").notNull(),
    endedAt: integer("ended_at"),
    lastError: text("last_error").notNull().default(""),
  },
  (t) => [index("message_out_waiting").on(t.state, t.nextTryAt)],
);
