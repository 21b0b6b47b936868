import { index, integer, primaryKey, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { account } from "./schema";

/*
 * What belongs to people besides their accounts: links with which they choose a password, limits on guesses,
 * the devices on which they are known, and the mark at the end of the record.
 */

/** A one-time link with which a person chooses a password; a newer one takes the place of the one before. */
export const invitation = sqliteTable("invitation", {
  accountId: integer("account_id")
    .primaryKey()
    .references(() => account.id),
  tokenDigest: text("token_digest").notNull(),
  expiresAt: integer("expires_at").notNull(),
});

/** Wrong guesses in a row of one sort, and until when the next one waits: see people/guesses.ts. */
export const guess = sqliteTable(
  "guess",
  {
    /** What is counted, as a digest: it may be made of a login that somebody typed. */
    key: text("key").primaryKey(),
    wrong: integer("wrong").notNull(),
    lastAt: integer("last_at").notNull(),
    waitUntil: integer("wait_until").notNull(),
  },
  (t) => [index("guess_in_time").on(t.lastAt)],
);

/** A browser in which a person has given the right password or PIN; strangers' guesses do not lock it out. */
export const knownDevice = sqliteTable(
  "known_device",
  {
    accountId: integer("account_id")
      .notNull()
      .references(() => account.id),
    deviceDigest: text("device_digest").notNull(),
    lastAt: integer("last_at").notNull(),
  },
  (t) => [primaryKey({ columns: [t.accountId, t.deviceDigest] })],
);

/** One row: how many lines the record has and the digest of the last, so that a cut-off end shows. */
export const auditHead = sqliteTable("audit_head", {
  id: integer("id").primaryKey(),
  lines: integer("lines").notNull(),
  digest: text("digest").notNull(),
});
