import { counted } from "../format/numbers";
import type { DriftFlag } from "./drift-scan";
import type { FeatureForecast, ForecastLimit, Quantiles } from "./forecast";

/** The sentence of a flag with the day on which the lot began. */
export function datedSentence(
  { sentence, onset }: Pick<DriftFlag, "sentence" | "onset">,
  day: string,
): string {
  const lot = `lot ${onset.lot}`;
  const at = sentence.indexOf(lot);
  if (at < 0) return sentence;
  const before = sentence.slice(0, at + lot.length);
  const after = sentence.slice(at + lot.length);
  return after.startsWith(" (") ? `${before} (${day}, ${after.slice(2)}` : `${before} (${day})${after}`;
}

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
