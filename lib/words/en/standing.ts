import { counted } from "../../format/numbers";

const subgroups = (count: number) => counted(count, "subgroup");

/** Where a feature stands, and what judges it. */
export const standing = {
  outside: "The latest means lie outside the tolerance: steady is not the same as fitting.",
  nothing: "No measurement yet.",
  incomplete: (readings: number): string =>
    `No subgroup is complete yet: ${counted(readings, "measurement")} so far.`,
  notJudged: "Not judged yet: there are no limits to judge by.",
  signals: (since: string, what: string): string => `Signals since ${since}: ${what}.`,
  steady: (count: number): string => `Steady: no signal in ${subgroups(count)}.`,
  back: (quiet: number, since: string, phrase: string): string =>
    `Back to normal: ${subgroups(quiet)} without a signal since ${since} (${phrase}).`,
  limits: {
    noVariation: (first: number): string =>
      `No limits, so nothing is judged: the first ${first} subgroups show no variation at this resolution. Limits can be frozen from a baseline that shows some.`,
    none: (count: number): string =>
      `No limits yet: ${subgroups(count)} of at least 2. They appear with the next ones; nothing needs to be repaired.`,
    trialFew: (used: number, needed: number): string =>
      `Trial limits from the first ${subgroups(used)}; final ones need ${needed}.`,
    trial: (used: number): string =>
      `Trial limits from the first ${subgroups(used)}; nobody has frozen them.`,
    version: (version: number): string => `Limits ${version}.`,
    frozen: (version: number, day: string, by: string | null): string =>
      `Limits ${version}, frozen ${day}${by ? ` by ${by}` : ""}.`,
  },
};
