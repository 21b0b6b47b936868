import { counted, whole } from "../../format/numbers";

const subgroups = (count: number) => counted(count, "subgroup");
const numbers = (first: number, last: number): string =>
  first === last ? `subgroup ${first}` : `subgroups ${first} to ${last}`;

/** The list of features, and a feature's control chart with what an engineer does about it. */
export const features = {
  title: "Features",
  purpose:
    "Every measured feature and where it stands; its name leads to its control chart. Ppk is at least so much, with 95 % confidence, by its latest 25 subgroups and at least 100 readings; Capability looks at longer windows.",
  list: {
    none: "No features yet",
    toPlan: "To the control plan",
    noneWhy: "They are entered in the control plan, or come along with the first measurement file on Intake.",
    find: "Find",
    part: "Part",
    allParts: "all parts",
    show: "Show",
    showAll: "Show all",
    count: (count: number): string => counted(count, "feature"),
    some: (shown: number, all: number): string => `${shown} of ${counted(all, "feature")}`,
    nothing: "Nothing found",
    nothingWhy: (find: string, part: string): string =>
      `No feature${part === "" ? "" : ` of ${part}`} carries "${find}" in its name, its part or its kind.`,
    heads: {
      feature: "Feature",
      part: "Part",
      kind: "Kind",
      tolerance: "Tolerance",
      strip: "Latest means within it",
      limits: "Limits",
      measurements: "Measurements",
      ppk: "Ppk at least",
      latest: "Latest",
    },
    key: (kind: string): string => `${kind}, key`,
    trial: "trial",
    version: (version: number): string => `version ${version}`,
  },
  page: {
    tab: "Control chart",
    fromTo: (first: string, last: string): string => `${first} to ${last}`,
    reduced: "Charted at 20 °C.",
    measured: "Charted as measured.",
    capability: "Capability",
    plan: "Control plan",
    chart: "Control chart",
    nothing: "Nothing to chart yet",
    soon: (size: number): string =>
      `Points appear as soon as a subgroup of ${size} is complete; nothing needs to be repaired.`,
    limits: "Limits and left-out subgroups",
    limitsPurpose:
      "Limits never move by themselves: a person chooses a baseline and freezes them with a reason.",
  },
  numbers,
  noNumber: "no subgroup any more",
  /** What the chart's component says in the browser. */
  chart: {
    title: "Control chart",
    colourBy: "Colour by",
    nothing: "nothing",
    walk: "Subgroups on the control chart",
    location: { "xbar-r": "Mean", "xbar-s": "Mean", "i-mr": "Reading" },
    spread: { "xbar-r": "Range", "xbar-s": "Std deviation", "i-mr": "Moving range" },
    subgroup: "Subgroup",
    axis: "Subgroup, {from} to {to}",
    about: "{part}, {from} to {to}",
    noSubgroup: "no subgroup",
    leftOut: "left out",
    beyond: "beyond its limits",
    pattern: "in a pattern",
    more: "+{count} more",
    mixed: "mixed",
    several: "several",
    offAxis: {
      one: "1 point lies off this axis: number {number}, {value}.",
      many: "{count} points lie off this axis, the furthest is number {number}: {value}.",
      whole: "The axis spans every point.",
      showWhole: "Show the whole range",
      showNear: "Fit the axis to limits and most points",
    },
    legend: {
      others: "{count} others",
      about: "about it: beyond a limit",
      within: "within limits",
      pattern: "in a pattern",
      beyond: "beyond a limit",
      leftOut: "left out",
    },
    panel: {
      label: "The chosen subgroup",
      choose:
        "Touch a point, or walk along the chart with the arrow keys, to see its pieces, sources and readings.",
      title: "Subgroup {number}",
      leftOut: "Left out: {cause}.",
      noCause: "no cause stated",
      reading: "Its reading",
      readings: "Its {count} readings",
      notRead: "Its readings are not shown: {why}",
      piece: "piece",
      value: "value",
      asMeasured: "as measured",
    },
    table: {
      summary: "The points as a table: {which}",
      which: "subgroups {from} to {to}",
      caption: "Points of the chart, {which}",
      captionIn: "Points of the chart, {which}, in {unit}",
      none: "none",
      lastReading: "Last reading",
      lot: "Lot",
      ofSpread: "its z",
      signals: "Signals",
      beyond: "Beyond a limit",
      spreadBeyond: "{name} beyond a limit",
      leftOut: "Left out",
      yes: "yes",
    },
  },
  /** What is written on the chart by whoever loads it. */
  marks: {
    trial: "trial limits",
    limits: (version: number, day: string | null): string =>
      `limits ${version}${day === null ? "" : `, ${day}`}`,
    since: (day: string): string => `since ${day}`,
    event: (code: string, event: string): string => `${code} ${event}`,
    noted: (what: string, moment: string, note: string): string =>
      `${what}, ${moment}${note === "" ? "" : `: ${note}`}`,
  },
  tabs: {
    label: "Charts of these points",
    counts: (chart: string): string => `Counts (${chart})`,
    judged: (name: string): string => `${name}: judged`,
    ewma: "Weighted average (EWMA)",
    cusum: "Cumulative sums (CUSUM)",
    shortRun: "Short runs",
    lots: "Lot means",
  },
  asked: {
    needs: {
      lambda: "0.01 to 1",
      L: "above 0, at most 6",
      k: "0 to 3",
      h: "above 0, at most 20",
    },
    fault: (name: string, needs: string, usual: number): string =>
      `${name} is a number, ${needs}; ${usual} is used instead.`,
  },
  strip: {
    whole: (count: number): string => `This is the whole history: ${counted(count, "subgroup")}.`,
    part: (first: number, last: number, count: number): string =>
      `Subgroups ${first} to ${last} of ${whole(count)} are shown.`,
    showAll: "Show all",
    spoken: (count: number, marked: number, excluded: number): string =>
      `The whole history: ${whole(count)} subgroups, ${whole(marked)} of them signalled or beyond a limit${excluded === 0 ? "" : `, ${whole(excluded)} left out`}`,
  },
  /** Over a long history; strings alone, for the browser. */
  steps: {
    earlier: "Earlier",
    later: "Later",
    latest: "Latest",
    all: "All",
    allAtMost: "All (at most {most})",
    label: "Part of the history",
    where: "Subgroups {first} to {last} of {count}",
    first: "First subgroup shown",
    last: "Last subgroup shown",
    notShown: "Subgroups {first} to {last} are not shown: {why}",
    noAnswer: "the server does not answer.",
    status: "the server answered with an error ({status}).",
    again: "Try again",
  },
  /** To a browser that asks for points of a chart. */
  points: {
    noRange: (most: number): string =>
      `Nothing was read: name the first and the last subgroup, counted from 0, as from and to; at most ${whole(most)} of them.`,
    none: "Nothing was read: there are no such points any more. Reload the page.",
  },
  /** Strings alone, for the browser. */
  engineer: {
    freeze: "Freeze control limits",
    freezePurpose:
      "Choose subgroups in which the process ran as it should. New limits judge what comes after them; nothing moves limits but a person.",
    baseline: { first: "First of the baseline", last: "Last of the baseline" },
    estimator: "Sigma within subgroups from",
    estimatorHint: "Those that this baseline allows.",
    looking: "Looking …",
    look: "See what limits it gives",
    reason: "Reason",
    reasonHint: "Why these limits, and why now: the record keeps it.",
    freezing: "Freezing …",
    freezeThese: "Freeze these limits",
    judge: "The new limits judge",
    from: {
      everything: "the whole history",
      "after-baseline": "after the baseline",
      "from-number": "from a subgroup on:",
    },
    fromNumber: "Subgroup from which the new limits judge, 1 to {count}",
    leaveOut: "Leave subgroups out",
    leaveOutPurpose:
      "Only with an assigned cause: something known happened to them. They stay on the chart, hollow, and count neither for limits nor for rules.",
    left: { first: "First left out", last: "Last left out" },
    cause: "Assigned cause",
    noCause: "none of these: in words below",
    detail: "In words",
    detailHint: "What happened, with what was found or who knows of it.",
    leavingOut: "Leaving out …",
    leave: "Leave out",
    leftOut: "Left out now",
    noneLeftOut: "No subgroup is left out.",
    takeIn: "Take back in",
    takeInWhich: "Take back in: {which}",
    range: "Subgroup 1 to {count}.",
    take: "Take the chosen point",
    takeNumber: "Take the chosen point, {number}",
    as: " as {which}",
  },
  usual: (name: string): string => `${name} (usual)`,
  leftOutOn: (numbers: string, day: string, by: string | null): string =>
    `${numbers}, left out ${day}${by ? ` by ${by}` : ""}`,
  preview: {
    baseline: (window: string, days: string, count: number): string =>
      `Baseline ${window}, ${days}: ${subgroups(count)} ${count === 1 ? "counts" : "count"}.`,
    leftOut: (count: number): string => ` ${subgroups(count)} in it left out.`,
    tooFew: (least: number): string =>
      `Too few to freeze: limits need at least ${least} subgroups that count.`,
    caption: (window: string): string => `Limits from ${window} beside those in force`,
    limit: "Limit",
    this: "this baseline",
    inForce: "in force",
    trial: "trial limits",
    version: (version: number): string => `limits ${version}`,
    count: "Count",
    rateOn: (size: string): string => `Per piece or unit, on ${size}`,
    upper: (name: string): string => `${name}, upper limit`,
    centre: "Centre line",
    lower: (name: string): string => `${name}, lower limit`,
    none: "none",
    sigmaOfCount: "Sigma of a count",
    sigmaOfSample: "Sigma of such a sample",
    sigma: "Within-subgroup sigma",
    between: "Sigma between lots",
    noSignal: "Judged by its own limits, nothing inside it signals.",
    signals: (count: number): string =>
      `Judged by its own limits, ${counted(count, "pattern")} inside it would signal. Find the causes; leave out what has one, or choose a steadier stretch.`,
    ofSpread: "spread: ",
    more: (count: number): string => `and ${count} more`,
  },
  answers: {
    notSaved: (why: string): string => `Nothing saved: ${why}`,
    longReason: (most: number): string => `the reason: it has more than ${most} characters; shorten it.`,
    longCause: (most: number): string => `the cause: it has more than ${most} characters; shorten it.`,
    incomplete: "the form did not come whole. Reload the page and send it again.",
    noSubgroup: "there is no subgroup yet.",
    whichNumbers: (count: number): string =>
      `name the first and the last subgroup by their numbers, from 1 to ${count}. Take them from the chart, or type them.`,
    order: (first: number, last: number): string =>
      `subgroup ${first} comes after subgroup ${last}. Enter the earlier one first.`,
    sameTime: (first: number, last: number): string =>
      `${numbers(first, last)} were measured at the same time, and a span of time is what is kept. Choose all of them, or take the file in again with the time of day of each piece.`,
    fromWhich: (count: number): string =>
      `the new limits are to judge from a subgroup between 1 and ${count} on. Name it.`,
    frozen: (version: number, since: string): string =>
      `Saved. Limits ${version} are frozen and judge ${since}.`,
    everything: "the whole history",
    from: (day: string): string => `from ${day} on`,
    until: (since: string, day: string, version: number): string =>
      `${since}, up to ${day}, when limits ${version} take over`,
    outAlready: (first: number, last: number): string =>
      `${numbers(first, last)} ${first === last ? "is" : "are"} left out already.`,
    leftOut: (count: number, numbers: string, cause: string): string =>
      `Saved. ${subgroups(count)} left out (${numbers}): ${cause}.`,
    frozenStay: " Frozen limits stay as they are until somebody freezes new ones.",
    whichIn: "Nothing saved: it was not said which subgroups to take back in. Reload the page.",
    takenIn: "Saved. The subgroups count again, and the chart was judged anew.",
    gone: "this feature is not in the control plan any more.",
    renumbered:
      "measurements were added or taken away since this page was opened, so subgroups have other numbers now. Reload the page and look again.",
  },
};
