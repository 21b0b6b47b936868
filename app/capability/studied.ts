import "server-only";
import type { Database } from "../../db/connection";
import { type ShareOfFeature, shareOfFeature } from "../../db/queries/gauges";
import { type FeatureHistory, featureHistory } from "../../db/queries/history";
import {
  type FeatureStudy,
  type FeatureStudyInput,
  featureStudy,
  type StudyWindow,
} from "../../lib/capability/feature-study";
import { gaugeBasis } from "../../lib/capability/gauge-basis";
import type { ModelChoice } from "../../lib/capability/models/model";
import type { ModelStudyInput } from "../../lib/capability/models/model-study";
import { problem } from "../../lib/computed";
import { words } from "../language/language";
import { fittedModel } from "./fitted-models";

/** Of every interval and lower bound on these pages: what the trade states unless told otherwise. */
export const CONFIDENCE = 0.95;

export type Studied = {
  history: FeatureHistory;
  result: FeatureStudy;
  /** What the gauge takes of the tolerance, and how that is known; null when it is not. */
  gauge: ShareOfFeature | null;
};

/** One feature's capability study over a window; null when there is no such feature. */
export async function studied(
  database: Database,
  { id, window, model = "normal" }: { id: number; window: StudyWindow; model?: ModelChoice },
): Promise<Studied | null> {
  const history = await featureHistory(database, id);
  if (!history) return null;
  const said = await words();
  const { feature, series, setup } = history;
  const gauge = await shareOfFeature(database, { feature, series, window });
  const input: FeatureStudyInput = {
    series,
    setup,
    window,
    resolution: feature.resolution,
    gaugeShare: gauge?.share ?? null,
    gaugeBasis: gauge && gaugeBasis(gauge, said.claims),
    words: said,
    confidence: CONFIDENCE,
    answered: history.answered,
    kind: feature.kind,
  };
  const result = model === "normal" ? featureStudy(input) : await studiedByModel({ ...input, model });
  return { history, result, gauge };
}

/** The slow fit is asked for by a first study, done in another thread, and put into a second one. */
async function studiedByModel(input: FeatureStudyInput): Promise<FeatureStudy> {
  let asked: ModelStudyInput | null = null;
  const first = featureStudy({
    ...input,
    fitting: (wanted) => {
      asked = wanted;
      return problem({ code: "no-variation" });
    },
  });
  if (asked === null) return first;
  const fitted = await fittedModel(asked);
  return featureStudy({ ...input, fitting: () => fitted });
}
