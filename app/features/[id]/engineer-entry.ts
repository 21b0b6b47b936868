import { z } from "zod";
import { LIMITS_ESTIMATORS } from "../../../lib/limits/estimators";
import type { Words } from "../../../lib/words/words";
import { EFFECTIVE } from "./engineer-answers";

/** Longer than any reason so far, short enough for a line of the record. */
export const LONGEST_REASON = 500;

const id = z.coerce.number().int().positive();

/** A subgroup as people number it, from 1; empty and half-typed fields become 0, which no subgroup has. */
const subgroup = z
  .string()
  .trim()
  .transform((text) => (/^\d{1,9}$/.test(text) ? Number(text) : 0));

const reason = z.string().trim().max(LONGEST_REASON);

/** The chart as its page saw it: a late measurement may since have moved the numbers of its subgroups. */
const seen = { count: z.coerce.number().int().min(0), lastAt: z.coerce.number() };

export const FreezeForm = z.object({
  feature: id,
  first: subgroup,
  last: subgroup,
  effective: z.enum(EFFECTIVE),
  effectiveNumber: subgroup,
  /** Empty for the chart's usual one. */
  estimator: z
    .enum(["", ...LIMITS_ESTIMATORS])
    .default("")
    .transform((name) => (name === "" ? undefined : name)),
  reason,
  ...seen,
});

export const LeaveOutForm = z.object({
  feature: id,
  first: subgroup,
  last: subgroup,
  cause: reason,
  detail: reason,
  ...seen,
});

export const TakeBackForm = z.object({ exclusion: id });

/**
 * "12 to 15" in a form, as positions from 0; or why they name no subgroups, in words.
 *
 * A baseline and an exclusion are kept as spans of time. So subgroups of the same moment belong together: a file that
 * brings days without a time of day has all its pieces at 00:00, and to leave one out would leave out the whole day.
 */
export function positionsOf(
  { first, last }: { first: number; last: number },
  { count, at }: { count: number; at: ArrayLike<number> },
  said: Words["features"]["answers"],
): { ok: true; from: number; to: number } | { ok: false; why: string } {
  if (count === 0) return { ok: false, why: said.noSubgroup };
  const isOne = (number: number) => number >= 1 && number <= count;
  if (!isOne(first) || !isOne(last)) {
    return { ok: false, why: said.whichNumbers(count) };
  }
  if (first > last) {
    return { ok: false, why: said.order(first, last) };
  }
  const within = ofTheSameTime(at, count, first - 1, last - 1);
  if (within.from < first - 1 || within.to > last - 1) {
    return { ok: false, why: said.sameTime(within.from + 1, within.to + 1) };
  }
  return { ok: true, from: first - 1, to: last - 1 };
}

/** First and last of all subgroups that ended within the time of two of them; labelled ones may end in any order. */
function ofTheSameTime(
  at: ArrayLike<number>,
  count: number,
  one: number,
  other: number,
): { from: number; to: number } {
  const earliest = Math.min(at[one]!, at[other]!);
  const latest = Math.max(at[one]!, at[other]!);
  let from = one;
  let to = other;
  for (let position = 0; position < count; position++) {
    if (at[position]! < earliest || at[position]! > latest) continue;
    from = Math.min(from, position);
    to = Math.max(to, position);
  }
  return { from, to };
}

/** The assigned cause as it is kept: the one from the list, what was added in words, or both. */
export function causeWords({ cause, detail }: { cause: string; detail: string }): string {
  return [cause, detail].filter((part) => part !== "").join(": ");
}
