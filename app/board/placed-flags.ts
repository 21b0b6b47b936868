import "server-only";
import type { Database } from "../../db/connection";
import { type FlagRow, partLotsOfScan } from "../../db/queries/drift";
import type { FeatureRow } from "../../db/queries/features";
import type { Band } from "../../lib/board/bands";
import { bandOfFlag, latestLotsOf } from "../../lib/board/drift-band";
import { partName } from "../../lib/format/names";
import { openFlagsShown } from "../shown/lengths";

/** Sources that moved, in their bands; those that concern none of the features shown are left out. */
export type PlacedFlags = { bands: Map<Band, FlagRow[]>; of: (feature: FeatureRow) => FlagRow[] };

export async function placeFlags(
  database: Database,
  shown: readonly { feature: FeatureRow }[],
): Promise<PlacedFlags> {
  const flags = await openFlagsShown(database);
  const latestLots = latestLotsOf(flags.length > 0 ? await partLotsOfScan(database) : []);
  const names = new Set(shown.map(({ feature }) => nameOf(feature)));
  const moved = new Map(
    flags.map((flag) => [
      flag,
      new Set(flag.latest.features.map(({ part, feature }) => `${part}|${feature}`)),
    ]),
  );
  const bands = new Map<Band, FlagRow[]>();
  for (const flag of flags) {
    if (![...(moved.get(flag) ?? [])].some((name) => names.has(name))) continue;
    const band = bandOfFlag(flag.latest, { latestLots });
    bands.set(band, [...(bands.get(band) ?? []), flag]);
  }
  return {
    bands,
    of: (feature) =>
      flags.filter((flag) => flag.source.kind !== "lot" && moved.get(flag)?.has(nameOf(feature))),
  };
}

function nameOf({ part, name }: FeatureRow): string {
  return `${partName(part)}|${name}`;
}
