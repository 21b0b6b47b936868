import { fixed } from "../format/numbers";
import { GATE_REQUIREMENTS } from "./gates";
import { MODELS } from "./models/models";
import type { CapabilityStudy } from "./study";
import { pWords } from "./words";

type Tested = {
  normality: CapabilityStudy["normality"];
  modelStudy: {
    fit: {
      model: keyof typeof MODELS;
      A2: number;
      p: number;
      spreadOverGrid: { A2: number; p: number } | null;
    };
  } | null;
};

/** What the Anderson-Darling test says of the model behind the indices, and whether only the gauge's steps are seen. */
export function testWords({ normality, modelStudy }: Tested): string {
  if (modelStudy !== null) {
    const { fit } = modelStudy;
    return verdict(fit, MODELS[fit.model].words);
  }
  if (normality === null) return "Too few readings for a test of normality.";
  return verdict(normality, "a normal process");
}

function verdict(
  { A2, p, spreadOverGrid }: { A2: number; p: number; spreadOverGrid: { p: number } | null },
  model: string,
): string {
  const { significance } = GATE_REQUIREMENTS;
  const figures = `Anderson-Darling A² ${fixed(A2, 3)}, ${pWords(p)}`;
  if (p >= significance) return `${figures}: nothing speaks against ${model}.`;
  if (spreadOverGrid !== null && spreadOverGrid.p >= significance) {
    return `${figures}; spread over the steps of the gauge ${pWords(spreadOverGrid.p)}: the steps are seen, not the process.`;
  }
  return `${figures}: ${model} would hardly give these readings.`;
}
