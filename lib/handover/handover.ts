import type { AlarmState } from "../alarms/alarm-state";
import { counted } from "../format/numbers";
import { durationWords, shortMomentIn } from "../format/times";

/** Everything a handover says. Plain data: what was signed is stored as it stood, in words. */
export type HandoverContent = {
  open: OpenLine[];
  /** What people did to alarms and sources, in order. */
  done: DoneLine[];
  watch: WatchLine[];
  holds: HoldLine[];
  raised: number;
  closed: number;
  measurements: number;
};

export type OpenLine = {
  alarmId: number;
  feature: string;
  part: string;
  state: AlarmState;
  words: string;
  since: number;
  next: string;
};
/** One line for each thing and person; `deeds` in order. */
export type DoneLine = { at: number; alarmId: number | null; subject: string; by: string; deeds: string[] };
export type WatchLine = { alarmId: number | null; words: string };
export type HoldLine = { alarmId: number; feature: string; serials: string[]; since: number; by: string };

/** Serials of a lot follow each other; this many are written out, the others counted. */
export const SERIALS_SHOWN = 6;

/** An alarm that has stood in its state this long is stale (ISA-18.2; from memory). */
export const STALE_MS = 24 * 60 * 60 * 1000;

/** More alarms than these that nobody took up are told as a number; they all stand among the open ones. */
const UNSEEN_NAMED = 3;

/** What the next shift should keep an eye on, from the alarms that are open. */
export function watchLines(
  open: readonly (OpenLine & {
    returnedAt: number | null;
    acknowledgedAt: number | null;
    shelvedUntil: number | null;
    good: number;
    wanted: number;
  })[],
  { now, nextEnds, zone }: { now: number; nextEnds: number; zone: string },
): WatchLine[] {
  const lines: WatchLine[] = [];
  const unseen = open.filter(
    ({ state, acknowledgedAt, since }) =>
      state !== "shelved" && acknowledgedAt === null && now - since > STALE_MS,
  );
  if (unseen.length > UNSEEN_NAMED)
    lines.push({
      alarmId: null,
      words: `${unseen.length} alarms that nobody has acknowledged for more than a day.`,
    });
  for (const alarm of open) {
    const { alarmId, feature } = alarm;
    if (alarm.state === "shelved" && alarm.shelvedUntil !== null) {
      if (alarm.shelvedUntil < nextEnds)
        lines.push({
          alarmId,
          words: `${feature}: comes back from the shelf ${shortMomentIn(alarm.shelvedUntil, zone)}.`,
        });
    } else if (alarm.acknowledgedAt === null) {
      if (unseen.length <= UNSEEN_NAMED && unseen.includes(alarm))
        lines.push({
          alarmId,
          words: `${feature}: nobody has acknowledged it for ${durationWords(now - alarm.since)}.`,
        });
    } else if (alarm.returnedAt === null) {
      lines.push({ alarmId, words: `${feature}: still out; look whether the action works.` });
    } else if (alarm.good < alarm.wanted) {
      lines.push({
        alarmId,
        words: `${feature}: back to normal, ${alarm.good} of ${counted(alarm.wanted, "good subgroup")} so far.`,
      });
    }
  }
  return lines;
}

/** "Fixture FX-2 has moved since lot L-0229, on 5 features: see Drift." */
export function flagWords(
  { kind, id }: { kind: string; id: string },
  { lot, features }: { lot: string; features: number },
): string {
  const name = `${kind.charAt(0).toUpperCase()}${kind.slice(1)} ${id}`;
  const on = `on ${counted(features, "feature")}: see Drift.`;
  return kind === "lot" ? `${name} is different, ${on}` : `${name} has moved since lot ${lot}, ${on}`;
}

/** "0241-01, 0241-02 and 12 more". */
export function serialsWords(serials: readonly string[]): string {
  const shown = serials.slice(0, SERIALS_SHOWN).join(", ");
  const rest = serials.length - SERIALS_SHOWN;
  return rest > 0 ? `${shown} and ${rest} more` : shown;
}

/** Neighbouring deeds of one person on one thing become one line. */
export function joinDeeds(
  deeds: readonly { at: number; alarmId: number | null; subject: string; by: string; words: string }[],
): DoneLine[] {
  const lines: DoneLine[] = [];
  for (const { at, alarmId, subject, by, words } of deeds) {
    const same = lines.find((line) => line.alarmId === alarmId && line.subject === subject && line.by === by);
    if (same) same.deeds.push(words);
    else lines.push({ at, alarmId, subject, by, deeds: [words] });
  }
  return lines;
}
