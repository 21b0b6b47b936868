import type { Mapping } from "./mapping";

const DAY_MS = 86_400_000;
const USUAL_STEP_SECONDS = 60;

/**
 * Gives a mapping without times a first moment: the start of the day (UTC) of `now`, and a minute from row
 * to row. The order of the rows is what counts; a person who knows better states it in the mapping.
 */
export function untimedStart(mapping: Mapping, now: number): Mapping {
  if (mapping.columns.taken_at !== null || mapping.time !== null) return mapping;
  const start = new Date(Math.floor(now / DAY_MS) * DAY_MS).toISOString();
  return { ...mapping, time: { start, stepSeconds: USUAL_STEP_SECONDS } };
}
