/** Languages in which the pages speak. Command line, log, programs' answers and stored texts are English always. */
export const LANGUAGES = ["en", "de"] as const;
export type Language = (typeof LANGUAGES)[number];

/** The choice of a browser; without it holds the plant's setting. */
export const LANGUAGE_COOKIE = "steadyrest-language";

/** Each by its own name, as somebody who reads no other looks for it. */
export const LANGUAGE_NAMES: Record<Language, string> = { en: "English", de: "Deutsch" };

/** What the `lang` attribute of a page says. */
export const LANGUAGE_TAGS: Record<Language, string> = { en: "en-GB", de: "de-DE" };

export function isLanguage(text: unknown): text is Language {
  return (LANGUAGES as readonly unknown[]).includes(text);
}
