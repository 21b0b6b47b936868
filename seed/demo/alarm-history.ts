import { actOnAlarm } from "../../db/commands/alarms";
import { signHandover } from "../../db/commands/handovers";
import type { Database } from "../../db/connection";
import { type AlarmRow, listAlarms } from "../../db/queries/alarms";
import { listFeatures } from "../../db/queries/features";
import { handoverContent } from "../../db/queries/handover-content";
import { featureHistory } from "../../db/queries/history";
import type { AlarmAct } from "../../lib/alarms/alarm-act";
import { suspectPieces } from "../../lib/alarms/suspect-pieces";
import { suspectSubgroups } from "../../lib/alarms/suspect-subgroups";
import { evaluate } from "../../lib/evaluation/evaluate";
import { shiftsBetween } from "../../lib/handover/shift-span";
import { randomStream } from "../../lib/random/random-stream";
import { ENGLISH } from "../../lib/words/words";
import { DEFAULT_ENDS_AT, PLANT_ZONE, SHIFTS } from "./calendar";

/*
 * What the demo's people did about the alarms of thirteen weeks, by the commands that the pages use. The old ones
 * were all answered; of those of the last days some are at every stage of their life, and what the story is about
 * is left for the visitor.
 */

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const OLD_AFTER = 4 * 24 * HOUR;

/** Saturday, 14 November 2026, 15:00 in the plant. */
const LAST_SHIFT = DEFAULT_ENDS_AT - 40 * HOUR;

type People = { lead: number | null; engineer: number | null };

export async function answerAlarms(database: Database, people: People): Promise<void> {
  const random = randomStream(210, "answers to alarms").uniform;
  const names = new Map((await listFeatures(database)).map(({ id, name }) => [id, name]));
  for (const alarm of await listAlarms(database, { open: true })) {
    const isOld =
      (alarm.returnedAt ?? alarm.withdrawnAt) !== null && alarm.latestAt <= DEFAULT_ENDS_AT - OLD_AFTER;
    if (isOld) await answerOld(database, alarm, { people, random });
    else await answerNew(database, alarm, { people, name: names.get(alarm.featureId) ?? "" });
  }
}

/** The last shift before the weekend was handed over: Saturday's late one, ten minutes before its end. */
export async function signLastHandover(database: Database, people: People): Promise<void> {
  const span = shiftsBetween({ from: LAST_SHIFT, to: LAST_SHIFT + 1, shifts: SHIFTS, zone: PLANT_ZONE })[0];
  if (!span) return;
  const at = span.to - 10 * MINUTE;
  const { coversFrom, content } = await handoverContent(database, {
    words: ENGLISH,
    span,
    now: at,
    zone: PLANT_ZONE,
    shifts: SHIFTS,
  });
  const signed = await signHandover(database, {
    span,
    coversFrom,
    content,
    remarks:
      "Crate 7 is locked up by the measuring room. FX-2 runs on Monday only after somebody has looked at its pins.",
    actor: { accountId: people.lead, at },
  });
  if (!signed.ok) throw new Error(signed.message);
}

/** Seen within the shift, looked into, and closed with it: in one go, as a tidy lead does. */
async function answerOld(
  database: Database,
  { id, words, raisedAt, latestAt, withdrawnAt }: AlarmRow,
  { people, random }: { people: People; random: () => number },
): Promise<void> {
  const seenAt = Math.max(raisedAt, latestAt) + (4 + 90 * random() ** 2) * MINUTE;
  const closedAt = seenAt + (30 + 300 * random()) * MINUTE;
  const { cause, action } = findingFor(words, random());
  const acknowledged = await actOnAlarm(database, {
    id,
    seen: Number.MAX_SAFE_INTEGER,
    acts: [{ kind: "acknowledge", note: "" }],
    actor: { accountId: people.lead, at: Math.round(seenAt) },
  });
  if (!acknowledged.ok) throw new Error(acknowledged.message);
  const found: AlarmAct[] =
    withdrawnAt === null
      ? [
          { kind: "cause", cause, note: "" },
          { kind: "action", note: action },
        ]
      : [];
  const closed = await actOnAlarm(database, {
    id,
    seen: acknowledged.seen,
    acts: [...found, { kind: "close", note: "Steady since." }],
    actor: { accountId: people.lead, at: Math.round(closedAt) },
  });
  if (!closed.ok) throw new Error(closed.message);
}

