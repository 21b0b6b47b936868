import { shortMomentIn, type TimeWords } from "../format/times";
import { alarms as english } from "../words/en/alarms";
import { times as englishTimes } from "../words/en/times";

/** Everything that can happen to an alarm, in the order of its life. */
export const ALARM_EVENTS = [
  "raised",
  "again",
  "returned",
  "withdrawn",
  "acknowledged",
  "step",
  "hold",
  "release",
  "scrap",
  "cause",
  "action",
  "note",
  "shelved",
  "unshelved",
  "closed",
  "reopened",
] as const;
export type AlarmEventKind = (typeof ALARM_EVENTS)[number];

/** What the kind says besides its note. */
export type EventDetail = {
  /** Of a step: its place in the plan, its words, and whether it was ticked or unticked. */
  step?: number;
  words?: string;
  done?: boolean;
  /** Of hold, release and scrap: how many pieces. */
  pieces?: number;
  /** Of a cause. */
  cause?: string;
  /** Of a shelving: when it ends. */
  until?: number;
  /** Of a closing: good subgroups since the action, and how many the plan asks for. */
  good?: number;
  wanted?: number;
};

export type AlarmEvent = {
  id: number;
  at: number;
  kind: AlarmEventKind;
  note: string;
  detail: EventDetail;
  /** Null for the program itself. */
  by: string | null;
};

/** A decision on a piece: held back, let go, or out. */
export const DECISIONS = ["hold", "release", "scrap"] as const;
export type Decision = (typeof DECISIONS)[number];

/** What deeds are told in: the alarm's words and those of time. */
export type DeedWords = { alarms: Pick<typeof english, "deeds">; times: TimeWords };

const ENGLISH: DeedWords = { alarms: english, times: englishTimes };

/** What a person or the program did, without who and when: "put 14 pieces on hold". */
export function deedWords(
  { kind, detail, note }: Pick<AlarmEvent, "kind" | "detail" | "note">,
  zone: string,
  { alarms: { deeds }, times }: DeedWords = ENGLISH,
): string {
  switch (kind) {
    case "step":
      return deeds.step(detail.done !== false, (detail.step ?? 0) + 1, detail.words ?? "");
    case "hold":
    case "release":
    case "scrap":
      return deeds[kind](detail.pieces ?? 0);
    case "cause":
      return deeds.cause(detail.cause ?? "");
    case "shelved":
      return detail.until === undefined
        ? deeds.shelved
        : deeds.shelvedUntil(shortMomentIn(detail.until, zone, times));
    case "unshelved":
      return note === "" ? deeds.unshelvedItself : deeds.unshelved;
    case "closed":
      return detail.good === undefined ? deeds.closed : deeds.closedAfter(detail.good, detail.wanted ?? 0);
    default:
      return deeds[kind];
  }
}

/** "Jo Reed at 02:44 put 14 pieces on hold", for telling one person what another did. */
export function eventWords(event: AlarmEvent, zone: string, words: DeedWords = ENGLISH): string {
  const when = shortMomentIn(event.at, zone, words.times);
  const deed = deedWords(event, zone, words);
  const isQuoted = event.note !== "" && event.kind !== "withdrawn";
  const note = isQuoted ? `: ${words.alarms.deeds.quoted(event.note)}` : "";
  return event.by === null ? `${when}, ${deed}${note}` : `${when}, ${event.by} ${deed}${note}`;
}

/** Which steps stand ticked: the latest word on each counts. */
export function tickedSteps(events: readonly AlarmEvent[]): Map<number, AlarmEvent> {
  const ticked = new Map<number, AlarmEvent>();
  for (const event of events) {
    if (event.kind !== "step" || event.detail.step === undefined) continue;
    if (event.detail.done === false) ticked.delete(event.detail.step);
    else ticked.set(event.detail.step, event);
  }
  return ticked;
}

/** The latest event of a kind; null when there is none. */
export function latestOf(events: readonly AlarmEvent[], kind: AlarmEventKind): AlarmEvent | null {
  return events.findLast((event) => event.kind === kind) ?? null;
}
