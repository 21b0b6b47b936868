import { roundedDown } from "../format/numbers";
import { presentable } from "./gate-outcome";
import type { CapabilityStudy } from "./study";

/**
 * How an index stands to what is asked: its lower bound reaches it (shown), only the index itself does (not yet shown),
 * or not even that (missed).
 */
export type Reach = {
  name: "Cpk" | "Ppk";
  index: number;
  /** Null where no bound could be found. */
  bound: number | null;
  asked: number;
  verdict: "shown" | "not-yet" | "missed";
};

/**
 * Whether the index that may be presented reaches what is asked: Cpk as capability, else Ppk, and Ppk by a fitted model.
 * This says nothing of whether it may be called capability; `presentable` does, and neither follows from the other.
 *
 * @returns null where there is no index
 */
export function reachOf(
  study: Pick<CapabilityStudy, "problem" | "gates" | "Cpk" | "Ppk" | "lowerBounds" | "modelStudy">,
  asked: number,
): Reach | null {
  if (study.problem !== null) return null;
  const name = presentable(study) === "capability" && study.Cpk !== null ? "Cpk" : "Ppk";
  const index = study[name];
  if (index === null) return null;
  const bound = study.lowerBounds[name];
  const verdict = bound !== null && bound >= asked ? "shown" : index >= asked ? "not-yet" : "missed";
  return { name, index, bound, asked, verdict };
}

const DECIMALS = 2;
const MOST_DECIMALS = 6;

/** Two decimals, as everywhere, or as many as it takes that 1.329 does not seem to reach 1.33, nor 1.3341 to miss 1.334. */
export function indexDecimals({ index, asked }: Pick<Reach, "index" | "asked">): number {
  return decimalsWhere((decimals) => Number(index.toFixed(decimals)) >= asked === index >= asked);
}

/** The same of a bound, which is rounded down: where 1.339 reaches the asked 1.335, it is not written as 1.33. */
export function boundDecimals({ bound, asked }: { bound: number; asked: number }): number {
  return decimalsWhere((decimals) => bound < asked || roundedDown(bound, decimals) >= asked);
}

function decimalsWhere(isTrue: (decimals: number) => boolean): number {
  let decimals = DECIMALS;
  while (decimals < MOST_DECIMALS && !isTrue(decimals)) decimals++;
  return decimals;
}
