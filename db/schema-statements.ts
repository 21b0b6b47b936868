import { blob, index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { account, part } from "./schema";

/*
 * Capability statements as they were signed. Triggers of the migration refuse every change and every removal of
 * `capability_statement` and `statement_view`, and of a link everything but its revocation.
 */

export const capabilityStatement = sqliteTable(
  "capability_statement",
  {
    id: integer("id").primaryKey({ autoIncrement: true }),
    partId: integer("part_id")
      .notNull()
      .references(() => part.id),
    title: text("title").notNull(),
    frozenAt: integer("frozen_at").notNull(),
    accountId: integer("account_id").references(() => account.id),
    features: integer("features").notNull(),
    /** The statement it takes the place of. */
    supersedes: integer("supersedes"),
    /** All that was stated, as JSON, packed. */
    content: blob("content", { mode: "buffer" }).notNull(),
    /** The readings behind it, as JSON, packed. */
    readings: blob("readings", { mode: "buffer" }).notNull(),
    /** SHA-256 of the JSON of both. */
    contentDigest: text("content_digest").notNull(),
    readingsDigest: text("readings_digest").notNull(),
  },
  (t) => [uniqueIndex("statement_superseded").on(t.supersedes), index("statement_by_part").on(t.partId)],
);

/** A link by which somebody without an account reads one statement. The token itself is kept nowhere. */
export const statementShare = sqliteTable(
  "statement_share",
  {
    id: integer("id").primaryKey({ autoIncrement: true }),
    statementId: integer("statement_id")
      .notNull()
      .references(() => capabilityStatement.id),
    tokenDigest: text("token_digest").notNull().unique(),
    recipient: text("recipient").notNull(),
    createdAt: integer("created_at").notNull(),
    expiresAt: integer("expires_at").notNull(),
    revokedAt: integer("revoked_at"),
    accountId: integer("account_id").references(() => account.id),
  },
  (t) => [index("share_by_statement").on(t.statementId)],
);

export const statementView = sqliteTable(
  "statement_view",
  {
    id: integer("id").primaryKey({ autoIncrement: true }),
    shareId: integer("share_id")
      .notNull()
      .references(() => statementShare.id),
    at: integer("at").notNull(),
    what: text("what").notNull(),
  },
  (t) => [index("view_by_share").on(t.shareId)],
);
