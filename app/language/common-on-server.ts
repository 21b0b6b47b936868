import { use } from "react";
import { COMMON, type CommonWords } from "../../lib/words/common";
import { language } from "./language";

/** The common words, for a fitting while it is a component of the server. */
export function useCommonWords(): CommonWords {
  return COMMON[use(language())];
}
