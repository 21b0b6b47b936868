import { describe, expect, test } from "vitest";
import { addExclusion } from "../../db/commands/limits";
import {
  freezeStatement,
  recordView,
  revokeShare,
  type StatementDraft,
  shareStatement,
} from "../../db/commands/statements";
import { undoIntake } from "../../db/commands/undo-intake";
import { connectionOf, type Database } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { featureHistory } from "../../db/queries/history";
import { recomputeStatement } from "../../db/queries/recompute-statement";
import {
  listStatements,
  openShare,
  sharesOf,
  statementById,
  statementReadings,
} from "../../db/queries/statements";
import { featureStudy } from "../../lib/capability/feature-study";
import { recomputedWords } from "../../lib/statement/compare";
import { bringIn, emptyPlant, SOMEBODY, tidyFile } from "./plant";

const HOUR = 3_600_000;
const BEGUN = Date.UTC(2026, 0, 1);
const DAY = 24 * HOUR;

/** Invented readings: what matters here is that the same come back. */
const rows = (count: number, feature = "bore") =>
  Array.from({ length: count }, (_, i) => ({
    piece: `S-${i}`,
    takenAt: BEGUN + i * HOUR,
    feature,
    value: (10 + 0.03 * Math.sin(1.7 * i) + 0.01 * Math.cos(5.1 * i)).toFixed(4),
    lot: `L-${Math.floor(i / 20)}`,
  }));

async function plantWithBore(count = 150) {
  const database = await emptyPlant();
  const outcome = await bringIn(database, tidyFile(rows(count)), { subgroupSize: 5 });
  expect(outcome).toMatchObject({ state: "done", accepted: count });
  const [feature] = await listFeatures(database);
  if (!feature) throw new Error("no feature");
  const draft: StatementDraft = {
    partId: feature.partId,
    title: "First delivery",
    windowWords: "all measurements",
    from: null,
    to: BEGUN + 365 * DAY,
    lots: null,
    confidence: 0.95,
    features: [{ id: feature.id, model: "normal" }],
    supersedes: null,
  };
  return { database, feature, draft, intake: outcome.id };
}

const SAME = { signed: "1", now: "1" };

async function frozen(database: Database, draft: StatementDraft): Promise<number> {
  const saved = await freezeStatement(database, draft, { actor: SOMEBODY });
  if (!saved.ok) throw new Error(saved.message);
  return saved.id;
}

