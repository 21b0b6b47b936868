"use client";

import "./design/tokens.css";
import "./design/base.css";
import { useEffect, useState } from "react";
import { USUAL_MARKS } from "../lib/format/marks";
import { COMMON } from "../lib/words/common";
import { isLanguage, LANGUAGE_COOKIE, LANGUAGE_TAGS, type Language } from "../lib/words/language";
import PageFault from "./error";
import { LanguageProvider } from "./language/common-in-browser";

/**
 * When even the frame around the pages cannot be shown, as while the database cannot be opened. The plant's language is
 * then not known, only what this browser has chosen.
 */
export default function GlobalFault(props: { error: Error & { digest?: string }; reset: () => void }) {
  const [language, setLanguage] = useState<Language>("en");
  useEffect(() => {
    const chosen = new RegExp(`${LANGUAGE_COOKIE}=(\\w+)`).exec(document.cookie)?.[1];
    if (isLanguage(chosen)) setLanguage(chosen);
  }, []);
  return (
    <html lang={LANGUAGE_TAGS[language]}>
      <head>
        <title>{COMMON[language].fittings.fault.title}</title>
      </head>
      <body>
        <LanguageProvider language={language} marks={USUAL_MARKS}>
          <PageFault {...props} />
        </LanguageProvider>
      </body>
    </html>
  );
}
