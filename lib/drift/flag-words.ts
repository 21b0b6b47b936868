import { drift as english } from "../words/en/drift";
import { driftPage } from "../words/en/drift-page";
import type { Words } from "../words/words";
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
export function quantileWords(
  { median, low, high }: Quantiles,
  unit: "piece" | "lot",
  words: Words["driftPage"]["forecast"] = driftPage.forecast,
): string {
  if (!Number.isFinite(median)) return words.moreThan(Math.round(low), unit);
  if (median === 0) return words.reached;
  return words.about(
    Math.round(median),
    unit,
    Math.round(low),
    Number.isFinite(high) ? Math.round(high) : null,
  );
}

/** The forecast that comes first towards a limit; null when there is none. */
export function firstTowards(
  flag: Pick<DriftFlag, "forecast">,
  limit: ForecastLimit,
): FeatureForecast | null {
  return flag.forecast?.features.find((one) => one.limit === limit) ?? null;
}

/** How sure the data are of the source named first, against another. */
export function doubtWords(patternGap: number, words: Words["driftPage"]["alternatives"]["doubts"]): string {
  if (patternGap < 3) return words.open;
  return patternGap < 6 ? words.less : words.against;
}
