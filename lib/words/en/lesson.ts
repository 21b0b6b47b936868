import { counted } from "../../format/numbers";

export const lesson = {
  title: "Lesson",
  purpose:
    "The demo plant has five faults planted in it. Find them yourself, then compare what was planted with what the program says.",
  tasks: {
    title: "Tasks",
    purpose: "Each takes a few minutes on the real screens. The answers are below.",
    locator:
      "Find the worn locator within five minutes: which fixture moves housing H-210, since which lot, and which of its features do not follow?",
    forecast:
      "Say how many pieces are left until the first feature meets its tolerance limit, with the interval, and what a repair today would save.",
    edge: "Open a bore of H-320 and colour its chart by tool: what happens between two changes of the edge, and since when does it happen faster?",
    casting:
      "One lot of castings was different on bracket BB-40. Find it, and say why nobody should touch the fixture.",
    answer: "As a shift lead, log “locator pin replaced” on the fixture and watch the scan answer.",
    ownFile:
      "Now a file of your own: drop it on Intake, tell once which column is which, and open the chart of its first feature.",
  },
  compare: {
    title: "Planted and found",
    purpose:
      "On the left what was planted, on the right what the latest scan of the measurements found, read as this page was made.",
    notYet: "The first scan is being made; this page shows it by itself.",
  },
  card: {
    planted: "Planted",
    since: (lot: string, until: string | null) =>
      ` from lot ${lot}${until === null ? " on" : ` until before ${until}`}: `,
    more: (count: number) => `and ${counted(count, "more feature")}`,
    found: "Found",
    endedSince: "The flag has ended since. ",
    agreement: (agreeing: number, planted: number, besides: string) =>
      `It names ${agreeing} of the ${counted(planted, "feature")} planted${besides === "" ? " and no other" : `, and besides ${besides}`}. `,
    onset: (planted: string, found: string, isWithin: boolean) =>
      `Planted since ${planted}, found since ${found}: ${isWithin ? "within" : "outside"} the interval it gives.`,
    evidence: "See the evidence",
    past: "Not in the latest scan",
    pastWhy: (lot: string) =>
      `The scan looks back on the last 60 lots of each part, here from ${lot} on, and this was before. The charts of the features still show it, and features charted at 20 °C stay flat where those charted as measured follow the weather.`,
    notFound: "Not found",
    atEvent: "Found as a change at an event",
    logged: (event: string, code: string, note: string, day: string) =>
      `As it began, somebody logged “${event}” for ${code}${note === "" ? "" : ` (${note})`} on ${day}.`,
    noChange: " Nothing was seen to change with it.",
    change: (shift: string, count: number, all: number) =>
      ` Since then it reads ${shift}, clearly so on ${count} of ${counted(all, "feature")}.`,
    intended:
      "The scan takes what changes with a logged event as intended and raises no flag: a person has to confirm it, {link}.",
    onDrift: "on the drift page",
    nothingToCompare: "The scan could not compare it with anything.",
    wouldBeSeen: (sigma: string) => `A step of a single feature would have been seen from ${sigma} sigma on.`,
  },
  faults: {
    "worn-locator": {
      title: "A locator pin of FX-2 wears",
      course:
        "+0.001 mm in L-0231 (Wednesday early), then +0.002 mm a lot to +0.021 mm in L-0241 (Saturday late). The files loaded at first end with L-0236 at +0.011 mm.",
      whatToExpect:
        "FX-2 drifting since L-0231; FX-1 and FX-3 flat in the same lots; 5 of the 7 features it locates agree; “Input bore depth” is first to meet its upper tolerance, in about 45 pieces after L-0241.",
    },
    "boring-bar-wear": {
      title: "Boring bar T-114 wears more than four times as fast after a change of supplier",
      course:
        "Bores shrink by 0.009 mm over a life of 90 pieces, before it by 0.002 mm; every change of edge brings them back.",
      whatToExpect:
        "A saw-tooth on three bores of H-320 from the edge of L-2072 on, largest just before each change.",
    },
    "gauge-jump": {
      title: "Bench station GA-2 jumps at its calibration, and is put right nine days later",
      course:
        "+0.006 mm on everything it reads, from its calibration to its adjustment; GA-1 reads the same brackets unchanged.",
      whatToExpect:
        "The same 0.006 mm on 16 features of two parts cut by four tools; in the inch feature 0.00024 in.",
    },
    "bad-casting-lot": {
      title: "One lot of castings with a shifted core and a hard skin",
      course: "L-4043 alone; L-4042 before it and L-4044 after it are as usual.",
      whatToExpect:
        "Ten features of BB-40 out in one lot and back in the next: look at the material, not at the fixture.",
    },
    "hot-weekend": {
      title: "A hot weekend",
      course:
        "Parts up to 9.5 K warmer from Friday afternoon to Monday evening of the third week; every size grows by its length × 10.5e-6 (cast iron) or 23e-6 (aluminium) a kelvin.",
      whatToExpect:
        "Sizes charted as measured follow the temperature, long ones most; those reduced to 20 °C (listed as untouched) stay where they were.",
    },
  },
};
