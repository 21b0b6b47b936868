import { InvalidInput, requireFinite } from "../checks";

/**
 * Where the p quantile of n sorted readings lies, counted from 1.
 *
 *   "n-plus-one"       (n + 1)p         what NIST's handbook prints; type 6
 *   "n-minus-one"      (n − 1)p + 1     what spreadsheets use; type 7
 *   "median-unbiased"  (n + ⅓)p + ⅓     for any distribution about unbiased in the median; type 8
 */
export const PERCENTILE_RULES = ["n-plus-one", "n-minus-one", "median-unbiased"] as const;
export type PercentileRule = (typeof PERCENTILE_RULES)[number];

/**
 * The p quantile of readings, between two of them in proportion; at the ends the extreme reading.
 *
 * There is no default rule, since it changes a printed figure. This product prints "n-plus-one".
 *
 * Source: R. J. Hyndman and Y. Fan, The American Statistician 50 (1996) 361-365 (from memory); NIST/SEMATECH
 * e-Handbook 7.2.6.2.
 *
 * @throws InvalidInput without readings, for a reading that is not finite, or unless 0 ≤ p ≤ 1
 */
export function percentile(
  values: ArrayLike<number>,
  { p, rule }: { p: number; rule: PercentileRule },
): number {
  if (values.length === 0) throw new InvalidInput("percentile", "values.length", 0, "at least 1");
  requireFinite("percentile", "values", values);
  return percentileOfSorted(Float64Array.from(values).sort(), { p, rule });
}

/** The same of readings that are sorted already. */
export function percentileOfSorted(
  sorted: ArrayLike<number>,
  { p, rule }: { p: number; rule: PercentileRule },
): number {
  if (!(p >= 0 && p <= 1)) throw new InvalidInput("percentile", "p", p, "a probability from 0 to 1");
  const n = sorted.length;
  const place = Math.min(Math.max(placeOf(p, n, rule), 1), n);
  const whole = Math.floor(place);
  const low = sorted[whole - 1]!;
  const high = sorted[Math.min(whole, n - 1)]!;
  return low + (place - whole) * (high - low);
}

function placeOf(p: number, n: number, rule: PercentileRule): number {
  switch (rule) {
    case "n-plus-one":
      return (n + 1) * p;
    case "n-minus-one":
      return (n - 1) * p + 1;
    case "median-unbiased":
      return (n + 1 / 3) * p + 1 / 3;
  }
}
