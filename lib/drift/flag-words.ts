import { counted } from "../format/numbers";
import { drift as english } from "../words/en/drift";
import type { DriftFlag } from "./drift-scan";
import type { FeatureForecast, ForecastLimit, Quantiles } from "./forecast";
import { type DriftWords, sentenceOf } from "./sentence";

/**
 * The sentence of a flag with the day on which the lot began.
 *
 * One that was stored before flags carried how they are told stays in the English in which it was stored.
 */
export function datedSentence(flag: StoredFlag, day: string, words: DriftWords = { drift: english }): string {
  if ("telling" in flag) return sentenceOf(flag, words, day);
  const { sentence, onset } = flag;
  const lot = `lot ${onset.lot}`;
  const at = sentence.indexOf(lot);
  if (at < 0) return sentence;
  const before = sentence.slice(0, at + lot.length);
  const after = sentence.slice(at + lot.length);
  return after.startsWith(" (") ? `${before} (${day}, ${after.slice(2)}` : `${before} (${day})${after}`;
}

/** A flag as the database may hold it, from a scan of an older version too. */
type StoredFlag = DriftFlag | Pick<DriftFlag, "sentence" | "onset">;

/** "about 100 (71 to 151)"; what the drift may never reach is "many more". */
export function quantileWords({ median, low, high }: Quantiles, one: string): string {
  if (!Number.isFinite(median)) return `more than ${counted(Math.round(low), one)}`;
  if (median === 0) return "reached";
  const latest = Number.isFinite(high) ? String(Math.round(high)) : "many more";
  return `about ${counted(Math.round(median), one)} (${Math.round(low)} to ${latest})`;
}

/** The forecast that comes first towards a limit; null when there is none. */
export function firstTowards(
  flag: Pick<DriftFlag, "forecast">,
  limit: ForecastLimit,
): FeatureForecast | null {
  return flag.forecast?.features.find((one) => one.limit === limit) ?? null;
}

/** How sure the data are of the source named first, against another. */
export function doubtWords(patternGap: number): string {
  if (patternGap < 3) return "the data cannot tell";
  return patternGap < 6 ? "less probable" : "the pattern over features speaks against it";
}
