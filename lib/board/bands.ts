import { storedExcursionIn } from "../evaluation/excursion-words";
import { TRIAL_SUBGROUPS, TRIAL_VERSION } from "../evaluation/setup";
import type { Standing } from "../evaluation/standing";
import { fixed, fixedAtLeast } from "../format/numbers";
import { agoWords, durationWords } from "../format/times";
import type { Tolerance } from "../plan/feature-plan";
import type { Words } from "../words/words";

/** What the reasons are said in. */
export type BoardWords = Pick<Words, "board" | "times" | "rules">;

/** act: a person is needed now · watch: soon · quiet: nobody. */
export const BANDS = ["act", "watch", "quiet"] as const;
export type Band = (typeof BANDS)[number];

/** What the shift board knows of a feature. Times are UTC milliseconds. */
export type BoardFacts = {
  standing: Pick<
    Standing,
    | "lastAt"
    | "subgroups"
    | "limitsVersion"
    | "tooFewForFinal"
    | "ppkAtLeast"
    | "recentReadings"
    | "ppk"
    | "readings"
  > | null;
  /** The alarm that is not closed yet. */
  alarm: BoardAlarm | null;
  tolerance: Tolerance;
  /** The lower bound of Ppk below which it is watched: what is asked for. */
  asked: number;
  now: number;
};

export type BoardAlarm = {
  state: "unacknowledged" | "acknowledged" | "returned" | "shelved" | "closed";
  /** What fired, in a few words. */
  words: string;
  firstAt: number;
  latestAt: number;
  returnedAt: number | null;
  withdrawnAt: number | null;
};

/** Why a feature stands in its band: the first reason decides, the others are true as well. */
export type Placing = { band: Band; reason: string; also: string[]; since: number | null };

/** Silent for longer than this, a feature is watched: a week with its weekend. Common practice, no source. */
export const SILENT_AFTER_MS = 7 * 24 * 60 * 60 * 1000;

/** Fewer readings than this say little about Ppk: its lower bound would be low whatever the process does. */
const LEAST_FOR_PPK = 50;

type Reason = { band: Band; since: number | null; say: (words: BoardWords) => string };

/** In which band a feature stands. */
export function bandOf(facts: BoardFacts): Band {
  let band: Band = "quiet";
  for (const find of REASONS) {
    const found = find(facts)?.band;
    if (found === "act") return "act";
    band = found ?? band;
  }
  return band;
}

/** In which band a feature stands, and why, in sentences. */
export function placeOnBoard(facts: BoardFacts, words: BoardWords): Placing {
  const [first, ...others] = reasonsOf(facts);
  if (!first) return { band: "quiet", reason: quietWords(facts, words), also: [], since: null };
  return {
    band: first.band,
    reason: first.say(words),
    also: others.map(({ say }) => say(words)),
    since: first.since,
  };
}

/** The gravest first. They are put into words only for the rows that are shown: of two thousand a board shows a hundred. */
function reasonsOf(facts: BoardFacts): Reason[] {
  return REASONS.map((find) => find(facts))
    .filter((reason) => reason !== null)
    .sort((a, b) => BANDS.indexOf(a.band) - BANDS.indexOf(b.band));
}

const REASONS: readonly ((facts: BoardFacts) => Reason | null)[] = [
  alarmReason,
  toleranceReason,
  performanceReason,
  limitsReason,
  silenceReason,
];

function alarmReason({ alarm, now }: BoardFacts): Reason | null {
  if (!alarm || alarm.state === "closed") return null;
  const since = alarm.firstAt;
  if (alarm.withdrawnAt !== null) {
    return { band: "watch", since, say: ({ board }) => board.reasons.withdrawn };
  }
  const what = ({ rules }: BoardWords) => storedExcursionIn(alarm.words, rules);
  if (alarm.state === "shelved") {
    return { band: "watch", since, say: (words) => words.board.reasons.shelved(what(words)) };
  }
  if (alarm.returnedAt === null) return { band: "act", since, say: (words) => `${what(words)}.` };
  const ago = ({ times }: BoardWords) => agoWords(alarm.latestAt, now, times);
  if (alarm.state === "unacknowledged") {
    return { band: "watch", since, say: (words) => words.board.reasons.unseen(ago(words)) };
  }
  return { band: "watch", since, say: (words) => words.board.reasons.returned(ago(words)) };
}

/**
 * A Ppk below 0 says that the mean itself lies outside the tolerance. A chart cannot tell: it knows no tolerance,
 * and a process may be steady where no piece fits.
 */
function toleranceReason({ standing }: BoardFacts): Reason | null {
  if (!standing || !isMeanOutside(standing)) return null;
  const { recentReadings } = standing;
  return { band: "act", since: null, say: ({ board }) => board.reasons.meanOutside(recentReadings) };
}

function isMeanOutside({ ppk }: NonNullable<BoardFacts["standing"]>): boolean {
  return ppk !== null && ppk < 0;
}

function performanceReason({ standing, asked }: BoardFacts): Reason | null {
  if (!standing || standing.ppkAtLeast === null || standing.recentReadings < LEAST_FOR_PPK) return null;
  // How far below 0 says nothing more than that the mean is outside.
  if (isMeanOutside(standing)) return null;
  const { ppkAtLeast, recentReadings } = standing;
  if (ppkAtLeast >= asked) return null;
  return {
    band: "watch",
    since: null,
    say: ({ board }) => board.reasons.ppk(fixedAtLeast(ppkAtLeast, 2), recentReadings, fixed(asked, 2)),
  };
}

function limitsReason({ standing }: BoardFacts): Reason | null {
  if (!standing) return null;
  const { subgroups, limitsVersion } = standing;
  // Nobody would look at a feature that is quiet only because nothing judges it.
  if (limitsVersion === null && subgroups >= TRIAL_SUBGROUPS)
    return { band: "watch", since: null, say: ({ board }) => board.reasons.unjudged(subgroups) };
  if (limitsVersion !== TRIAL_VERSION || standing.tooFewForFinal) return null;
  return { band: "watch", since: null, say: ({ board }) => board.reasons.trial(subgroups) };
}

function silenceReason({ standing, now }: BoardFacts): Reason | null {
  if (!standing || standing.lastAt === null || now - standing.lastAt <= SILENT_AFTER_MS) return null;
  const { lastAt } = standing;
  return {
    band: "watch",
    since: lastAt,
    say: ({ board, times }) => board.reasons.silent(durationWords(now - lastAt, times)),
  };
}

function quietWords({ standing, tolerance }: BoardFacts, { board: { reasons } }: BoardWords): string {
  if (!standing || standing.readings === 0) return reasons.noMeasurements;
  if (standing.limitsVersion === null) return reasons.noLimits;
  if (standing.limitsVersion === TRIAL_VERSION) return reasons.byTrial(standing.subgroups);
  return tolerance.lower === null && tolerance.upper === null ? reasons.noTolerance : reasons.noSignal;
}
