import type { Database } from "../../db/connection";
import { farInFile } from "../../db/intake/far-in-file";
import { previewFile } from "../../db/intake/read-file";
import { mappingFor } from "../../db/queries/intakes";
import type { Mapping } from "../../lib/intake/mapping";
import type { IntakePreview } from "../../lib/intake/preview";
import { zoneTable } from "../../lib/intake/zone";
import { lookInWorker } from "../jobs/look";
import { mostUnpackedBytes } from "../jobs/unpacked-limit";
import type { Look } from "./look";

/** Rows of each kind that a look shows. */
const ROWS = 12;

type File = { path: string; name: string };

/** A look at a file through the mapping saved for its layout, else through what its header suggests. */
export async function lookAtFile(
  database: Database,
  file: File,
  { plantZone }: { plantZone: string },
): Promise<Look> {
  const look = (mapping: Mapping | null) => previewThrough(file, { mapping, plantZone });
  const first = await look(null);
  const saved = await mappingFor(database, first.fingerprint);
  if (!saved) return lookOf(database, first, null);
  const known = await look(saved.mapping);
  // The same header in another file format: the saved mapping cannot read it, so a person looks.
  return known.problems.length === 0 ? lookOf(database, known, saved.name) : lookOf(database, first, null);
}

/** A look at a file through a mapping that somebody makes. */
export async function lookThrough(
  database: Database,
  file: File,
  { mapping, plantZone }: { mapping: Mapping; plantZone: string },
): Promise<Look> {
  return lookOf(database, await previewThrough(file, { mapping, plantZone }), null);
}

async function lookOf(
  database: Database,
  { measured, ...preview }: IntakePreview,
  saved: string | null,
): Promise<Look> {
  return { ...preview, saved, far: measured === null ? "" : await farInFile(database, measured) };
}

/** Text is read here; a workbook, which can be built to hurt whoever opens it, in a thread of its own. */
async function previewThrough(
  { path, name }: File,
  { mapping, plantZone }: { mapping: Mapping | null; plantZone: string },
): Promise<IntakePreview> {
  const zone = mapping?.zone ?? plantZone;
  if (/\.xls\w?$/i.test(name))
    return lookInWorker({ kind: "look", path, fileName: name, zone, mapping, rows: ROWS });
  return previewFile(
    { path, name },
    { zone: zoneTable(zone), mapping, rows: ROWS, mostUnpackedBytes: mostUnpackedBytes() },
  );
}