describe("a frozen statement", () => {
  test("states the figures of the study, with its readings, and comes out the same once more", async () => {
    const { database, feature, draft } = await plantWithBore();
    const id = await frozen(database, draft);
    const statement = (await statementById(database, id))!;
    const history = (await featureHistory(database, feature.id))!;
    const { study } = featureStudy({
      series: history.series,
      setup: history.setup,
      window: { from: null, to: draft.to, lots: null },
      resolution: feature.resolution,
      gaugeShare: null,
      confidence: 0.95,
      answered: history.answered,
      kind: feature.kind,
    });
    const stated = statement.content.features[0]!;
    expect(stated.study.Ppk).toBe(study.Ppk);
    expect(stated.study.lowerBounds).toEqual(study.lowerBounds);
    expect(stated.study.claim).toBe(study.claim);
    expect(statement.isWhole).toBe(true);

    const [readings] = await statementReadings(database, id);
    expect(readings!.value).toEqual(rows(150).map(({ value }) => Number(value)));
    expect(readings!.lot[25]).toBe("L-1");
    expect(stated.listing).toMatchObject({ count: 150, inside: 150, outside: 0 });
    expect(stated.listing!.max).toBe(Math.max(...readings!.value));

    const again = (await recomputeStatement(database, id))!;
    expect(again).toMatchObject([{ sameData: true, sameFigures: true, differences: [] }]);
    expect(recomputedWords(again, SAME)).toContain("Same to the last digit");
  });

  test("comes out the same by a fitted model, bootstrap and all", async () => {
    const { database, feature, draft } = await plantWithBore(60);
    const id = await frozen(database, {
      ...draft,
      features: [{ id: feature.id, model: "lognormal" }],
    });
    expect(await recomputeStatement(database, id)).toMatchObject([{ sameData: true, sameFigures: true }]);
  });

  test("names the reading that was corrected since, and the figures that follow", async () => {
    const { database, draft } = await plantWithBore();
    const id = await frozen(database, draft);
    const corrected = rows(1).map((row) => ({ ...row, value: "10.0555" }));
    await bringIn(database, tidyFile(corrected), { subgroupSize: 5 });
    const [found] = (await recomputeStatement(database, id))!;
    expect(found).toMatchObject({ sameData: false, sameFigures: false });
    expect(found!.differences[0]).toMatchObject({ now: expect.stringContaining("10.0555") });
    expect(recomputedWords([found!], SAME)).toContain("Not the same");
    // What was signed stays as it was.
    expect((await statementReadings(database, id))[0]!.value[0]).toBe(Number(rows(1)[0]!.value));
  });

  test("is not moved by what is left out or measured later", async () => {
    const { database, feature, draft } = await plantWithBore();
    const id = await frozen(database, { ...draft, to: BEGUN + 149 * HOUR });
    await addExclusion(database, {
      featureId: feature.id,
      from: BEGUN,
      to: BEGUN + 4 * HOUR,
      cause: "Chip in the fixture",
      actor: SOMEBODY,
    });
    const later = rows(160).slice(150);
    await bringIn(database, tidyFile(later), { subgroupSize: 5 });
    expect(await recomputeStatement(database, id)).toMatchObject([{ sameData: true, sameFigures: true }]);
  });

  test("says so when its measurements were undone", async () => {
    const { database, draft, intake } = await plantWithBore();
    const id = await frozen(database, draft);
    await undoIntake(database, { id: intake, actor: SOMEBODY });
    const [found] = (await recomputeStatement(database, id))!;
    expect(found!.sameData).toBe(false);
    expect((await statementById(database, id))!.content.features[0]!.study.count).toBe(150);
  });

  test("is refused by the database when somebody edits or removes it", async () => {
    const { database, draft } = await plantWithBore(30);
    const id = await frozen(database, draft);
    const { sqlite } = connectionOf(database);
    expect(() => sqlite.exec(`update capability_statement set title = 'other' where id = ${id}`)).toThrow(
      /not changed/,
    );
    expect(() => sqlite.exec(`delete from capability_statement where id = ${id}`)).toThrow(/not removed/);
    // REPLACE takes a row away without the triggers against removal.
    const columns =
      "part_id, 'other', frozen_at, account_id, features, supersedes, content, readings, content_digest, readings_digest";
    expect(() =>
      sqlite.exec(
        `insert or replace into capability_statement select id, ${columns} from capability_statement where id = ${id}`,
      ),
    ).toThrow(/not replaced/);
    expect((await statementById(database, id))?.title).toBe("First delivery");
  });

  test("is superseded once, by one of the same part, and both say so", async () => {
    const { database, draft } = await plantWithBore(30);
    const first = await frozen(database, draft);
    const second = await frozen(database, { ...draft, title: "Corrected", supersedes: first });
    const [newest, oldest] = await listStatements(database);
    expect(newest).toMatchObject({ id: second, supersedes: first, supersededBy: null });
    expect(oldest).toMatchObject({ id: first, supersededBy: second });
    const third = await freezeStatement(database, { ...draft, supersedes: first }, { actor: SOMEBODY });
    expect(third).toMatchObject({ ok: false, message: expect.stringContaining("already") });
    const none = await freezeStatement(database, { ...draft, supersedes: 99 }, { actor: SOMEBODY });
    expect(none).toMatchObject({ ok: false, message: expect.stringMatching(/^Nothing saved: /) });
  });

  test.each([
    ["a title", { title: " " }],
    ["a feature", { features: [] }],
    ["features of the plan", { features: [{ id: 999, model: "normal" as const }] }],
    ["lots that exist", { lots: ["L-0", "L-none"] }],
  ])("needs %s", async (_, change) => {
    const { database, draft } = await plantWithBore(30);
    const saved = await freezeStatement(database, { ...draft, ...change }, { actor: SOMEBODY });
    expect(saved).toMatchObject({ ok: false, message: expect.stringMatching(/^Nothing saved: /) });
    expect(await listStatements(database)).toEqual([]);
  });

  test("speaks of the chosen lots only", async () => {
    const { database, draft } = await plantWithBore(100);
    const id = await frozen(database, { ...draft, lots: ["L-0", "L-2"] });
    expect((await statementById(database, id))!.content.features[0]!.study.count).toBe(40);
  });
});

describe("a link", () => {
  test("opens one statement until it expires or is revoked, and its viewings are kept", async () => {
    const { database, draft } = await plantWithBore(30);
    const id = await frozen(database, draft);
    const expiresAt = SOMEBODY.at + 30 * DAY;
    const shared = await shareStatement(database, {
      statementId: id,
      recipient: "A customer",
      expiresAt,
      actor: SOMEBODY,
    });
    if (!shared.ok) throw new Error(shared.message);
    expect(shared.token.length).toBe(43); // 32 random bytes in base64url
    const now = SOMEBODY.at + DAY;
    const open = await openShare(database, { token: shared.token, now });
    expect(open).toMatchObject({ statementId: id, recipient: "A customer" });
    expect(await openShare(database, { token: `${shared.token}x`, now })).toBeNull();
    expect(await openShare(database, { token: shared.token, now: expiresAt })).toBeNull();
    const kept = connectionOf(database).sqlite.prepare("select * from statement_share").all();
    expect(JSON.stringify(kept)).not.toContain(shared.token);

    await recordView(database, { shareId: open!.shareId, at: now, what: "page" });
    expect(await sharesOf(database, id)).toMatchObject([{ views: 1, lastViewAt: now }]);

    const { sqlite } = connectionOf(database);
    expect(() =>
      sqlite.exec(`update statement_share set expires_at = expires_at + 1, revoked_at = ${now}`),
    ).toThrow(/revoked once/);
    expect(() =>
      sqlite.exec(
        "replace into statement_share select id, statement_id, token_digest, recipient, created_at, expires_at + 1, null, account_id from statement_share",
      ),
    ).toThrow(/not replaced/);

    const revoked = await revokeShare(database, { id: shared.id, actor: SOMEBODY });
    expect(revoked).toMatchObject({ ok: true, statementId: id });
    expect(await openShare(database, { token: shared.token, now })).toBeNull();
    expect(await revokeShare(database, { id: shared.id, actor: SOMEBODY })).toMatchObject({ ok: false });
    expect(() => sqlite.exec("update statement_share set revoked_at = null")).toThrow(/revoked once/);
    expect(() => sqlite.exec("delete from statement_view")).toThrow(/append-only/);
  });
});
