import type { AlarmAct } from "../../lib/alarms/alarm-act";
import type { AlarmState } from "../../lib/alarms/alarm-state";
import type { Words } from "../../lib/words/words";

/** What was saved, and what is next. */
export function savedWords(acts: readonly AlarmAct[], state: AlarmState, { saved }: Words["alarms"]): string {
  const [act] = acts;
  switch (act?.kind) {
    case "acknowledge":
      return state === "returned" ? saved.returned : saved.yours;
    case "contain":
      return saved.pieces(new Set(act.pieceIds).size, act.decision);
    case "cause":
    case "action":
      return saved.found;
    case "shelve":
      return saved.shelved;
    case "unshelve":
      return saved.unshelved;
    case "close":
      return saved.closed;
    case "reopen":
      return saved.reopened;
    default:
      return saved.other;
  }
}
