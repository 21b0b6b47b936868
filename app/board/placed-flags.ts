import "server-only";
import type { Database } from "../../db/connection";
import type { BoardRow } from "../../db/queries/board";
import { type AnsweredFlag, type FlagRow, partLotsOfScan } from "../../db/queries/drift";
import type { FeatureRow } from "../../db/queries/features";
import { fallsUnder } from "../../lib/alarms/group-alarms";
import type { Band } from "../../lib/board/bands";
import { bandOfFlag, latestLotsOf } from "../../lib/board/drift-band";
import { partName } from "../../lib/format/names";
import { answeredFlagsShown, openFlagsShown } from "../shown/lengths";

/** Sources that moved, in their bands; those that concern none of the features shown are left out. */
export type PlacedFlags = {
  bands: Map<Band, FlagRow[]>;
  of: (feature: FeatureRow) => FlagRow[];
  /** Flags that explained the open alarm of a feature until their source was put right. */
  answeredFor: (row: Pick<BoardRow, "feature" | "alarm">) => AnsweredFlag[];
};

export async function placeFlags(
  database: Database,
  shown: readonly Pick<BoardRow, "feature" | "alarm">[],
): Promise<PlacedFlags> {
  const flags = await openFlagsShown(database);
  const latestLots = latestLotsOf(flags.length > 0 ? await partLotsOfScan(database) : []);
  const names = new Set(flags.length > 0 ? shown.map(({ feature }) => nameOf(feature)) : []);
  const since = shown.reduce(
    (first, { alarm }) => Math.min(first, alarm?.firstAt ?? first),
    Number.MAX_SAFE_INTEGER,
  );
  const answered = await answeredFlagsShown(database, { endedFrom: since });
  const moved = new Map<FlagRow, Set<string>>(
    [...flags, ...answered].map((flag) => [
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
    answeredFor: ({ feature, alarm }) =>
      alarm === null
        ? []
        : answered.filter(
            (flag) =>
              moved.get(flag)?.has(nameOf(feature)) &&
              fallsUnder(alarm, { since: flag.latest.onset.at, until: flag.endedAt }),
          ),
  };
}

function nameOf({ part, name }: FeatureRow): string {
  return `${partName(part)}|${name}`;
}
