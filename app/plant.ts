import "server-only";
import { cookies } from "next/headers";
import { cache } from "react";
import { type PlantSettings, plantSettings } from "../db/queries/settings";
import { type Marks, marksFor } from "../lib/format/marks";
import { isLanguage, LANGUAGE_COOKIE, type Language } from "../lib/words/language";
import { database } from "./database";
import { writePageWith } from "./shown/marks";

/**
 * The plant's settings and its clock: `now` is the real time, or the moment at which the demo stands still. `spoken` is
 * the language of this browser's choice, or the plant's; `marks` are those of figures in it.
 */
export type Plant = PlantSettings & { now: number; spoken: Language; marks: Marks };

/**
 * Read once for each request, so that all parts of a page agree on the moment, and on the marks of its figures, which
 * this sets.
 */
export const plant = cache(async (): Promise<Plant> => {
  const settings = await plantSettings(await database());
  const chosen = (await cookies()).get(LANGUAGE_COOKIE)?.value;
  const spoken = isLanguage(chosen) ? chosen : settings.language;
  const marks = marksFor({ ...settings, language: spoken });
  writePageWith(marks);
  return { ...settings, now: settings.clock ?? Date.now(), spoken, marks };
});
