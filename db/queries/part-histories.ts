import type { EvaluationSetup } from "../../lib/evaluation/setup";
import type { MeasurementSeries } from "../../lib/measurements/series";
import { connectionOf, type Database } from "../connection";
import { readSeries } from "../measurements/store";
import { type FeatureRow, listFeatures } from "./features";
import { setupOf } from "./history";

export type PartHistory = { feature: FeatureRow; series: MeasurementSeries; setup: EvaluationSetup };

/**
 * Every feature of a part with its measurements, in the order in which features were entered; empty for an
 * unknown part. One contiguous read of blocks for each feature.
 */
export async function partHistories(database: Database, partId: number): Promise<PartHistory[]> {
  const connection = connectionOf(database);
  const features = await listFeatures(database, { partId });
  return features.map((feature) => ({
    feature,
    series: readSeries(connection, feature.id),
    setup: setupOf(connection, feature),
  }));
}
