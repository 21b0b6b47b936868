import type { IntakePreview } from "../../lib/intake/preview";

/**
 * A look at an upload; `saved` names the mapping it was made with when that is one saved for the layout, `far` says
 * which values lie far outside their tolerance, and is empty when none do.
 */
export type Look = Omit<IntakePreview, "measured"> & { saved: string | null; far: string };

/** An upload as the Intake page knows it. */
export type WaitingFile = { id: string; name: string; bytes: number };

/**
 * How a look was arrived at: through a saved mapping; by header words that leave nothing open; or so that a
 * person has to map or check columns first.
 */
export type Reading = "saved" | "recognised" | "to map";

export function readingOf({ saved, problems, suggestion }: Look): Reading {
  if (problems.length > 0) return "to map";
  if (saved !== null) return "saved";
  const isPlain = suggestion.notes.length === 0 && suggestion.unmatched.length === 0;
  return isPlain ? "recognised" : "to map";
}
