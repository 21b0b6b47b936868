import { compareFeature, type Recomputed, type RecomputedTexts } from "../../lib/statement/compare";
import { stateFeature } from "../../lib/statement/state-feature";
import { statements } from "../../lib/words/en/statements";
import type { Database } from "../connection";
import { featureHistory, namesOf } from "./history";
import { statementById, statementReadings, statementWindow } from "./statements";

/**
 * Computes a statement once more, from today's measurements with what was signed beside them, and compares.
 *
 * Null when there is no such statement. A feature that was taken out of the plan differs as a whole.
 */
export async function recomputeStatement(
  database: Database,
  id: number,
  {
    onProgress,
    words = statements.recomputed,
  }: { onProgress?: (done: number, total: number) => void; words?: RecomputedTexts } = {},
): Promise<Recomputed[] | null> {
  const statement = await statementById(database, id);
  if (!statement) return null;
  const readings = await statementReadings(database, id);
  const { content } = statement;
  const window = await statementWindow(database, content.window);
  const found: Recomputed[] = [];
  for (const [i, feature] of content.features.entries()) {
    onProgress?.(i, content.features.length);
    const history = await featureHistory(database, feature.featureId);
    const signed = { feature, readings: readings[i]! };
    if (!history || !window.ok) {
      found.push({
        featureId: feature.featureId,
        name: feature.name,
        sameData: false,
        sameFigures: false,
        differences: [{ what: words.featureOrLots, stated: feature.name, now: words.gone }],
      });
      continue;
    }
    const { featureId, name, kind, unit, nominal, resolution, keyCharacteristic, plan } = feature;
    const now = await stateFeature(
      {
        feature: { id: featureId, name, kind, unit, nominal, resolution, keyCharacteristic, plan },
        series: history.series,
        limits: feature.limits,
        exclusions: feature.exclusions,
        answered: feature.answered,
      },
      {
        window: window.value,
        model: feature.model,
        gaugeShare: feature.gaugeShare,
        gaugeBasis: feature.gaugeBasis,
        confidence: content.confidence,
      },
      (column, ids) => namesOf(database, column, ids),
    );
    found.push(compareFeature(signed, now, words));
  }
  return found;
}
