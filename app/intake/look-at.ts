import "server-only";
import { previewFile } from "../../db/intake/read-file";
import { mappingFor } from "../../db/queries/intakes";
import type { Mapping } from "../../lib/intake/mapping";
import type { IntakePreview } from "../../lib/intake/preview";
import { zoneTable } from "../../lib/intake/zone";
import { database } from "../database";
import { lookInWorker } from "../jobs/look";
import type { Look } from "./look";
import { pathOf, type Upload } from "./uploads";

/** Rows of each kind that a look shows. */
const ROWS = 12;

/** A look at an upload through `mapping`; without one, through the mapping saved for its layout, else a suggestion. */
export async function lookAt(
  folder: string,
  upload: Upload,
  { mapping, plantZone }: { mapping: Mapping | null; plantZone: string },
): Promise<Look> {
  const look = (through: Mapping | null) => preview(folder, upload, { mapping: through, plantZone });
  if (mapping) return { ...(await look(mapping)), saved: null };

  const first = await look(null);
  const saved = await mappingFor(await database(), first.fingerprint);
  if (!saved) return { ...first, saved: null };
  const known = await look({ ...saved.mapping, zone: saved.mapping.zone ?? null });
  // The same header in another file format: the saved mapping cannot read it, so a person looks.
  return known.problems.length === 0 ? { ...known, saved: saved.name } : { ...first, saved: null };
}

/** Text is read here; a workbook, which can be built to hurt whoever opens it, in a thread of its own. */
async function preview(
  folder: string,
  { id, name }: Upload,
  { mapping, plantZone }: { mapping: Mapping | null; plantZone: string },
): Promise<IntakePreview> {
  const zone = mapping?.zone ?? plantZone;
  const path = pathOf(folder, id);
  if (/\.xls\w?$/i.test(name))
    return lookInWorker({ kind: "look", path, fileName: name, zone, mapping, rows: ROWS });
  return previewFile({ path, name }, { zone: zoneTable(zone), mapping, rows: ROWS });
}
