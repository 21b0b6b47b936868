import type { AlarmState } from "../alarms/alarm-state";
import type { ScannedSource } from "../drift/measured-part";
import { durationWords, shortMomentIn } from "../format/times";
import type { Words } from "../words/words";

/** What a handover is written in. */
export type HandoverWords = Pick<Words, "handover" | "alarms" | "rules" | "times" | "trade">;

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

/** Shelved alarms are not among the open ones, although both are handed over. */
export function openCounts(open: readonly Pick<OpenLine, "state">[]): { open: number; shelved: number } {
  const shelved = open.filter(({ state }) => state === "shelved").length;
  return { open: open.length - shelved, shelved };
}

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
    hasAction: boolean;
    good: number;
    wanted: number;
  })[],
  { now, nextEnds, zone }: { now: number; nextEnds: number; zone: string },
  { handover: { watch: said }, times }: HandoverWords,
): WatchLine[] {
  const lines: WatchLine[] = [];
  const unseen = open.filter(
    ({ state, acknowledgedAt, since }) =>
      state !== "shelved" && acknowledgedAt === null && now - since > STALE_MS,
  );
  if (unseen.length > UNSEEN_NAMED)
    lines.push({
      alarmId: null,
      words: said.unseen(unseen.length),
    });
  for (const alarm of open) {
    const { alarmId, feature } = alarm;
    if (alarm.state === "shelved" && alarm.shelvedUntil !== null) {
      if (alarm.shelvedUntil < nextEnds)
        lines.push({
          alarmId,
          words: said.shelf(feature, shortMomentIn(alarm.shelvedUntil, zone, times)),
        });
    } else if (alarm.acknowledgedAt === null) {
      if (unseen.length <= UNSEEN_NAMED && unseen.includes(alarm))
        lines.push({
          alarmId,
          words: said.unseenFor(feature, durationWords(now - alarm.since, times)),
        });
    } else if (alarm.returnedAt === null) {
      lines.push({ alarmId, words: (alarm.hasAction ? said.stillOut : said.stillOutUndone)(feature) });
    } else if (alarm.good < alarm.wanted) {
      lines.push({
        alarmId,
        words: said.good(feature, alarm.good, alarm.wanted),
      });
    }
  }
  return lines;
}

/** "Fixture FX-2 has moved since lot L-0229, on 5 features: see Drift." */
export function flagWords(
  { kind, id }: ScannedSource,
  { lot, features }: { lot: string; features: number },
  { handover: { watch }, trade }: HandoverWords,
): string {
  const word = trade.sources[kind];
  const name = `${word.charAt(0).toUpperCase()}${word.slice(1)} ${id}`;
  return kind === "lot" ? watch.different(name, features) : watch.moved(name, lot, features);
}

/** "0241-01, 0241-02 and 12 more". */
export function serialsWords(serials: readonly string[], { andMore }: Words["handover"]): string {
  const shown = serials.slice(0, SERIALS_SHOWN).join(", ");
  const rest = serials.length - SERIALS_SHOWN;
  return rest > 0 ? `${shown} ${andMore(rest)}` : shown;
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
