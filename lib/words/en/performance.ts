import { counted } from "../../format/numbers";

/** How well people can keep up with the alarms. */
export const performance = {
  title: "Alarm performance",
  purpose:
    "Whether people can keep up with the alarms, how long these wait, and which rules or features could give fewer.",
  /** {from} and {to} are days. */
  window: (shifts: number): string => `{from} to {to}, ${counted(shifts, "worked shift")}`,
  toBudget: "Alarm budget",
  lookingBack: "Looking back",
  days: (days: number): string => `${days} days`,
  people: "People who take alarms up at a time",
  show: "Show",
  noFigures: "No figures yet",
  nothingMeasured: (days: number): string =>
    `Nothing was measured within a shift of the settings in these ${days} days, so there is no running time to divide by. Nothing needs to be repaired.`,
  rates: "Rates and waiting times",
  raised: "Alarms raised",
  perShift: (count: string): string => `${count} a worked shift`,
  perHour: "Per operator hour",
  operators: (count: number, hours: string): string =>
    `${count === 1 ? "one person takes" : `${count} people take`} them up, ${hours} h worked`,
  toAcknowledge: "To acknowledge",
  toClose: "To close",
  noneYet: "none yet",
  median: (count: number, ninety: string): string => `median of ${count}; 90 % within ${ninety}`,
  levels: {
    acceptable: "That can be kept up with.",
    heavy: "Little room is left: see below where there could be fewer.",
    "too many": "Real ones are lost among so many: see below where there could be fewer, or share them.",
  },
  standard: (acceptable: number, most: number): string =>
    `ISA-18.2 (from memory) gives ${acceptable} an hour for one operator as very likely to be acceptable and ${most} as the most that can be managed, on average; in a shop where an alarm means a walk to a machine it is less.`,
  unanswered: (count: number): string =>
    count === 0
      ? "All were acknowledged."
      : `${count} are not acknowledged yet and not in the waiting times.`,
  frequent: "The ten most frequent",
  frequentPurpose:
    "Expected by chance: what the rules in force give where nothing has moved, from their average run length and the measuring rate. Many more than that are real, or limits that no longer fit.",
  frequentCaption: (count: number): string =>
    `Features by the alarms they raised; ${counted(count, "alarm")} in all`,
  noneRaised: "No alarm was raised in these days",
  heads: {
    feature: "Feature",
    raised: "Raised",
    share: "Share",
    noCause: "No cause found",
    expected: "Expected by chance",
    plan: "Rules in force",
    best: "Saves most",
    saved: "Fewer",
  },
  stale: "Stale and shelved",
  stalePurpose:
    "Stale: out for more than a day (ISA-18.2, from memory). An alarm that stands for days teaches people to look away.",
  none: "None",
  /** {since} is a moment. */
  outSince: (time: string): string => `out since {since} (${time})`,
  until: "until {until}",
  fewer: "Where there could be fewer",
  fewerPurpose:
    "For each plan the rule beside the limits whose absence would save most false alarms in these days. It also notices less: the alarm budget shows how much later.",
  plansCaption: "Plans by what one rule less would save",
  notMeasured: "Nothing was measured in these days",
  features: (count: number): string => counted(count, "feature"),
  onlyLimits: "only the limits are in force",
  /** {feature} is the link to it. */
  inVain: (counts: { noCause: number; raised: number; expected: string }): string =>
    `Most was looked for in vain at {feature}: in ${counts.noCause} of its ${counts.raised} alarms no cause was found, and ${counts.expected} are expected by chance. Where there are many more, its limits may not fit the process any more: choose a new baseline on its chart.`,
  gone: "a feature that is gone",
  sets: {
    limits: "limits only",
    rules: (count: number): string => counted(count, "rule"),
  },
};
