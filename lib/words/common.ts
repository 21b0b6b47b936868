import { figures as germanFigures } from "./de/figures";
import { fittings as germanFittings } from "./de/fittings";
import { rules as germanRules } from "./de/rules";
import { terms as germanTerms } from "./de/terms";
import { times as germanTimes } from "./de/times";
import { trade as germanTrade } from "./de/trade";
import { figures } from "./en/figures";
import { fittings } from "./en/fittings";
import { rules } from "./en/rules";
import { terms } from "./en/terms";
import { times } from "./en/times";
import { trade } from "./en/trade";
import type { Language } from "./language";

/**
 * The words that fittings say on every page. These few reach the browser in both languages, so that a fitting may stand
 * in a component of the server and of the browser alike; the words of the rooms do not.
 */
const english = { language: "en" as Language, times, figures, trade, rules, terms, fittings };

export type CommonWords = typeof english;

export const COMMON: Record<Language, CommonWords> = {
  en: english,
  de: {
    language: "de",
    times: germanTimes,
    figures: germanFigures,
    trade: germanTrade,
    rules: germanRules,
    terms: germanTerms,
    fittings: germanFittings,
  },
};
