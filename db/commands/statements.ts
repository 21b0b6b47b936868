import { randomBytes } from "node:crypto";
import { and, eq, isNull } from "drizzle-orm";
import { gaugeBasis } from "../../lib/capability/gauge-basis";
import type { ModelChoice } from "../../lib/capability/models/model";
import { partName } from "../../lib/format/names";
import { COMPUTED_BY } from "../../lib/software-version";
import {
  STATEMENT_FORMAT,
  type StatedFeature,
  type StatedReadings,
  type StatementContent,
} from "../../lib/statement/content";
import { type FeatureBehind, stateFeature } from "../../lib/statement/state-feature";
import { type Refused, refused } from "../../lib/words/refusal";
import { connectionOf, type Database, write } from "../connection";
import { shareOfFeature } from "../queries/gauges";
import { type FeatureHistory, featureHistory, namesOf } from "../queries/history";
import { plantSettings } from "../queries/settings";
import { type Statement, statementById, statementWindow } from "../queries/statements";
import { account, part } from "../schema";
import { capabilityStatement, statementShare, statementView } from "../schema-statements";
import { packed, tokenDigest } from "../statement-pack";
import { type Actor, record } from "./audit";

/** What a person asks to be stated. */
export type StatementDraft = {
  partId: number;
  title: string;
  windowWords: string;
  from: number | null;
  to: number | null;
  /** Codes of the lots that count; null for all. */
  lots: string[] | null;
  confidence: number;
  features: { id: number; model: ModelChoice }[];
  /** The statement it takes the place of; null for a first one. */
  supersedes: number | null;
};

export const MOST_FEATURES = 60;

/** Beyond this a statement is a copy of the store: a shorter window says the same. */
const MOST_READINGS = 400_000;

export type Frozen = { ok: true; id: number } | Refused;

/**
 * Computes what was asked and keeps it as a statement that nobody can change.
 *
 * Studying is done before the write lock is taken, on the measurements as they are then; the statement says which
 * those were. Refused, with nothing saved, for unknown features or lots, an empty title, a superseded statement that
 * is superseded already or of another part, or readings beyond what one statement keeps.
 */
export async function freezeStatement(
  database: Database,
  draft: StatementDraft,
  { actor, onProgress }: { actor: Actor; onProgress?: (done: number, total: number) => void },
): Promise<Frozen> {
  const title = draft.title.trim();
  if (title === "") return refused("statement-title");
  if (draft.features.length === 0) return refused("statement-empty");
  if (draft.features.length > MOST_FEATURES) {
    return refused("statement-features", draft.features.length, MOST_FEATURES);
  }
  const { orm } = connectionOf(database);
  const owner = orm.select().from(part).where(eq(part.id, draft.partId)).get();
  if (!owner) return refused("statement-part");
  const window = await statementWindow(database, draft);
  if (!window.ok) return window;

  const features: StatedFeature[] = [];
  const readings: StatedReadings[] = [];
  let kept = 0;
  for (const [done, { id, model }] of draft.features.entries()) {
    onProgress?.(done, draft.features.length);
    const history = await featureHistory(database, id);
    if (!history || history.feature.partId !== draft.partId) {
      return refused("statement-feature");
    }
    const gauge = await shareOfFeature(database, { ...history, window: window.value });
    const asked = {
      window: window.value,
      model,
      gaugeShare: gauge?.share ?? null,
      gaugeBasis: gauge && gaugeBasis(gauge),
      confidence: draft.confidence,
    };
    const stated = await stateFeature(behind(history), asked, (column, ids) =>
      namesOf(database, column, ids),
    );
    kept += stated.readings.value.length;
    if (kept > MOST_READINGS) {
      return refused("statement-readings", MOST_READINGS);
    }
    features.push(stated.feature);
    readings.push(stated.readings);
  }

  const { name, zone } = await plantSettings(database);
  const signer =
    actor.accountId === null
      ? null
      : orm.select({ name: account.name }).from(account).where(eq(account.id, actor.accountId)).get();
  const content: StatementContent = {
    format: STATEMENT_FORMAT,
    software: COMPUTED_BY,
    title,
    plant: { name, zone },
    part: { number: owner.number, revision: owner.revision, name: owner.name },
    window: { words: draft.windowWords, from: draft.from, to: draft.to, lots: draft.lots },
    confidence: draft.confidence,
    frozenAt: actor.at,
    signedBy: signer?.name ?? "the program",
    features,
  };
  return keep(database, { draft, content, readings, actor });
}

