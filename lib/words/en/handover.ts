import { counted, whole } from "../../format/numbers";
import { openAndShelved } from "./alarms";

/** A shift's handover. It is signed and kept in the language in which the signer read it. */
export const handover = {
  tab: "Handover",
  title: (shift: string): string => `Handover, ${shift} shift`,
  fromTo: (from: string, to: string): string => `${from} to ${to}`,
  /** {when} is a moment. */
  signedBy: (name: string): string => `Signed by ${name}, {when}`,
  notSigned: "Not signed yet: written from what is known now",
  coversFrom: "Covers from {when}, when the one before was signed",
  shifts: "Shifts",
  remarks: "Remarks",
  sign: "Sign",
  signPurpose: "From then on it stays as it is; what happens later goes into the next one.",
  whoSigns: "A shift lead or engineer adds remarks and signs.",
  signed: "Signed handovers",
  noneYet: "None yet",
  kept: "Signed handovers are kept here, as they were signed.",
  shift: (shift: string, day: string): string => `${shift} shift, ${day}`,
  kinds: ({ open, shelved, holds }: Record<"open" | "shelved" | "holds", number>): string =>
    `${openAndShelved(open, shelved)}, ${counted(holds, "hold")}`,
  noShifts: "The plant has no shifts yet",
  enterShifts: "An admin enters them in the plant's settings; then each shift's handover writes itself here.",
  print: "Print on one page",
  sum: (counts: Record<"measurements" | "raised" | "closed" | "open" | "shelved", number>): string =>
    `${whole(counts.measurements)} measurements; ${counted(counts.raised, "alarm")} raised, ${counts.closed} closed; now ${openAndShelved(counts.open, counts.shelved)}.`,
  parts: {
    watch: "What to watch",
    open: "Open and shelved alarms",
    holds: "Pieces on hold",
    done: "What was done",
  },
  none: { watch: "Nothing in particular.", open: "None.", done: "Nobody wrote anything down." },
  /** {when} is a moment. */
  since: "since {when}",
  held: (pieces: number, serials: string, by: string): string =>
    `: ${counted(pieces, "piece")} (${serials}), held by ${by} since {when}`,
  andMore: (count: number): string => `and ${count} more`,
  /** {alarms} is the link to the room. */
  moreRows: (count: number): string => `And ${count} more; see {alarms}.`,
  form: {
    remarks: "Remarks for the next shift",
    hint: "What the page cannot know: people, material, machines, promises.",
    signing: "Signing …",
    sign: "Sign",
    signAs: "Sign as {name}",
  },
  answers: {
    longRemarks: (most: number): string =>
      `Nothing saved: remarks have at most ${most} characters. Shorten them.`,
    shiftsChanged: "Nothing saved: the shifts in the settings have changed. Reload the page.",
    signed: "Saved. The handover is signed and stays as it is.",
  },
  gone: "a feature that is gone",
  notStated: "not stated",
  watch: {
    unseen: (count: number): string => `${count} alarms that nobody has acknowledged for more than a day.`,
    shelf: (feature: string, moment: string): string => `${feature}: comes back from the shelf ${moment}.`,
    unseenFor: (feature: string, time: string): string =>
      `${feature}: nobody has acknowledged it for ${time}.`,
    stillOut: (feature: string): string => `${feature}: still out; look whether the action works.`,
    stillOutUndone: (feature: string): string => `${feature}: still out; no action is written down yet.`,
    good: (feature: string, good: number, wanted: number): string =>
      `${feature}: back to normal, ${good} of ${counted(wanted, "good subgroup")} so far.`,
    different: (source: string, features: number): string =>
      `${source} is different, on ${counted(features, "feature")}: see Drift.`,
    moved: (source: string, lot: string, features: number): string =>
      `${source} has moved since lot ${lot}, on ${counted(features, "feature")}: see Drift.`,
  },
};
