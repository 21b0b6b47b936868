import { counted } from "../format/numbers";
import { shortMomentIn } from "../format/times";

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

/** What a person or the program did, without who and when: "put 14 pieces on hold". */
export function deedWords(
  { kind, detail, note }: Pick<AlarmEvent, "kind" | "detail" | "note">,
  zone: string,
): string {
  const pieces = counted(detail.pieces ?? 0, "piece");
  switch (kind) {
    case "raised":
      return "raised by measurements";
    case "again":
      return "the excursion went on after its return";
    case "returned":
      return "the feature returned to normal";
    case "withdrawn":
      return "the measurements it rested on give no signal any more";
    case "acknowledged":
      return "acknowledged";
    case "step":
      return `${detail.done === false ? "took back" : "ticked"} step ${(detail.step ?? 0) + 1}: ${detail.words ?? ""}`;
    case "hold":
      return `put ${pieces} on hold`;
    case "release":
      return `released ${pieces}`;
    case "scrap":
      return `scrapped ${pieces}`;
    case "cause":
      return `named the cause: ${detail.cause ?? ""}`;
    case "action":
      return "wrote down what was done";
    case "note":
      return "left a remark";
    case "shelved":
      return `shelved it${detail.until === undefined ? "" : ` until ${shortMomentIn(detail.until, zone)}`}`;
    case "unshelved":
      return note === "" ? "it came back from the shelf" : "took it off the shelf";
    case "closed":
      return detail.good === undefined
        ? "closed it"
        : `closed it after ${counted(detail.good, "good subgroup")} (the plan asks for ${detail.wanted ?? 0})`;
    case "reopened":
      return "opened it again";
  }
}

/** "Jo Reed at 02:44 put 14 pieces on hold", for telling one person what another did. */
export function eventWords(event: AlarmEvent, zone: string): string {
  const when = shortMomentIn(event.at, zone);
  const deed = deedWords(event, zone);
  const note = event.note === "" || event.kind === "withdrawn" ? "" : `: “${event.note}”`;
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