function findingFor(words: string, chance: number): { cause: string; action: string } {
  if (chance < 0.55)
    return { cause: "No cause found", action: "Measured again: within limits. Nothing changed." };
  if (/range|deviation/i.test(words))
    return {
      cause: "Chip or dirt in the fixture",
      action: "Resting faces and clamps cleaned, five pieces measured.",
    };
  if (/rising|falling/i.test(words))
    return { cause: "Tool edge worn", action: "Insert indexed, five pieces measured." };
  return {
    cause: "Tool set wrongly at its change",
    action: "Offset corrected and logged, five pieces measured.",
  };
}

/** What the story's last days left behind; features not named here are untouched. */
async function answerNew(
  database: Database,
  alarm: AlarmRow,
  { people, name }: { people: People; name: string },
): Promise<void> {
  const at = (hours: number) => alarm.raisedAt + hours * HOUR;
  const lead = (hours: number) => ({ accountId: people.lead, at: at(hours) });
  const engineer = (hours: number) => ({ accountId: people.engineer, at: at(hours) });
  const act = async (actor: { accountId: number | null; at: number }, ...acts: AlarmAct[]) => {
    const outcome = await actOnAlarm(database, { id: alarm.id, seen: Number.MAX_SAFE_INTEGER, acts, actor });
    if (!outcome.ok) throw new Error(`${name}: ${outcome.message}`);
  };
  switch (name) {
    case "Pinion bore diameter":
      await act(lead(0.4), { kind: "acknowledge", note: "Small since the late shift." });
      await act(lead(0.6), { kind: "step", step: 0, done: true }, { kind: "step", step: 1, done: true });
      await act(lead(0.7), {
        kind: "contain",
        decision: "hold",
        pieceIds: await doubtfulPieces(database, alarm),
        note: "Crate 7, by the measuring room; the unmeasured ones of the lot are with them.",
      });
      await act(lead(1.2), { kind: "step", step: 3, done: true });
      return act(engineer(5), { kind: "cause", cause: "Tool edge worn", note: "" });
    case "Input bearing bore diameter":
      await act(lead(0.3), { kind: "acknowledge", note: "" });
      await act(engineer(14), { kind: "cause", cause: "Tool edge worn", note: "" });
      return act(engineer(14.2), {
        kind: "action",
        note: "Edge of T-114 looked at: wears faster since the new supplier's inserts. Changed at 60 pieces until further notice.",
      });
    case "Seal groove width":
      await act(lead(0.8), { kind: "acknowledge", note: "One piece; back to normal." });
      return act(
        lead(1.1),
        { kind: "cause", cause: "Chip or dirt in the fixture", note: "" },
        { kind: "action", note: "Fixture blown out, three pieces measured good." },
      );
    case "Cover face edge break":
      await act(lead(0.5), { kind: "acknowledge", note: "" });
      return act(lead(0.6), {
        kind: "shelve",
        until: DEFAULT_ENDS_AT + 30 * HOUR,
        note: "Within tolerance by far; the engineer looks at the limits on Tuesday.",
      });
    case "Right bolt hole position":
      return act(lead(37.5), { kind: "acknowledge", note: "Waiting for the next lot of BB-40." });
    default:
  }
}

async function doubtfulPieces(database: Database, alarm: AlarmRow): Promise<number[]> {
  const history = await featureHistory(database, alarm.featureId);
  if (!history) return [];
  const evaluation = evaluate(history.series, history.setup);
  const suspect = suspectSubgroups(evaluation, alarm);
  return suspect
    ? suspectPieces(evaluation, history.series, suspect).pieces.map(({ pieceId }) => pieceId)
    : [];
}
