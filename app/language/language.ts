import "server-only";
import { cache } from "react";
import type { Language } from "../../lib/words/language";
import { WORDS, type Words } from "../../lib/words/words";
import { plant } from "../plant";

/** The language of this browser's choice, or the plant's. */
export const language = cache(async (): Promise<Language> => (await plant()).spoken);

/** Every word of the page that is being made: `const { board } = await words()`, in a component without async `use(words())`. */
export const words = cache(async (): Promise<Words> => WORDS[await language()]);
