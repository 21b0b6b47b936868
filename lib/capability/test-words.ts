import { fixed } from "../format/numbers";
import { type ClaimWords, ENGLISH_CLAIMS, GATE_REQUIREMENTS } from "./gates";
import type { ModelName } from "./models/model";
import type { CapabilityStudy } from "./study";
import { pWords } from "./words";

type Tested = {
  normality: CapabilityStudy["normality"];
  modelStudy: {
    fit: {
      model: ModelName;
      A2: number;
      p: number;
      spreadOverGrid: { A2: number; p: number } | null;
    };
  } | null;
};

/** What the Anderson-Darling test says of the model behind the indices, and whether only the gauge's steps are seen. */
export function testWords({ normality, modelStudy }: Tested, words: ClaimWords = ENGLISH_CLAIMS): string {
  const { models, test } = words.claims;
  if (modelStudy !== null) return verdict(modelStudy.fit, models[modelStudy.fit.model], words);
  return normality === null ? test.few : verdict(normality, test.normalProcess, words);
}

function verdict(
  { A2, p, spreadOverGrid }: { A2: number; p: number; spreadOverGrid: { p: number } | null },
  model: string,
  { claims: { test }, figures }: ClaimWords,
): string {
  const { significance } = GATE_REQUIREMENTS;
  const found = [fixed(A2, 3), pWords(p, figures)] as const;
  if (p >= significance) return test.fits(...found, model);
  if (spreadOverGrid !== null && spreadOverGrid.p >= significance) {
    return test.grid(...found, pWords(spreadOverGrid.p, figures));
  }
  return test.unlikely(...found, model);
}
