import { counted } from "../../format/numbers";

type Kind = "step" | "trend" | "spread";
/** How a source has to do with a feature: a tool cuts it, a gauge measures it, a fixture holds it. */
type Bond = "cuts" | "measures" | "holds" | "touches";
type Limit = "tolerance" | "control";

const BONDS: Record<Bond, string> = {
  cuts: "it cuts",
  measures: "measured with it",
  holds: "it holds",
  touches: "it touches",
};

const limitWords = (limit: Limit, side: "lower" | "upper") =>
  limit === "tolerance" ? `its ${side} tolerance limit` : "the end of its usual scatter";

/** The sentences that say what a source did, and the room about them. */
export const drift = {
  names: {
    lot: (id: string): string => `Lot ${id}`,
    operator: (id: string): string => `Operator ${id}`,
    setup: (id: string): string => `Set-up ${id}`,
    machine: (id: string): string => `Machine ${id}`,
    process: (id: string): string => (id === "" ? "The process" : `The process of ${id}`),
    temperature: "Part temperature",
  },
  /** A name as it stands inside a sentence; codes stay as they are. */
  within: (name: string): string => `${name.charAt(0).toLowerCase()}${name.slice(1)}`,
  sentence: {
    /** `lot` may be a run of pieces, where no lots are named. */
    since: (lot: string): string => (lot.startsWith("pieces ") ? lot : `lot ${lot}`),
    between: (from: string, to: string): string => `between ${from} and ${to}`,
    share: (share: string): string => `${share} of tolerance`,
    middle: (features: number): string => `the middle one of ${counted(features, "feature")}`,
    onAverage: (features: number): string => `on average over ${counted(features, "feature")}`,
    spread: (who: string, ratio: string, since: string): string =>
      `Pieces from ${who} scatter ${ratio} times as much as the others since ${since}, while their mean did not move: look for a loose clamp or a loose stylus`,
    temperature: (since: string, rate: string): string =>
      `Sizes follow the part temperature since ${since}: ${rate} µm per metre and kelvin, where uncorrected iron or steel would give 10 to 12`,
    lot: (who: string, features: number, size: string): string =>
      `${who} alone is different on ${counted(features, "feature")}, by ${size}: look at the material, not at the fixtures`,
    edgeSet: (who: string, edge: number | null, size: string, since: string): string =>
      `${who} edge ${edge} was set ${size} off in ${since}`,
    toolMoved: (who: string, size: string, since: string, edge: number | null): string =>
      `${who} has moved ${size} ${edge === null ? `since ${since}` : `since edge ${edge} (${since})`}`,
    toolWears: (who: string, size: string): string => `${who} wears ${size} over a life`,
    toolWorn: (who: string, size: string, since: string): string =>
      `${who} has worn ${size} more over a life since ${since}`,
    gauge: (who: string, kind: Kind, size: string, since: string): string =>
      `${who} ${kind === "step" ? "reads" : "has drifted"} ${size} since ${since}`,
    checkGauge: "check the gauge before the machine",
    moved: (who: string, kind: Kind, size: string, since: string): string =>
      `${who} ${kind === "step" ? "has moved" : "is drifting, so far"} ${size} since ${since}`,
    agree: (moved: number, inScope: number, bond: Bond): string => {
      if (inScope === 1) return `seen on the one feature ${BONDS[bond]}`;
      if (moved === inScope) return `all ${inScope} features ${BONDS[bond]} agree`;
      return `${moved} of the ${inScope} features ${BONDS[bond]} agree`;
    },
    notForeseeable: "how it goes on cannot be foreseen yet",
    isAt: (feature: string, limit: Limit, side: "lower" | "upper"): string =>
      `${feature} is at ${limitWords(limit, side)} already`,
    meets: (
      feature: string,
      limit: Limit,
      side: "lower" | "upper",
      pieces: { middle: number; low: number; high: number | null },
    ): string =>
      `at this rate ${feature} meets ${limitWords(limit, side)} first, in about ${counted(pieces.middle, "piece")} (${pieces.low} to ${pieces.high ?? "many more"})`,
    rival: (doubt: "open" | "probably" | "against", other: string, aliased: boolean, run: string): string => {
      const doubts = {
        open: `The data cannot tell it from ${other}`,
        probably: `It is probably this and not ${other}`,
        against: `The pattern over features speaks against ${other}`,
      };
      return `${doubts[doubt]}${aliased ? ", which ran on the same pieces" : ""}: ${run}, then scan again`;
    },
    pair: (pieces: number, a: string, b: string): string =>
      `run ${counted(pieces, "piece")} on ${a} and ${b} together`,
    checkPiece: (gauge: string | null, pieces: number): string =>
      `measure a known check piece with ${gauge ?? "another gauge"}, or ${counted(pieces, "piece")} on both`,
  },
};
