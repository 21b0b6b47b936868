import { counted } from "../../format/numbers";

/** "13 open alarms, 1 shelved": a shelved one is not among the open ones, wherever both are counted. */
export const openAndShelved = (open: number, shelved: number): string =>
  `${open === 0 ? "no open alarm" : counted(open, "open alarm")}${shelved === 0 ? "" : `, ${shelved} shelved`}`;

/** The queue of alarms, and one alarm with everything that is done to it. */
export const alarms = {
  title: "Alarms",
  purpose:
    "One excursion of a feature is one alarm. It stays here until its cause and what was done are written down and good subgroups have followed.",
  facts: {
    open: (count: number): string => (count === 0 ? "No open alarm" : counted(count, "open alarm")),
    unseen: (count: number): string => (count === 0 ? "all acknowledged" : `${count} not acknowledged`),
    shelved: (count: number): string => `${count} shelved besides`,
  },
  toHandover: "Handover",
  toPerformance: "Alarm performance",
  nothing: "Nothing needs a person now",
  noFeatures:
    "Alarms appear by themselves once measurements of a feature leave their control limits or their pattern.",
  watched: (features: number): string =>
    `${counted(features, "feature")} watched. A new alarm appears here by itself, without reloading.`,
  open: "Open",
  alone: "Each by itself",
  shelved: "Shelved",
  shelvedPurpose: "Set aside by a person for a while; each comes back by itself.",
  closedLately: "Closed lately",
  lastClosed: (count: number): string => `The last ${counted(count, "closed alarm")}`,
  /** {board} is the link to the shift board. */
  more: (count: number): string =>
    `${counted(count, "more alarm")} not shown. The {board} narrows them to a line, a part or a source.`,
  board: "shift board",
  card: {
    key: "key characteristic",
    /** {first} and {latest} are times. */
    since: "Since {first}, latest {latest}",
    seenBy: (name: string): string => `Acknowledged by ${name}`,
    somebody: "somebody",
    onHold: (pieces: number): string => `${counted(pieces, "piece")} on hold`,
    cause: (cause: string): string => `Cause: ${cause}`,
    withdrawn: "The measurements it rested on were undone, corrected or left out since",
    /** {until} is a time. */
    shelvedUntil: "Shelved until {until}",
  },
  openOnFeature: {
    title: (open: number, shelved: number): string => {
      const said = openAndShelved(open, shelved);
      return said.charAt(0).toUpperCase() + said.slice(1);
    },
    first: "First signal {first}, latest {latest}",
    lead: "What happened, what to do, and who did what",
  },
  group: {
    title: (count: number, source: string): string => `${counted(count, "alarm")} on ${source}`,
    shared: (time: string, source: string): string =>
      `Their first signals came within ${time}, and ${source} is what they share. That may be chance: the scan of all features does not name it for them.`,
    suspected: (flag: { source: string; lot: string; did: string; moment: string }): string =>
      `${flag.source} was suspected since ${flag.lot}; ${flag.did} ${flag.moment}.`,
    toDrift: "See the drift page",
  },
  call: {
    sound: "Sound for a new alarm",
    vibration: "Vibration",
    muted: "The browser holds the sound back until this page is touched once.",
  },
  next: {
    shelved: "Comes back by itself.",
    overUnseen: "Over before anybody saw it: look, and say what it was.",
    unseen: "Nobody has seen it yet.",
    cause: "A cause is still to be named.",
    action: "What was done is still to be written down.",
    close: "Can be closed.",
    waits: "Waits for good subgroups.",
  },
  saved: {
    returned: "Saved. The feature is back to normal; name the cause and close the alarm.",
    yours: "Saved. The alarm is yours: go through the steps.",
    pieces: (count: number, decision: "hold" | "release" | "scrap"): string =>
      `Saved. ${counted(count, "piece")} ${{ hold: "on hold", release: "released", scrap: "scrapped" }[decision]}.`,
    found:
      "Saved. It can be closed once the feature is back to normal and the action has shown that it works.",
    shelved: "Saved. The alarm comes back by itself.",
    unshelved: "Saved. The alarm is back.",
    closed: "Saved. The alarm is closed.",
    reopened: "Saved. The alarm is open again.",
    other: "Saved.",
  },
  stillHere: "What you entered is still here: look at what is new, and send it again.",
  form: {
    longNote: (most: number): string => `Nothing saved: a text has at most ${most} characters. Shorten it.`,
    longCause: (most: number): string =>
      `Nothing saved: a cause has at most ${most} characters. Say more in the text below it.`,
    incomplete: "Nothing saved: this form was not complete. Reload the page and try again.",
    nothing: "Nothing saved: choose a cause, or write down what was done.",
  },
  page: {
    tab: "Alarm",
    wholeChart: "Whole chart",
    happened: "What happened",
    acknowledge: "Acknowledge: I am on it",
    whatYouSee: "What you see, if you like",
    onlyRead:
      "You can read this alarm. Answering it takes the role shift lead or engineer; an admin can give it.",
    pieces: "Pieces in doubt",
    plan: "Reaction plan",
    finding: "Cause, action, verification",
    story: "Who did what",
    storyPurpose: "Every line stays as it was written.",
    earlier: "The last times on this feature",
    noCause: "No cause was named.",
    firstFrom: (origin: string): string => `The first signal came from ${origin}.`,
    othersOn: (source: string): string => `Other features on ${source} signalled at the same time.`,
    alsoOpen: (source: string): string => `Open alarms on ${source} as well:`,
    /** After the open alarms of a source that the scan names now, named before it was put right, or never named. */
    afterOpen: {
      now: ". Look there first.",
      before: ". Look whether what was done there has answered this alarm as well.",
      never: ". That they share it may be chance: the scan of all features does not name it for them.",
    },
    alarm: (id: number): string => `Alarm ${id}`,
    /** Before the links to each of them. */
    several: (count: number, feature: string): string => `${count} on ${feature}`,
    changed: "The measurements behind it have changed",
    changedOn: (moment: string): string =>
      `They were undone, corrected or left out ${moment} and give no signal any more. What people wrote stays. Close the alarm with a remark.`,
    comesBack: "It comes back by itself.",
  },
  find: {
    label: "Assigned cause",
    another: "Another cause than the one named",
    unknown: "not known yet",
    leave: "leave it: {cause}",
    written: "another, written below",
    newCause: "The new cause",
    newCauseHint: "A few words; it joins the list for everybody.",
    done: "What was done",
    doneHint: "For example: locator pin cleaned and reseated, five pieces measured good.",
    save: "Save cause and action",
  },
  finding: {
    cause: "Cause",
    noCause: "not named yet",
    done: "Done",
    notDone: "not written down yet",
    verification: "Verification",
    whenClosed: (good: number, wanted: number): string =>
      `${counted(good, "good subgroup")} when it was closed; the plan asked for ${wanted}.`,
    wanted: { normal: "the feature back to normal", cause: "a cause", done: "what was done" },
    notReady: "Not ready to be closed",
    stillWanted: (what: string): string =>
      `Still wanted: ${what}. What the process needs stands in the reaction plan.`,
    close: "Close the alarm",
    reopen: "Open it again",
    whyReopen: "Why it is opened again",
    whyEarly: "Why it can be closed before enough good subgroups have followed",
    whyChanged: "Why the measurements changed",
    remark: "Remark on closing",
    sinceAction: "since the action",
    sinceSignal: "since the latest signal; no action is written down yet",
    noneGood: (since: string, wanted: number): string =>
      `No good subgroup ${since}. The plan asks for ${wanted}.`,
    enough: (good: number, since: string, wanted: number): string =>
      `${counted(good, "good subgroup")} ${since}; the plan asks for ${wanted}.`,
    soFar: (good: number, since: string, wanted: number): string =>
      `${good} of ${counted(wanted, "good subgroup")} ${since}.`,
  },
  points: {
    names: {
      "xbar-r": { location: "Means", spread: "Ranges" },
      "xbar-s": { location: "Means", spread: "Standard deviations" },
      "i-mr": { location: "Readings", spread: "Moving ranges" },
    },
    caption: (what: string, count: number, doubt: boolean): string =>
      `${what}: the last ${count} points. A diamond lies beyond a limit, a dark disc belongs to a pattern${doubt ? "; those on the shaded ground are in doubt" : ""}.`,
    words: { out: "left out", beyond: "beyond a limit", pattern: "in a pattern", within: "within" },
    asTable: "The same as a table",
    tableCaption: (what: string, count: number): string =>
      `${what} of the last ${count} subgroups, the newest first`,
    measured: "Measured",
    judged: "Judged",
    of: (what: string, count: number): string => `${what} of the last ${count} subgroups`,
    newest: (figure: string): string => `newest ${figure}`,
    limits: (lower: string, upper: string): string => `limits ${lower} to ${upper}`,
    beyond: (count: number): string => `${count} beyond a limit`,
  },
  others: {
    remark: "Leave this remark",
    remarkLabel: "A remark for who comes next",
    unshelve: "Take it off the shelf now",
    whyEarly: "Why it comes back early",
    fold: "Set it aside for a while (shelve)",
    shelve: "Shelve the alarm",
    until: "It comes back by itself",
    whyWait: "Why it can wait",
    whyWaitHint: "For example: spare locator ordered, pieces go to full inspection until then.",
  },
  pieces: {
    decided: { hold: "on hold", release: "released", scrap: "scrapped" },
    outside: "outside tolerance",
    elsewhere: (alarm: number): string => `also on hold under alarm ${alarm}`,
    none: "No piece to hold is known",
    noSignal: "The measurements that this alarm rested on give no signal any more.",
    noSerial:
      "The measurements in doubt state no serial of a piece. Hold what was made in this time by lot and crate.",
    choose: (count: number): string => `Choose single pieces (all ${count})`,
    see: (count: number): string => `See the pieces (all ${count})`,
    where: "Where they are, or why",
    whereHint:
      "For example: crate 12, 40 unmeasured pieces with them. Releasing and scrapping want the reason and whose decision it is.",
    onHold: (count: number): string => `${counted(count, "piece")} on hold.`,
    caution:
      "Pieces that were made in this time and not measured are in doubt as well: the list cannot know them. Whether a piece may be used is decided by the drawing, the customer's requirements and the shop's procedure for nonconforming product, by its qualified people.",
    piece: (id: number): string => `piece ${id}`,
    lot: (code: string): string => `lot ${code}`,
    fixture: (code: string): string => `fixture ${code}`,
    noDoubt: "no longer in doubt",
    holdAll: (count: number): string => (count === 1 ? "Hold the one piece" : `Hold all ${count} pieces`),
    hold: "Hold those chosen",
    release: "Release those chosen",
    scrap: "Scrap those chosen",
    noGoodBefore: "No good subgroup came before",
    lastGood: (moment: string): string => `The last good subgroup was measured ${moment}`,
    noGoodSince: "no good one has followed yet",
    goodSince: "then a good one followed",
    since: (count: number, from: string, to: string): string =>
      `Since then ${counted(count, "piece")}, measured ${from} to ${to}`,
    nameless: (count: number): string => ` ${counted(count, "reading")} among them state no piece.`,
  },
  steps: {
    plans: {
      feature: "The reaction plan of this feature",
      part: "The reaction plan of this part",
      default:
        "The usual plan for features of this kind; an engineer can write one of your own in the control plan",
    },
    version: (version: number): string => `, version ${version}`,
    ticked: (ticked: number, all: number): string => `${ticked} of ${counted(all, "step")} ticked.`,
    newer: (version: number | null): string =>
      ` Another ${version === null ? "one" : `version, ${version},`} holds for alarms raised from now on.`,
    notTicked: "(not ticked)",
  },
  byItself: "By itself:",
  deeds: {
    raised: "raised by measurements",
    again: "the excursion went on after its return",
    returned: "the feature returned to normal",
    withdrawn: "the measurements it rested on give no signal any more",
    acknowledged: "acknowledged",
    step: (done: boolean, step: number, words: string): string =>
      `${done ? "ticked" : "took back"} step ${step}: ${words}`,
    hold: (pieces: number): string => `put ${counted(pieces, "piece")} on hold`,
    release: (pieces: number): string => `released ${counted(pieces, "piece")}`,
    scrap: (pieces: number): string => `scrapped ${counted(pieces, "piece")}`,
    cause: (cause: string): string => `named the cause: ${cause}`,
    action: "wrote down what was done",
    note: "left a remark",
    shelved: "shelved it",
    shelvedUntil: (moment: string): string => `shelved it until ${moment}`,
    unshelvedItself: "it came back from the shelf",
    unshelved: "took it off the shelf",
    closed: "closed it",
    closedAfter: (good: number, wanted: number): string =>
      `closed it after ${counted(good, "good subgroup")} (the plan asks for ${wanted})`,
    reopened: "opened it again",
    quoted: (note: string): string => `“${note}”`,
  },
  happened: {
    points: {
      "xbar-r": { one: "A subgroup's mean", many: "subgroup means" },
      "xbar-s": { one: "A subgroup's mean", many: "subgroup means" },
      "i-mr": { one: "A piece", many: "pieces" },
      counts: { one: "A sample", many: "samples" },
    },
    memory: (many: string, below: boolean): string =>
      `The latest ${many}, taken together, lie ${below ? "below" : "above"} the centre line by more than chance: a small shift that lasts.`,
    trend: (of: number, many: string, up: boolean): string =>
      `${of} ${many} in a row ${up ? "rose" : "fell"}, each beyond the one before.`,
    alternation: (of: number, many: string): string =>
      `${of} ${many} went up and down by turns, as when two sources alternate.`,
    within: (of: number, many: string): string =>
      `${of} ${many} in a row kept closer to the centre than chance gives.`,
    away: (of: number, many: string): string =>
      `${of} ${many} in a row kept away from the centre, on either side.`,
    limit: (one: string, up: boolean): string =>
      `${one} lay ${up ? "above" : "below"} its ${up ? "upper" : "lower"} control limit.`,
    run: (of: number, many: string, up: boolean): string =>
      `${of} ${many} in a row lay ${up ? "above" : "below"} the centre line.`,
    far: (share: { count: number; of: number }, many: string, up: boolean, how: string): string =>
      `${share.count === share.of ? `${share.of} ${many} in a row` : `${share.count} of ${share.of} ${many}`} lay far ${up ? "above" : "below"} the centre line (${how}).`,
    near: (distance: number): string => {
      if (distance === 1) return "past a third of the way to the limit";
      return distance === 2 ? "past two thirds of the way to the limit" : `beyond ${distance} sigma`;
    },
    spread: (single: boolean, less: boolean, times: number | null): string => {
      const what = single
        ? "One piece to the next differed"
        : "The pieces of a subgroup differed among each other";
      const more = less ? "less" : "more";
      return times === null
        ? `${what} ${more} than control limits allow.`
        : `${what} ${more} than usual, ${times} times in a row.`;
    },
    morePatterns: (count: number): string => (count === 1 ? "One more pattern." : `${count} more patterns.`),
  },
};
