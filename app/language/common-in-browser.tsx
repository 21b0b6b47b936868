"use client";

import { createContext, type ReactNode, useContext } from "react";
import { type Marks, writeMarksOf } from "../../lib/format/marks";
import { COMMON, type CommonWords } from "../../lib/words/common";
import type { Language } from "../../lib/words/language";

const LanguageContext = createContext<Language>("en");

/** Tells the components of the browser in which language the page was made, and with which marks it writes figures. */
export function LanguageProvider({
  language,
  marks,
  children,
}: {
  language: Language;
  marks: Marks;
  children: ReactNode;
}) {
  writeMarksOf(() => marks);
  return <LanguageContext value={language}>{children}</LanguageContext>;
}

/** The common words, for a fitting while it is a component of the browser. */
export function useCommonWords(): CommonWords {
  return COMMON[useContext(LanguageContext)];
}
