import { MODEL_CHOICES, type ModelChoice, type ModelName } from "../../lib/capability/models/model";

/** Names of models where one is chosen. */
export const MODEL_NAMES_SHOWN: Record<ModelChoice, string> = {
  normal: "normal",
  lognormal: "lognormal",
  weibull: "Weibull",
  rayleigh: "Rayleigh",
  "folded-normal": "folded normal",
  "box-cox": "Box-Cox",
  auto: "chosen by kind and fit",
};

export const MODEL_ORDER: readonly ModelChoice[] = MODEL_CHOICES;

/** What the parameters of each model are called, and how its distribution is written. */
export const MODEL_FORMS: Record<ModelName, { formula: string; signs: Record<string, string> }> = {
  normal: { formula: "F(x) = Φ((x − μ) / σ)", signs: { mean: "μ", standardDeviation: "σ" } },
  lognormal: {
    formula: "F(x) = Φ((ln x − μ) / σ)",
    signs: { logMean: "μ of ln x", logStandardDeviation: "σ of ln x" },
  },
  weibull: { formula: "F(x) = 1 − exp(−(x/b)ᵏ)", signs: { shape: "shape k", scale: "scale b" } },
  rayleigh: { formula: "F(x) = 1 − exp(−x² / 2s²)", signs: { scale: "scale s" } },
  "folded-normal": {
    formula: "F(x) = Φ((x − m) / s) − Φ((−x − m) / s)",
    signs: { location: "location m", scale: "scale s" },
  },
  "box-cox": {
    formula: "F(x) = Φ((y − μ) / σ), y = ((x/g)^λ − 1) / λ",
    signs: {
      lambda: "power λ",
      geometricMean: "geometric mean g",
      powerMean: "μ of y",
      powerDeviation: "σ of y",
    },
  },
};
