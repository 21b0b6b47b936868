import type { CommonWords } from "../../lib/words/common";
import { fittings as english } from "../../lib/words/en/fittings";

/**
 * Why a change was not taken through no fault of its own, in the language of the page; null where the digest of an error is
 * something else. In production the digest is all of an error that reaches a browser, and `NotStored` of
 * db/connection.ts says its reason there in English.
 */
export function notStoredIn(digest: string, words: CommonWords["fittings"]): string | null {
  for (const why of ["busy", "full", "readOnly", "broken"] as const)
    if (digest === english.notStored[why]) return words.notStored[why];
  return null;
}
