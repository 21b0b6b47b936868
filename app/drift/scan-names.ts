import { words } from "../language/language";
import "server-only";
import type { Database } from "../../db/connection";
import { type FeatureRow, listParts, type PartRow } from "../../db/queries/features";
import type { StoredScan } from "../../lib/drift/stored-scan";
import { partName } from "../../lib/format/names";
import { dayIn } from "../../lib/format/times";
import { featuresShown } from "../shown/lengths";

/** What stands behind the names in a stored scan. */
export type ScanNames = {
  parts: readonly PartRow[];
  /** Null when the part or the feature was renamed since the scan. */
  part: (name: string) => PartRow | null;
  feature: (part: string, name: string) => FeatureRow | null;
  /** By part number, of whatever revision. */
  featureOfPartNumber: (number: string, name: string) => FeatureRow | null;
  /** When a lot began; null for one that left the window. */
  lotAt: (code: string) => number | null;
  dayOf: (at: number) => string;
};

export async function scanNames(
  database: Database,
  { scan, zone }: { scan: StoredScan | null; zone: string },
): Promise<ScanNames> {
  const { times } = await words();
  const parts = await listParts(database);
  const byName = new Map(parts.map((part) => [partName(part), part]));
  const rows = await featuresShown(database);
  const features = new Map(rows.map((feature) => [`${partName(feature.part)}|${feature.name}`, feature]));
  const lots = new Map((scan?.lots ?? []).map(({ code, at }) => [code, at]));
  return {
    parts,
    part: (name) => byName.get(name) ?? null,
    feature: (part, name) => features.get(`${part}|${name}`) ?? null,
    featureOfPartNumber: (number, name) =>
      rows.find((row) => row.part.number === number && row.name === name) ?? null,
    lotAt: (code) => lots.get(code) ?? null,
    dayOf: (at) => dayIn(at, zone, times),
  };
}
