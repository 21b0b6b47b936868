import { MODEL_CHOICES, type ModelChoice, type ModelName } from "../../lib/capability/models/model";
import type { Words } from "../../lib/words/words";

type Sign = keyof Words["capability"]["model"]["signs"];

export const MODEL_ORDER: readonly ModelChoice[] = MODEL_CHOICES;

/** How the distribution of each model is written, and what its parameters are called in lib/words, where no sign says it. */
export const MODEL_FORMS: Record<
  ModelName,
  { formula: string; signs: Record<string, { sign: string } | { word: Sign }> }
> = {
  normal: {
    formula: "F(x) = Φ((x − μ) / σ)",
    signs: { mean: { sign: "μ" }, standardDeviation: { sign: "σ" } },
  },
  lognormal: {
    formula: "F(x) = Φ((ln x − μ) / σ)",
    signs: { logMean: { word: "logMean" }, logStandardDeviation: { word: "logStandardDeviation" } },
  },
  weibull: {
    formula: "F(x) = 1 − exp(−(x/b)ᵏ)",
    signs: { shape: { word: "shape" }, scale: { word: "scaleB" } },
  },
  rayleigh: { formula: "F(x) = 1 − exp(−x² / 2s²)", signs: { scale: { word: "scaleS" } } },
  "folded-normal": {
    formula: "F(x) = Φ((x − m) / s) − Φ((−x − m) / s)",
    signs: { location: { word: "location" }, scale: { word: "scaleS" } },
  },
  "box-cox": {
    formula: "F(x) = Φ((y − μ) / σ), y = ((x/g)^λ − 1) / λ",
    signs: {
      lambda: { word: "lambda" },
      geometricMean: { word: "geometricMean" },
      powerMean: { word: "powerMean" },
      powerDeviation: { word: "powerDeviation" },
    },
  },
};

/** The name of a model's parameter. */
export function parameterName(
  model: ModelName,
  parameter: string,
  { signs }: Words["capability"]["model"],
): string {
  const said = MODEL_FORMS[model].signs[parameter];
  if (said === undefined) return parameter;
  return "sign" in said ? said.sign : signs[said.word];
}
