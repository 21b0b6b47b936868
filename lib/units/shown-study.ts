import type { FeatureStudy } from "../capability/feature-study";
import type { Histogram } from "../capability/histogram";
import type { ModelName, Parameters } from "../capability/models/model";
import type { ModelStudy } from "../capability/models/model-study";
import { MODELS } from "../capability/models/models";
import type { KnownUnit } from "../plan/feature-plan";
import { inShownUnit, type LengthDisplay } from "./length";

/*
 * A study is computed in the feature's own unit, where readings lie on the decimal grid of their gauge that its tests
 * look for; what pages show of it is converted afterwards. Indices, bounds, gates and fractions have no unit.
 */

type Length = ReturnType<typeof inShownUnit>["length"];

/** A study as it is shown. */
export function shownStudy(result: FeatureStudy, own: KnownUnit, display: LengthDisplay): FeatureStudy {
  const { unit, length } = inShownUnit(own, display);
  if (unit === own) return result;
  const { study, limits, values } = result;
  return {
    ...result,
    values: values.map((value) => length(value)),
    study: {
      ...study,
      mean: length(study.mean),
      sdOverall: length(study.sdOverall),
      sigmaWithin: length(study.sigmaWithin),
      normality: study.normality && { ...study.normality, step: length(study.normality.step) },
      modelStudy: study.modelStudy && modelIn(study.modelStudy, length),
    },
    limits: limits.ok
      ? {
          ok: true,
          value: {
            ...limits.value,
            centre: length(limits.value.centre),
            sigma: length(limits.value.sigma),
          },
        }
      : limits,
  };
}

/** Parameters that are lengths, of each model; all others have no unit, but for the mean of logarithms. */
const LENGTHS: Record<ModelName, readonly string[]> = {
  normal: ["mean", "standardDeviation"],
  lognormal: [],
  weibull: ["scale"],
  rayleigh: ["scale"],
  "folded-normal": ["location", "scale"],
  "box-cox": ["geometricMean"],
};

function modelIn(study: ModelStudy, length: Length): ModelStudy {
  const { fit, quantiles } = study;
  const parameters = parametersIn(fit.model, fit.parameters, length);
  return {
    ...study,
    fit: { ...fit, parameters, distribution: MODELS[fit.model].distribution(parameters) },
    quantiles: {
      below: length(quantiles.below),
      median: length(quantiles.median),
      above: length(quantiles.above),
    },
  };
}

function parametersIn(model: ModelName, parameters: Parameters, length: Length): Parameters {
  const shown = Object.fromEntries(
    Object.entries(parameters).map(([name, value]) => [
      name,
      LENGTHS[model].includes(name) ? length(value) : value,
    ]),
  );
  // ln(c·x) = ln c + ln x.
  const { logMean } = parameters;
  return logMean === undefined ? shown : { ...shown, logMean: logMean + Math.log(length(1)) };
}

/** Bins as they are shown: those of the feature's own unit, for on another grid they would make a comb. */
export function shownHistogram(histogram: Histogram, own: KnownUnit, display: LengthDisplay): Histogram {
  const { unit, length } = inShownUnit(own, display);
  if (unit === own) return histogram;
  const { bins, width, step, ruleWidth } = histogram;
  return {
    ...histogram,
    bins: bins.map((bin) => ({ ...bin, from: length(bin.from), to: length(bin.to) })),
    width: length(width),
    step: length(step),
    ruleWidth: length(ruleWidth),
  };
}
