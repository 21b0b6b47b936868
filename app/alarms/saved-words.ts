import type { AlarmAct } from "../../lib/alarms/alarm-act";
import type { AlarmState } from "../../lib/alarms/alarm-state";
import { counted } from "../../lib/format/numbers";

/** What was saved, and what is next. */
export function savedWords(acts: readonly AlarmAct[], state: AlarmState): string {
  const [act] = acts;
  switch (act?.kind) {
    case "acknowledge":
      return state === "returned"
        ? "Saved. The feature is back to normal; name the cause and close the alarm."
        : "Saved. The alarm is yours: go through the steps.";
    case "contain":
      return `Saved. ${counted(new Set(act.pieceIds).size, "piece")} ${HELD[act.decision]}.`;
    case "cause":
    case "action":
      return "Saved. It can be closed once the feature is back to normal and the action has shown that it works.";
    case "shelve":
      return "Saved. The alarm comes back by itself.";
    case "unshelve":
      return "Saved. The alarm is back.";
    case "close":
      return "Saved. The alarm is closed.";
    case "reopen":
      return "Saved. The alarm is open again.";
    default:
      return "Saved.";
  }
}

const HELD = { hold: "on hold", release: "released", scrap: "scrapped" } as const;
