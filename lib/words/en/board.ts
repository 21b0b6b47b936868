import { counted, whole } from "../../format/numbers";

/** The shift board and the wall. */
export const board = {
  title: "Shift board",
  purpose: "What needs a person now, what soon, and what is quiet.",
  bands: {
    act: {
      title: "Act",
      words:
        "A person is needed now: these sources have moved, and these features have left their control limits, their pattern or their tolerance and have not come back.",
      none: "Nothing needs a person now.",
    },
    watch: {
      title: "Watch",
      words: "Soon, not now: look at these when nothing stands above.",
      none: "Nothing to watch.",
    },
  },
  features: (count: number): string => counted(count, "feature"),
  counts: ({ sources, features, gauges }: { sources: number; features: number; gauges: number }): string =>
    [
      ...(sources > 0 ? [counted(sources, "source")] : []),
      ...(features > 0 ? [counted(features, "feature")] : []),
      ...(gauges > 0 ? [counted(gauges, "gauge")] : []),
    ].join(", "),
  turning: {
    of: (list: string): string => `Pages of ${list}`,
    shown: (from: number, to: number, count: number): string =>
      `Features ${whole(from)} to ${whole(to)} of ${whole(count)}`,
    first: "First",
    previous: "Previous",
    next: "Next",
  },
  shown: (shown: number, all: number): string => `${shown} of ${counted(all, "feature")} shown`,
  noMeasurements: "No measurements yet",
  latest: (ago: string): string => `Latest measurement ${ago}`,
  ppkAtLeast: "Ppk at least",
  measured: "measured",
  since: "since",
  key: "key",
  suspected: "Suspected source:",
  sinceLot: (lot: string): string => `since ${lot}`,
  wasSuspected: "Was suspected:",
  answered: (lot: string, did: string, moment: string): string => `since ${lot}; ${did} ${moment}`,
  latestFrom: "Latest measurement from",
  gauge: (code: string): string => `Gauge ${code}`,
  calibration: (standing: string, features: number): string =>
    `Calibration ${standing}; it measures ${counted(features, "feature")}.`,
  calibrationStates: {
    notStated: "no date entered",
    overdue: (days: number): string => `overdue for ${counted(days, "day")}`,
    today: "due today",
    due: (days: number): string => `due in ${counted(days, "day")}`,
  },
  filter: {
    find: "Find",
    line: "Line",
    part: "Part",
    source: "Source",
    allLines: "all lines",
    allParts: "all parts",
    allSources: "all sources",
    show: "Show",
    showAll: "Show all",
    nothing: "No feature passes this filter",
    passes: "A source passes where it made or measured the latest pieces of a feature.",
  },
  empty: {
    title: "No features yet",
    takeIn: "Take in a measurement file",
    byHand: "Enter a part by hand",
    seePlan: "See the control plan",
    mayPlan:
      "The board fills by itself once measurements arrive: drop a file on Intake, which brings its parts and features along, or enter them in the control plan first.",
    mayNot: "The board fills by itself once an engineer has taken in the first measurement file.",
  },
  quiet: {
    title: "Quiet",
    none: "No feature is quiet.",
    count: (features: number, parts: number): string =>
      `${counted(features, "feature")} of ${counted(parts, "part")}`,
    features: (count: number): string => counted(count, "quiet feature"),
    of: (part: string): string => `Quiet features of ${part}`,
    heads: {
      feature: "Feature",
      strip: "Latest means within the tolerance",
      why: "State",
      ppk: "Ppk at least",
      latest: "Measured",
    },
  },
  reasons: {
    withdrawn:
      "The measurements behind an open alarm were undone, corrected or left out. Close it with a remark.",
    shelved: (what: string): string => `Alarm shelved. ${what}.`,
    unseen: (ago: string): string =>
      `Returned to normal, and nobody has acknowledged it. Latest signal ${ago}.`,
    returned: (ago: string): string => `Returned to normal; close the alarm. Latest signal ${ago}.`,
    meanOutside: (readings: number): string =>
      `The mean of the latest ${counted(readings, "measurement")} lies outside the tolerance.`,
    ppk: (bound: string, readings: number, wanted: string): string =>
      `Ppk is at least ${bound} (95 %, ${counted(readings, "measurement")}); watched below ${wanted}.`,
    trial: (subgroups: number): string =>
      `Still judged by trial limits after ${counted(subgroups, "subgroup")}: enough to freeze them.`,
    unjudged: (subgroups: number): string =>
      `Nothing judges it after ${counted(subgroups, "subgroup")}: the first ones give no trial limits. Freeze limits from a baseline.`,
    silent: (time: string): string => `No measurement for ${time}: nobody knows how it stands.`,
    noMeasurements: "No measurements yet.",
    noLimits: "No control limits yet.",
    byTrial: (subgroups: number): string =>
      `No signal by trial limits; ${counted(subgroups, "subgroup")} so far.`,
    noTolerance: "No signal; no tolerance is stated.",
    noSignal: "No signal.",
  },
  wall: {
    nothing: "Nothing needs a person now.",
    noFeatures: "No features yet.",
    pages: "Page {page} of {count}; the next follows by itself.",
    more: (count: number): string =>
      count === 1 ? "1 more stands on the shift board." : `${whole(count)} more stand on the shift board.`,
    clock: {
      signedOut: "This screen may no longer look. Shown as of {time}.",
      gone: "No connection. Shown as of {time}.",
      old: "Old: shown as of {time}.",
    },
  },
};
