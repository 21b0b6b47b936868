import { counted } from "../../format/numbers";

const features = (count: number) => counted(count, "feature");

/** Gauges: their records, and what they do to the features they measure. */
export const gauges = {
  title: "Gauges",
  purpose:
    "How much of what is seen is the gauge: what each one resolves, when it is due, and the share of each tolerance it takes.",
  enter: "Enter a gauge",
  none: "No gauges yet",
  noneMayEnter: "Gauges come with measurement files that name them in their column, or are entered here.",
  noneMayNot: "Gauges come with measurement files that name them, or an engineer enters them here.",
  legend: (good: string, conditional: string): string =>
    `Good up to ${good} of the tolerance, conditional up to ${conditional} (AIAG, Measurement Systems Analysis, from memory).`,
  kinds: {
    crossed: "crossed study",
    "type-1": "type-1 study",
    "bias-linearity": "bias and linearity",
    setup: "setup study",
  },
  shares: { good: "good", conditional: "conditional", "too much": "too much" },
  notEntered: "not entered",
  notKnown: "not known",
  noFeature: "no feature of the control plan",
  table: {
    caption: (count: number): string => counted(count, "gauge"),
    noRecord: "no record yet",
    portable: ", portable",
    retired: ", retired",
    none: "none",
    heads: {
      code: "Gauge",
      resolution: "Resolution",
      error: "Permissible error",
      due: "Calibration",
      studies: "Studies in force",
      features: "What it does to its features",
    },
    noFeatures: "Measures no feature at present.",
    unknown: (count: number): string => `${features(count)}; what it takes of their tolerance is not known.`,
    standing: (count: number, word: string): string => `${count} ${word}`,
    effect: (effect: {
      features: number;
      parts: string;
      most: string;
      feature: string;
      part: string;
    }): string =>
      `${features(effect.features)}: ${effect.parts}. At most ${effect.most} of a tolerance, on ${effect.feature} of ${effect.part}.`,
  },
  page: {
    title: (code: string): string => `Gauge ${code}`,
    tab: "Gauge",
    noRecord: "Nobody has entered a record of this gauge yet.",
    enterStudy: "Enter a study",
    record: "Record",
    change: "Change the record",
    facts: {
      resolution: "Resolution",
      error: "Maximum permissible error",
      calibratedOn: "Calibrated on",
      due: "Calibration due",
      portable: "Portable",
      note: "Note",
    },
    lengthIn: (stated: string): string => `${stated}, L in mm`,
    portable: "yes: each setup is a source of its own",
    notPortable: "no",
    studies: "Studies",
    features: "The features it measures",
    featuresPurpose:
      "Those whose latest measurement it made. What it takes of a tolerance passes on to the gate “gauge” of their capability.",
    done: "What was done to it",
    noEvents: "Nothing is logged. Events of sources are logged on the page Drift.",
    events: (count: number): string => `The latest ${counted(count, "event")}`,
    eventHeads: { at: "When", event: "What", note: "Note" },
  },
  studies: {
    caption: (count: number): string => `${counted(count, "study", "studies")}, the newest first`,
    none: "No studies yet",
    mayEnter:
      "Enter the readings of a crossed study: paste them, take a file, or type them in. Until then the maker's permissible error stands in.",
    mayNot: "An engineer enters them. Until then the maker's permissible error stands in.",
    heads: {
      study: "Study",
      made: "Made on",
      feature: "On",
      result: "Result",
      state: "In force",
      by: "Entered by",
    },
    program: "the program",
    withdrawn: "withdrawn",
    inForce: "in force",
    superseded: (by: number): string => `superseded by ${by}`,
  },
  effects: {
    caption: features,
    none: "No feature's latest measurement was made by this gauge.",
    heads: {
      feature: "Feature",
      tolerance: "Tolerance",
      share: "Share of tolerance",
      classes: "Classes told apart",
      ratio: "Uncertainty ratio",
      step: "Step of tolerance",
      basis: "Known from",
    },
    how: "How is this computed?",
    explained: [
      "Share of tolerance: 6σ of the gauge over U − L, from the newest crossed study on the feature, else the newest of the gauge; without one, 2E over U − L with E = A + L/K at the nominal. Where a natural bound stands in for a limit, the width runs from it to the limit. Source: AIAG, Measurement Systems Analysis, and ISO 10360-2 for E (from memory).",
      "Classes told apart: ⌊1.41 √(σ² − σ gauge²) / σ gauge⌋ with σ within subgroups of the running process. At least 5 are commonly asked for (AIAG, from memory).",
      "Uncertainty ratio: (U − L) / 4u with u = E/√3, 4 is the old rule of thumb (from memory). It counts the gauge alone: temperature, setup and form come on top.",
      "Step of tolerance: the gauge's resolution over U − L; at most a tenth is commonly asked for.",
    ],
    noBasis: "no study and no permissible error, or no width to compare with",
    errorAt: (length: string): string => `permissible error at ${length}`,
    study: (id: number): string => `study ${id}`,
    onThis: ", on this feature",
    onAnother: ", on another feature",
  },
  newPurpose: "Measurement files find it by its code. Everything else can be entered later.",
  /** Strings alone, for the browser. */
  form: {
    enter: "Enter this gauge",
    save: "Save the record",
    saving: "Saving …",
    what: {
      legend: "What it is",
      code: "Code",
      codeHint: "As measurement files name it.",
      label: "What it is",
      hint: "For example: bench station with master ring.",
      portable: "Portable",
      portableHint: "Set up anew at each place; its setups are sources of their own.",
    },
    maker: {
      legend: "What its maker states",
      hint: "For an error that does not grow with length leave K empty.",
      resolution: "Resolution",
      resolutionHint: "Smallest step it shows.",
      A: "Permissible error, A",
      AHint: "Of A + L/K: 1.7 in “1.7 + L/300”.",
      K: "Permissible error, K",
      KUnit: "mm per µm",
      KHint: "300 in “1.7 + L/300”.",
    },
    calibration: {
      legend: "Calibration",
      on: "Calibrated on",
      due: "Due",
      dueHint: "The board shows it from 30 days before.",
    },
    note: "Note",
  },
  faults: {
    day: "Enter a day, such as 2026-11-14.",
    atMost: (most: number): string => `At most ${most} characters.`,
    resolution: "The smallest step is above 0.",
    A: "A is at least 0.",
    K: "K is above 0; leave it empty where there is none.",
  },
  answers: {
    saved: "Saved.",
    gone: "Nothing saved: this gauge is not known any more. Go back to the list of gauges.",
    unreadable: (why: string): string => `Nothing saved: ${why}`,
    marked: "Nothing saved: see what is marked below.",
    withdrawn: "Saved. The study is withdrawn and counts for no feature any more.",
  },
};
