import { INDEX_NAMES } from "../../lib/capability/indices";
import type { ModelStudy } from "../../lib/capability/models/model-study";
import type { CapabilityStudy } from "../../lib/capability/study";

/** A study as the command line prints it. */
export function capabilityJson(study: CapabilityStudy) {
  const indices = Object.fromEntries(INDEX_NAMES.map((name) => [name, study[name]]));
  const { count, mean, sdOverall, sigmaWithin, estimator } = study;
  return {
    count,
    mean,
    sdOverall,
    sigmaWithin,
    estimator,
    ...indices,
    intervals: study.intervals,
    lowerBounds: study.lowerBounds,
    expectedOutside: study.expectedOutside,
    observedOutside: study.observedOutside,
    normality: study.normality && { A2: study.normality.A2, p: study.normality.p },
    model: study.model,
    ...(study.modelStudy && { modelStudy: modelJson(study.modelStudy) }),
    gates: study.gates,
  };
}

/** What a fitted model rests on: its parameters, its fit, the percentiles that stand for ±3 sigma. */
function modelJson({ fit, tried, quantiles }: ModelStudy) {
  const { parameters, logLikelihood, A2, p } = fit;
  return { parameters, logLikelihood, A2, p, quantiles, tried };
}
