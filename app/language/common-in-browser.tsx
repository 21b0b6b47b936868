"use client";

import { createContext, type ReactNode, useContext } from "react";
import { COMMON, type CommonWords } from "../../lib/words/common";
import type { Language } from "../../lib/words/language";

const LanguageContext = createContext<Language>("en");

/** Tells the components of the browser in which language the page was made. */
export function LanguageProvider({ language, children }: { language: Language; children: ReactNode }) {
  return <LanguageContext value={language}>{children}</LanguageContext>;
}

/** The common words, for a fitting while it is a component of the browser. */
export function useCommonWords(): CommonWords {
  return COMMON[useContext(LanguageContext)];
}
