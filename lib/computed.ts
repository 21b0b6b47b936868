/**
 * A figure, or the everyday reason why there is none yet.
 *
 * Too few readings or no variation are not faults of the program; a page says them in words where the
 * figure would stand.
 */
export type Computed<T> = { ok: true; value: T } | { ok: false; problem: Problem };

export type Problem =
  | { code: "too-few-readings"; needed: number; got: number }
  | { code: "too-few-subgroups"; needed: number; got: number }
  | { code: "no-variation" }
  | { code: "not-positive"; least: number }
  | { code: "no-tolerance" }
  | { code: "one-sided"; missing: "lower" | "upper" };

export function computed<T>(value: T): Computed<T> {
  return { ok: true, value };
}

export function problem<T>(reason: Problem): Computed<T> {
  return { ok: false, problem: reason };
}
