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
import { inDigits, withUnit } from "../../lib/format/numbers";
import type { KnownUnit } from "../../lib/plan/feature-plan";
import { inShownUnit, type LengthDisplay } from "../../lib/units/length";
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
  {
    id,
    window,
    model = "normal",
    shownIn = "plan",
  }: {
    id: number;
    window: StudyWindow;
    model?: ModelChoice;
    /** Unit of lengths in its sentences; what is signed has the plan's. */
    shownIn?: LengthDisplay;
  },
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
    lengthWords: lengthWordsIn(feature.unit, shownIn),
    confidence: CONFIDENCE,
    answered: history.answered,
    kind: feature.kind,
  };
  const result = model === "normal" ? featureStudy(input) : await studiedByModel({ ...input, model });
  return { history, result, gauge };
}

/** Digits of a length that was converted: enough for any gauge's step. */
const DIGITS = 4;

/** Undefined where nothing is converted: then sentences have the bare figure, as those that are signed. */
function lengthWordsIn(own: KnownUnit, display: LengthDisplay): FeatureStudyInput["lengthWords"] {
  const { unit, length } = inShownUnit(own, display);
  return unit === own ? undefined : (value) => withUnit(inDigits(length(value), DIGITS), unit);
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
