import { describe, expect, test } from "vitest";
import { actOnAlarm } from "../../db/commands/alarms";
import { signHandover } from "../../db/commands/handovers";
import { freezeLimits } from "../../db/commands/limits";
import { connectionOf, type Database } from "../../db/connection";
import { listAlarms } from "../../db/queries/alarms";
import { listFeatures } from "../../db/queries/features";
import { handoverContent } from "../../db/queries/handover-content";
import { handoverOf, listHandovers } from "../../db/queries/handovers";
import { featureHistory } from "../../db/queries/history";
import { type ShiftSpan, shiftAt } from "../../lib/handover/shift-span";
import { ENGLISH } from "../../lib/words/words";
import { bringIn, emptyPlant, type Row, tidyFile } from "./plant";

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
/** Monday, 5 January 2026, 22:00 in UTC: the night shift begins. */
const NIGHT = Date.UTC(2026, 0, 5, 22);
const SHIFTS = [
  { name: "day", starts: "06:00", ends: "22:00" },
  { name: "night", starts: "22:00", ends: "06:00" },
];
const settings = { shifts: SHIFTS, zone: "UTC" };

const pieces = (from: number, values: readonly number[]): Row[] =>
  values.map((value, i) => ({ piece: `S-${from + i}`, takenAt: NIGHT - HOUR + (from + i) * MINUTE, value }));

/** One alarm raised at 22:01, and somebody to answer it. */
async function nightWithAlarm(): Promise<{
  database: Database;
  alarmId: number;
  jo: number;
  span: ShiftSpan;
}> {
  const database = await emptyPlant();
  const steady = Array.from({ length: 60 }, (_, i) => 10 + ([0, 0.002, -0.002, 0.001][i % 4] as number));
  await bringIn(database, tidyFile(pieces(0, steady)), { subgroupSize: 1, at: NIGHT });
  const [feature] = await listFeatures(database);
  await freezeLimits(database, {
    featureId: feature!.id,
    baselineFrom: NIGHT - HOUR,
    baselineTo: NIGHT - MINUTE,
    effectiveFrom: null,
    reason: "steady",
    actor: { accountId: null, at: NIGHT },
  });
  await bringIn(database, tidyFile(pieces(60, [10.05])), { at: NIGHT + MINUTE });
  const [alarm] = await listAlarms(database, { open: true });
  const jo = Number(
    connectionOf(database)
      .sqlite.prepare(
        "insert into account (login, name, password_hash, roles, created_at) values ('jo', 'Jo Reed', '', '[]', 0)",
      )
      .run().lastInsertRowid,
  );
  return { database, alarmId: alarm!.id, jo, span: shiftAt(NIGHT, settings)! };
}

describe("a shift's handover", () => {
  test("writes itself: what is open, what was done, what is held", async () => {
    const { database, alarmId, jo, span } = await nightWithAlarm();
    const [feature] = await listFeatures(database);
    const { series } = (await featureHistory(database, feature!.id))!;
    await actOnAlarm(database, {
      id: alarmId,
      seen: Number.MAX_SAFE_INTEGER,
      acts: [
        { kind: "acknowledge", note: "On it." },
        { kind: "step", step: 0, done: true },
        { kind: "contain", decision: "hold", pieceIds: [series.piece[60]!], note: "Crate 7." },
      ],
      actor: { accountId: jo, at: NIGHT + 5 * MINUTE },
    });
    const { content, coversFrom } = await handoverContent(database, {
      span,
      now: NIGHT + HOUR,
      ...settings,
      words: ENGLISH,
    });
    expect(coversFrom).toBe(NIGHT);
    expect(content).toMatchObject({
      raised: 1,
      closed: 0,
      measurements: 1,
      open: [{ alarmId, feature: "bore", state: "acknowledged" }],
      holds: [{ alarmId, serials: ["S-60"], by: "Jo Reed" }],
      watch: [{ alarmId, words: "bore: still out; no action is written down yet." }],
    });
    expect(content.done).toEqual([
      {
        at: NIGHT + 5 * MINUTE,
        alarmId,
        subject: "bore, P-1",
        by: "Jo Reed",
        deeds: ["acknowledged (On it.)", "ticked step 1", "put 1 piece on hold (Crate 7.)"],
      },
    ]);
  });

  test("is signed once and stays as it was; what happens after belongs to the next", async () => {
    const { database, alarmId, jo, span } = await nightWithAlarm();
    const now = span.to - 10 * MINUTE;
    const written = await handoverContent(database, { span, now, ...settings, words: ENGLISH });
    const sign = (by: number) =>
      signHandover(database, { ...written, remarks: " Mind the gauge. ", actor: { accountId: by, at: now } });
    expect(await Promise.all([sign(jo), sign(jo)])).toMatchObject([
      { ok: true },
      { ok: false, message: expect.stringContaining("Jo Reed has signed this handover already") },
    ]);

    await actOnAlarm(database, {
      id: alarmId,
      seen: Number.MAX_SAFE_INTEGER,
      acts: [{ kind: "acknowledge", note: "Late." }],
      actor: { accountId: jo, at: now + 5 * MINUTE },
    });
    const signed = (await handoverOf(database, span.from))!;
    expect(signed).toMatchObject({ remarks: "Mind the gauge.", by: "Jo Reed", signedAt: now });
    expect(signed.content.open).toMatchObject([{ state: "unacknowledged" }]);
    expect(signed.content.done).toEqual([]);

    const next = shiftAt(span.to, settings)!;
    const after = await handoverContent(database, {
      span: next,
      now: next.from + HOUR,
      ...settings,
      words: ENGLISH,
    });
    expect(after.coversFrom).toBe(now);
    expect(after.content.done).toMatchObject([{ by: "Jo Reed", deeds: ["acknowledged (Late.)"] }]);

    const { sqlite } = connectionOf(database);
    expect(() => sqlite.exec("update handover set remarks = ''")).toThrow("frozen");
    expect(() => sqlite.exec("delete from handover")).toThrow("frozen");
    expect(await listHandovers(database, 10)).toHaveLength(1);
  });

  test("a shift that has not begun is not signed", async () => {
    const { database, jo, span } = await nightWithAlarm();
    const written = await handoverContent(database, { span, now: NIGHT, ...settings, words: ENGLISH });
    const early = { accountId: jo, at: span.from - 1 };
    expect(await signHandover(database, { ...written, remarks: "", actor: early })).toMatchObject({
      ok: false,
    });
  });
});
