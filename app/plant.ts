import "server-only";
import { cache } from "react";
import { type PlantSettings, plantSettings } from "../db/queries/settings";
import { marksFor } from "../lib/format/marks";
import { database } from "./database";
import { writePageWith } from "./shown/marks";

/** The plant's settings and its clock: `now` is the real time, or the moment at which the demo stands still. */
export type Plant = PlantSettings & { now: number };

/**
 * Read once for each request, so that all parts of a page agree on the moment, and on the marks of its figures, which
 * this sets.
 */
export const plant = cache(async (): Promise<Plant> => {
  const settings = await plantSettings(await database());
  writePageWith(marksFor(settings));
  return { ...settings, now: settings.clock ?? Date.now() };
});
