import "server-only";
import type { Database } from "../../db/connection";
import { type FeatureHistory, featureHistory } from "../../db/queries/history";
import { type FeatureStudy, featureStudy, type StudyWindow } from "../../lib/capability/feature-study";

/** Of every interval and lower bound on these pages: what the trade states unless told otherwise. */
export const CONFIDENCE = 0.95;

export type Studied = { history: FeatureHistory; result: FeatureStudy };

/** One feature's capability study over a window; null when there is no such feature. */
export async function studied(
  database: Database,
  { id, window }: { id: number; window: StudyWindow },
): Promise<Studied | null> {
  const history = await featureHistory(database, id);
  if (!history) return null;
  const { feature, series, setup } = history;
  const result = featureStudy({
    series,
    setup,
    window,
    resolution: feature.resolution,
    // The gauge's share is not kept with the feature; its gate says so.
    gaugeShare: null,
    confidence: CONFIDENCE,
    answered: history.answered,
  });
  return { history, result };
}
