import { requireFinite } from "../../checks";
import { type Computed, computed, problem } from "../../computed";
import { foldedNormal } from "../../distributions/folded-normal";
import { lognormal } from "../../distributions/lognormal";
import { normalDistribution } from "../../distributions/normal-distribution";
import { powerNormal } from "../../distributions/power-normal";
import { rayleigh } from "../../distributions/rayleigh";
import { weibull } from "../../distributions/weibull";
import type { RandomStream } from "../../random/random-stream";
import { mean, sampleStandardDeviation } from "../../summary/moments";
import { likeliestPower } from "./box-cox";
import { fitFoldedNormal } from "./fit-folded-normal";
import { fitWeibull } from "./fit-weibull";
import type { Model, ModelName, Parameters } from "./model";
import { negative, notPositive } from "./not-positive";

/** −ln of a uniform number that is never 0: an exponential one. */
function exponential(stream: RandomStream): number {
  return -Math.log(stream.uniform() + 2 ** -33);
}

/** The normal model with the sample standard deviation (n − 1), the one behind Pp and Ppk. */
const normal: Model = {
  name: "normal",
  fit(values) {
    const shortage = tooFew("fitNormal", values);
    if (shortage) return shortage;
    const standardDeviation = sampleStandardDeviation(values);
    if (standardDeviation === 0) return problem({ code: "no-variation" });
    return computed({ mean: mean(values), standardDeviation });
  },
  distribution: ({ mean: centre = 0, standardDeviation = 0 }) =>
    normalDistribution({ mean: centre, standardDeviation }),
  draw: ({ mean: centre = 0, standardDeviation = 0 }, stream) => centre + standardDeviation * stream.normal(),
};

/** μ and σ are mean and standard deviation of ln x, with n below, as maximum likelihood has it. */
const lognormalModel: Model = {
  name: "lognormal",
  fit(values) {
    const shortage = tooFew("fitLognormal", values);
    if (shortage) return shortage;
    const refused = notPositive(values);
    if (refused) return problem(refused);
    const logs = Float64Array.from(values, Math.log);
    const logStandardDeviation = sampleStandardDeviation(logs) * Math.sqrt((logs.length - 1) / logs.length);
    if (logStandardDeviation === 0) return problem({ code: "no-variation" });
    return computed({ logMean: mean(logs), logStandardDeviation });
  },
  distribution: ({ logMean = 0, logStandardDeviation = 0 }) => lognormal({ logMean, logStandardDeviation }),
  draw: ({ logMean = 0, logStandardDeviation = 0 }, stream) =>
    Math.exp(logMean + logStandardDeviation * stream.normal()),
};

const weibullModel: Model = {
  name: "weibull",
  fit: fitWeibull,
  distribution: ({ shape = 0, scale = 0 }) => weibull({ shape, scale }),
  draw: ({ shape = 0, scale = 0 }, stream) => scale * exponential(stream) ** (1 / shape),
};

/** s² = Σx² / 2n. */
const rayleighModel: Model = {
  name: "rayleigh",
  fit(values) {
    const shortage = tooFew("fitRayleigh", values);
    if (shortage) return shortage;
    const refused = negative(values);
    if (refused) return problem(refused);
    let squares = 0;
    for (let i = 0; i < values.length; i++) squares += values[i]! * values[i]!;
    if (squares === 0) return problem({ code: "no-variation" });
    return computed({ scale: Math.sqrt(squares / (2 * values.length)) });
  },
  distribution: ({ scale = 0 }) => rayleigh({ scale }),
  draw: ({ scale = 0 }, stream) => scale * Math.sqrt(2 * exponential(stream)),
};

const foldedNormalModel: Model = {
  name: "folded-normal",
  fit: fitFoldedNormal,
  distribution: ({ location = 0, scale = 0 }) => foldedNormal({ location, scale }),
  draw: ({ location = 0, scale = 0 }, stream) => Math.abs(location + scale * stream.normal()),
};

/**
 * The power of the readings that is nearest to normal. The readings are taken over their geometric mean, so that no
 * power overflows and its mean and deviation say how wide they spread relatively. Deviation with n − 1, as in Ppk.
 */
const boxCoxModel: Model = {
  name: "box-cox",
  fit(values) {
    const found = likeliestPower(values);
    if (!found.ok) return found;
    const { lambda, centred, meanLog } = found.value;
    const powers = centred.map((log) => (lambda === 0 ? log : Math.expm1(lambda * log) / lambda));
    return computed({
      lambda,
      geometricMean: Math.exp(meanLog),
      powerMean: mean(powers),
      powerDeviation: sampleStandardDeviation(powers),
    });
  },
  distribution: ({ lambda = 0, geometricMean = 0, powerMean = 0, powerDeviation = 0 }) =>
    powerNormal({ lambda, geometricMean, powerMean, powerDeviation }),
  draw: ({ lambda = 0, geometricMean = 0, powerMean = 0, powerDeviation = 0 }, stream) => {
    for (;;) {
      const power = powerMean + powerDeviation * stream.normal();
      // No reading has this power: outside the support.
      if (lambda !== 0 && lambda * power <= -1) continue;
      return geometricMean * Math.exp(lambda === 0 ? power : Math.log1p(lambda * power) / lambda);
    }
  },
};

/**
 * The families that a capability study knows, each fitted by maximum likelihood.
 *
 * Rayleigh, Weibull and folded normal start at zero; the lognormal and powers lie above it. Source: ISO 22514-2 names them
 * for form, position and run-out (from memory).
 */
export const MODELS: Readonly<Record<ModelName, Model>> = {
  normal,
  lognormal: lognormalModel,
  weibull: weibullModel,
  rayleigh: rayleighModel,
  "folded-normal": foldedNormalModel,
  "box-cox": boxCoxModel,
};

/** ln of the density of all readings together, under given parameters. */
export function logLikelihood(model: Model, parameters: Parameters, values: ArrayLike<number>): number {
  const { logDensity } = model.distribution(parameters);
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += logDensity(values[i]!);
  return sum;
}

function tooFew(where: string, values: ArrayLike<number>): Computed<never> | null {
  requireFinite(where, "values", values);
  return values.length < 2 ? problem({ code: "too-few-readings", needed: 2, got: values.length }) : null;
}
