import { counted, whole } from "../../format/numbers";

const features = (count: number) => counted(count, "feature");

/** The room in which sources are watched, beyond the sentence about each. */
export const driftPage = {
  title: "Drift",
  purpose: "Which fixture, tool, gauge or other source has moved, since when, and how long until it matters.",
  planted: "What was planted in the demo",
  empty: "Nothing to compare yet",
  toIntake: "To Intake",
  emptyWhy:
    "Sources are compared once measurement files have come in that name lots, fixtures, tools or gauges.",
  moved: (count: number): string => (count === 0 ? "Nothing has moved" : `${counted(count, "source")} moved`),
  noneOf: (count: number): string =>
    `None of ${counted(count, "source")} moved, as far as these measurements can tell. Below stands how small a shift would have been seen.`,
  /** {when} is a moment. */
  firstNamed: "First named {when}.",
  faint: (scans: number): string =>
    `${counted(scans, "scan")} since had too little evidence for it; it closes by itself after three.`,
  confidence: "confidence",
  above: (share: string): string => `above ${share}`,
  size: "size",
  features: "features",
  of: (count: number, all: number): string => `${count} of ${all}`,
  touching: {
    scattered: (who: string): string => `Scattered by ${who}`,
    moved: (who: string, size: string): string => `Moved by ${who}: ${size}`,
    ofTolerance: (share: string): string => `, ${share} of its tolerance`,
    colour: "Colour the chart by it",
    evidence: "Evidence",
  },
  ended: {
    title: (count: number): string => `${counted(count, "flag")} that ended`,
    how: "by an event, by a person, or because the evidence is gone",
    read: (sentence: string): string => `It had read: ${sentence}`,
    answered: (lot: string, from: string): string =>
      `ended by an event; it is judged afresh from then on, and what it did since ${lot}${from === lot ? "" : ` (perhaps since ${from} already, so from there on)`} is set aside.`,
    closed: (by: string | null, remark: string): string =>
      `closed${by === null ? "" : ` by ${by}`}: ${remark} It stays closed while the same change is found.`,
    faint: "three scans in a row had too little evidence for it.",
  },
  alternatives: {
    none: (who: string): string =>
      `No other source ran on the same pieces closely enough to be taken for ${who}.`,
    aliased: " ran on the same pieces",
    alike: " explains it nearly as well",
    tell: (doubt: string, run: string): string => `${doubt}. To tell them apart, ${run}.`,
    doubts: {
      open: "the data cannot tell",
      less: "less probable",
      against: "the pattern over features speaks against it",
    },
    pairs: "Pieces on each pair since the change",
    never: "never",
    onset: (lot: string): string => `Changed in lot ${lot} most probably`,
    between: (from: string, to: string): string => `, with 90 % confidence between ${from} and ${to}`,
    lots: (count: number): string => `${counted(count, "lot")} of it since.`,
  },
  close: {
    label: "Close this flag",
    title: "Close the flag of {source}",
    advice:
      "If something was done to {source}, log an event instead: its history then begins anew. A closed flag stays closed while the same change is found.",
    remark: "Remark",
    hint: "What you found, even “no cause found”.",
    saving: "Saving …",
  },
  log: {
    open: "Log an event",
    title: "What was done to a source",
    source: "Source",
    what: "What was done",
    kinds: {
      repaired: "repaired",
      changed: "changed (new part, new edge)",
      adjusted: "adjusted",
      calibrated: "calibrated",
      moved: "moved or set up anew",
    },
    when: "When",
    whenHint: "On the plant's clock. Lots before it are no longer compared with lots after it.",
    note: "Note",
    noteHint: "For example: locator pin replaced.",
    save: "Log this event",
    saving: "Saving …",
  },
  answers: {
    marked: "Nothing saved: see the fields marked below.",
    chooseSource: "Choose a source.",
    chooseWhat: "Choose what was done.",
    enterTime: "Enter day and time.",
    noSuchTime: "There is no such day or time.",
    ahead: "This lies ahead. Log it once it is done.",
    long: "At most 500 characters.",
    logged: (source: string): string =>
      `Saved. ${source} is compared afresh from this event on; earlier lots no longer count for it.`,
    justEnded: "Nothing was cancelled: the scan had just ended.",
    noRemark: "Nothing saved: write what you found, even “no cause found”.",
    longRemark: "Nothing saved: at most 500 characters.",
    closed: "Saved. The flag is closed.",
  },
  state: {
    /** {when} is a moment. */
    asOf: (scan: { sources: number; parts: number; measurements: number; seconds: string }): string =>
      `As of {when}: ${counted(scan.sources, "source")} on ${counted(scan.parts, "part")} over their last 60 lots, ${whole(scan.measurements)} measurements, ${scan.seconds} s.`,
    soon: "beginning in a moment",
    percent: (step: string, share: number): string => `${step}, ${share} % done`,
    first: "The first scan is being made",
    newer: "A newer scan is being made",
    cancel: "Cancel the scan",
    cancelling: "Cancelling …",
    cancelled: (who: string): string => `${who} cancelled the scan`,
    /** {when} is a moment. */
    cancelledAt: (isFirst: boolean): string =>
      `at {when}. ${isFirst ? "It" : "What stands below is from before; it"} begins anew with the next measurements.`,
    scanNow: "Scan now",
    beginning: "Beginning …",
    failed: "The latest scan could not be made",
    again: (isFirst: boolean): string =>
      `It is tried again within a minute${isFirst ? "." : "; what stands below is from before."}`,
  },
  evidence: {
    title: (who: string): string => `Evidence: ${who}`,
    purpose:
      "What shows it, what else could have done it, and where it leads. Every feature leads to its chart, coloured by this source, with the change marked.",
    /** Over a flag that has ended. */
    over: (source: string, did: string, moment: string): string =>
      `This flag is over: ${source} was ${did} ${moment}. What stands here was found before that.`,
    ended: (moment: string): string => `This flag ended ${moment}. What stands here was found before that.`,
    leads: "Where it leads",
    else: "What else it could be",
    differences: (count: number, source: string): string =>
      `Mean of the ${features(count)} that moved, in sigma, each in its direction: ${source} against the rest of each lot, with its 90 % band`,
    noneBeside: ". No other source of its kind ran beside it.",
    beside: (others: string, source: string): string =>
      `; beside it ${others}, which move the other way only because ${source} is in their rest.`,
    shaded: "Shaded: the lots in which it may have begun.",
    leaves: (source: string, lot: string): string => `${source} leaves the rest of its lots from ${lot} on`,
    by: (sigma: string): string => `, by ${sigma} sigma`,
    course: "Course of each source",
    picture: (source: string): string => `Course of ${source} against its neighbours, in sigma`,
    later: (lot: string): string => `${lot} and later`,
    scatterCaption: (count: number, source: string, lot: string): string =>
      `${features(count)} scatter more on ${source} since ${lot}`,
    movedCaption: (count: number, source: string, lot: string, still: number): string =>
      `${features(count)} moved with ${source} since ${lot}, ${still} did not`,
    heads: {
      feature: "Feature",
      state: "Since then",
      difference: "Shift ± standard error",
      share: "Of tolerance",
      sigma: "In sigma",
      chance: "Chance that it moved",
    },
    scatters: "scatters more",
    up: "moved up",
    down: "moved down",
    still: "did not move",
    noWidth: "no tolerance width",
  },
  forecast: {
    lot: "Only this lot was different, so nothing goes on. Its pieces may still want a look.",
    step: "It moved at once and stays where it is, so there is no rate to go on with and no forecast.",
    none: "There is no forecast for a change of this kind.",
    caption:
      "When the mean meets its limits, if it goes on at this rate: median, and in brackets 90 of 100 cases",
    limits: {
      control: { lower: "lower end of its usual scatter", upper: "upper end of its usual scatter" },
      capability: {
        lower: "lower 3 sigma inside the tolerance",
        upper: "upper 3 sigma inside the tolerance",
      },
      tolerance: { lower: "lower tolerance limit", upper: "upper tolerance limit" },
    },
    heads: {
      feature: "Feature",
      limit: "Limit",
      bound: "At",
      level: "Mean now",
      pieces: "Pieces left",
      lots: "Lots left",
    },
    ofLife: (share: number): string => `at ${share} % of an edge's life`,
    notForeseeable: "Not foreseeable yet, for they may as well stand still:",
    of: (feature: string): string => `Forecast of ${feature}`,
    spoken: (said: { feature: string; level: string; limit: string; bound: string; when: string }): string =>
      `${said.feature}: mean ${said.level} now, ${said.limit} ${said.bound} in ${said.when}.`,
    control: "usual scatter",
    /** Under the table. */
    scatter:
      "The usual scatter is 3 sigma / √n about the mean before the change, n being the usual pieces of this source in a lot. It is not the control limit of the feature's chart, which is reckoned for subgroups of all sources.",
    before: "before",
    now: "now",
    axis: "pieces of this source",
    moreThan: (count: number, unit: "piece" | "lot"): string => `more than ${counted(count, unit)}`,
    reached: "reached",
    about: (count: number, unit: "piece" | "lot", low: number, high: number | null): string =>
      `about ${counted(count, unit)} (${low} to ${high ?? "many more"})`,
  },
  grid: {
    title: "Sources by lots",
    purpose:
      "How far each source lay from the rest of the same lot, in sigma, averaged over its features; what has always been different is taken off.",
    part: "Part in the grid",
    lots: "Lots shown",
    earlier: "Earlier lots",
    latest: "Latest lots",
    asTable: "The same as a table of figures",
    caption:
      "Deviation from the rest of the same lot, in sigma over the features of the source; alone: from its usual level",
    lot: "Lot",
    begun: "Begun",
    didNotRun: "did not run",
    aloneFigure: (figure: string): string => `${figure} alone`,
    lower: (sigma: number): string => `lower, −${sigma} sigma and beyond`,
    higher: (sigma: number): string => `higher, +${sigma} and beyond`,
    ranAlone: "ran alone: nothing to compare it with in the lot",
    wedge: "wedge",
    doneBefore: "something was done to it before this lot",
    movedSince: "moved since this lot",
    isEmpty: "empty: did not run",
    where: (source: string, lot: string, day: string): string => `${source} in ${lot}, ${day}`,
    amount: (figure: string, half: string): string => `${figure}\u00a0±\u00a0${half}\u00a0sigma`,
    aloneWords: (where: string, pieces: number, amount: string): string =>
      `${where}: ran alone, ${counted(pieces, "piece")}; ${amount} from its usual level, and lots differ.`,
    words: (where: string, amount: string, pieces: number): string =>
      `${where}: ${amount} from the rest of the lot, ${counted(pieces, "piece")}.`,
    before: (did: string, moment: string): string => `Before the source was ${did} ${moment}.`,
    afresh: (source: string, did: string, moment: string, lots: number): string =>
      `${source}: judged afresh since it was ${did} ${moment}; ${lots === 0 ? "no lots yet" : `${counted(lots, "lot")} since`}. Its cells before the wedge are from before that.`,
    /** For the browser. */
    walk: {
      source: "Source",
      from: "{lot}, from {day}",
      kinds: {
        fixture: "fixtures",
        tool: "tools",
        machine: "machines",
        gauge: "gauges",
        operator: "operators",
        setup: "setups",
      },
      alone: ", each alone in its lots: against its usual level",
      point: "Point at a cell, or move over the cells with the arrow keys.",
      didNotRun: "{source} did not run in {lot}, {day}.",
      moved: "It has moved since this lot.",
      logged: "Logged: {words}.",
    },
  },
  quiet: {
    title: (count: number): string => `${counted(count, "source")} without a change`,
    how: "and how small a change would have been seen",
    caption: (count: number): string => `${counted(count, "quiet source")}, most evidence first`,
    heads: {
      source: "Source",
      seen: "A step of one feature is seen from",
      evidence: "Log evidence",
      needed: "Needed",
      lots: "Lots",
    },
    cannot: "cannot be told: nothing ran beside it or before it",
    seen: (sigma: string): string => `${sigma} sigma; smaller when several features move together`,
    rival: (who: string): string => `cannot be told from ${who}, which moved: they ran on the same pieces`,
    afresh: (did: string, moment: string): string =>
      `judged afresh since it was ${did} ${moment}; no lots yet`,
    explained: "stood out at first; nothing is left of it once what the sources found did is taken off",
    small: "a change was found, too small to matter or on a single feature; see below",
    lots: (count: number): string =>
      `${counted(count, "lot")} of the window ${count === 1 ? "was" : "were"} looked at as well, and none of them stands out by its material beyond those named above.`,
    silent: (count: number): string => `${counted(count, "change")} found and not flagged`,
    silentWhy: "too small to matter, or on a single feature",
    since: (who: string, lot: string): string => `${who} since ${lot}`,
    leftOut: (count: number): string => `${features(count)} not scanned`,
    andWhy: "and why",
    allOf: (part: string): string => `All of ${part}`,
    temperature: "part temperature",
    piecesOf: (part: string): string => `all pieces of ${part}`,
  },
  standing: {
    title: "Standing differences",
    purpose:
      "Where a source has always stood apart from the others of its kind. It is no drift, and nothing here is flagged.",
    caption: (count: number, errors: number): string =>
      `${counted(count, "standing difference")} beyond ${errors} standard errors`,
    none: (errors: number): string =>
      `No source stands apart from the others of its kind by more than ${errors} standard errors.`,
    heads: {
      source: "Source",
      feature: "Feature",
      offset: "From the others",
      error: "± standard error",
      share: "Of tolerance",
      sigma: "In sigma",
      scatter: "Scatter against the others",
      pieces: "Pieces",
    },
    times: (ratio: string): string => `${ratio} times`,
  },
  atEvents: {
    title: "Changed at an event",
    purpose:
      "What differs after a logged event from before it. The scan takes it as intended and raises no flag: confirm that it was, for a calibration can go wrong as well.",
    caption: (count: number): string =>
      `${counted(count, "event")} at which two or more features changed by over 4 standard errors`,
    mostOfAll: (count: number, all: number): string => `${count} of ${all}, most of all`,
    heads: { source: "Source", event: "Event", at: "When", shift: "Since then", features: "Features" },
  },
  latestEvents: {
    title: "Latest events",
    caption: (count: number): string => `Latest event of ${counted(count, "source")}`,
    none: "No events yet",
    log: "Log what is changed, repaired, adjusted, calibrated or moved: a source is compared afresh from then on.",
    heads: { source: "Source", event: "Event", at: "When", note: "Note", by: "Logged by", count: "Events" },
  },
};
