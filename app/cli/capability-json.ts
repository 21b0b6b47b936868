import { INDEX_NAMES } from "../../lib/capability/indices";
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
    gates: study.gates,
  };
}