async function keep(
  database: Database,
  {
    draft,
    content,
    readings,
    actor,
  }: { draft: StatementDraft; content: StatementContent; readings: StatedReadings[]; actor: Actor },
): Promise<Frozen> {
  const stated = packed(content);
  const behindIt = packed(readings);
  return write(database, (connection): Frozen => {
    const { orm } = connection;
    if (draft.supersedes !== null) {
      const before = orm
        .select({ partId: capabilityStatement.partId })
        .from(capabilityStatement)
        .where(eq(capabilityStatement.id, draft.supersedes))
        .get();
      if (before?.partId !== draft.partId) return refused("statement-other-part", draft.supersedes);
      const successor = orm
        .select({ id: capabilityStatement.id })
        .from(capabilityStatement)
        .where(eq(capabilityStatement.supersedes, draft.supersedes))
        .get();
      if (successor) {
        return refused("statement-superseded", draft.supersedes, successor.id);
      }
    }
    const { id } = orm
      .insert(capabilityStatement)
      .values({
        partId: draft.partId,
        title: content.title,
        frozenAt: actor.at,
        accountId: actor.accountId,
        features: content.features.length,
        supersedes: draft.supersedes,
        content: stated.packed,
        readings: behindIt.packed,
        contentDigest: stated.digest,
        readingsDigest: behindIt.digest,
      })
      .returning({ id: capabilityStatement.id })
      .get();
    record(connection, actor, {
      action: "freeze capability statement",
      subject: subjectOf(id, content.part),
      after: {
        title: content.title,
        window: content.window,
        features: content.features.map(({ featureId, model }) => ({ featureId, model })),
        supersedes: draft.supersedes,
        contentDigest: stated.digest,
        readingsDigest: behindIt.digest,
      },
    });
    return { ok: true, id };
  });
}

function behind({ feature, series, limits, exclusions, answered }: FeatureHistory): FeatureBehind {
  const { id, name, kind, unit, nominal, resolution, keyCharacteristic, plan } = feature;
  return {
    feature: { id, name, kind, unit, nominal, resolution, keyCharacteristic, plan },
    series,
    limits: limits.map(
      ({ id: _, baselineFrom: __, baselineTo: ___, baselineSubgroups: ____, ...rest }) => rest,
    ),
    exclusions: exclusions.map(({ id: _, ...rest }) => rest),
    answered,
  };
}

/** A day's and a year's link; beyond that a statement is sent anew. */
export const SHARE_DAYS = { least: 1, most: 365 };

/** Opens a statement to whoever holds the token, which is told once and kept only as a digest. */
export async function shareStatement(
  database: Database,
  {
    statementId,
    recipient,
    expiresAt,
    actor,
  }: { statementId: number; recipient: string; expiresAt: number; actor: Actor },
): Promise<{ ok: true; id: number; token: string } | Refused> {
  const token = randomBytes(32).toString("base64url");
  const statement = await statementById(database, statementId);
  if (!statement) return refused("statement-unknown");
  if (recipient.trim() === "") return refused("share-recipient");
  if (!(expiresAt > actor.at)) return refused("share-past");
  return write(database, (connection) => {
    const { id } = connection.orm
      .insert(statementShare)
      .values({
        statementId,
        tokenDigest: tokenDigest(token),
        recipient: recipient.trim(),
        createdAt: actor.at,
        expiresAt,
        accountId: actor.accountId,
      })
      .returning({ id: statementShare.id })
      .get();
    record(connection, actor, {
      action: "share capability statement",
      subject: subjectOf(statementId, statement.part),
      after: { share: id, recipient: recipient.trim(), expiresAt },
    });
    return { ok: true as const, id, token };
  });
}

/** Ends a link at once. */
export async function revokeShare(
  database: Database,
  { id, actor }: { id: number; actor: Actor },
): Promise<{ ok: true; statementId: number } | Refused> {
  return write(database, (connection) => {
    const row = connection.orm
      .update(statementShare)
      .set({ revokedAt: actor.at })
      .where(and(eq(statementShare.id, id), isNull(statementShare.revokedAt)))
      .returning({ statementId: statementShare.statementId, recipient: statementShare.recipient })
      .get();
    if (!row) return refused("share-ended");
    record(connection, actor, {
      action: "revoke link to capability statement",
      subject: `capability statement ${row.statementId}`,
      after: { share: id, recipient: row.recipient },
    });
    return { ok: true as const, statementId: row.statementId };
  });
}

/** Notes that a link was used. */
export async function recordView(
  database: Database,
  { shareId, at, what }: { shareId: number; at: number; what: string },
): Promise<void> {
  await write(database, ({ orm }) => {
    orm.insert(statementView).values({ shareId, at, what }).run();
  });
}

function subjectOf(id: number, owner: Statement["part"] | StatementContent["part"]): string {
  return `capability statement ${id} of ${partName(owner)}`;
}
