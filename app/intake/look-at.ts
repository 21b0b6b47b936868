import "server-only";
import type { Mapping } from "../../lib/intake/mapping";
import { database } from "../database";
import type { Look } from "./look";
import { lookAtFile, lookThrough } from "./look-at-file";
import { pathOf, type Upload } from "./uploads";

/** A look at an upload through `mapping`; without one, through the mapping saved for its layout, else a suggestion. */
export async function lookAt(
  folder: string,
  upload: Upload,
  { mapping, plantZone }: { mapping: Mapping | null; plantZone: string },
): Promise<Look> {
  const file = { path: pathOf(folder, upload.id), name: upload.name };
  if (mapping) return { ...(await lookThrough(file, { mapping, plantZone })), saved: null };
  return lookAtFile(await database(), file, { plantZone });
}
