import "server-only";
import type { Database } from "../../db/connection";
import type { FeatureRow } from "../../db/queries/features";
import { namesOf } from "../../db/queries/history";
import { listSources, type SourceRow } from "../../db/queries/sources";
import type { ChangeNames, WordedFeature } from "../../lib/sources/change-words";
import type { PartDrift } from "./part-drift";

export type DriftNames = ChangeNames & { sources: readonly SourceRow[] };

/** Names behind the ids of a part's drift. */
export async function driftNames(database: Database, { histories, kinds }: PartDrift): Promise<DriftNames> {
  const lots = await namesOf(database, "lot", kinds[0]?.changes.lots ?? []);
  const sources = await listSources(database);
  const codes = new Map(sources.map(({ id, code }) => [id, code]));
  const features = new Map(histories.map(({ feature }) => [feature.id, worded(feature)]));
  return {
    sources,
    source: (id) => codes.get(id) ?? `source ${id}`,
    lot: (id) => lots.get(id) ?? `lot ${id}`,
    feature: (id) => features.get(id)!,
  };
}

function worded({ id, name, unit, resolution, plan }: FeatureRow): WordedFeature {
  const { lower, upper } = plan.tolerance;
  const floor = lower ?? plan.naturalBound;
  return { id, name, unit, resolution, width: upper === null || floor === null ? null : upper - floor };
}
