import { claims as english } from "../words/en/claims";

/** What an index does not say, for whoever passes it on. `confidence` in words: "95 %". */
export function cautions(confidence: string, { cautions: said } = english): string[] {
  return [said.acceptance, said.window, said.bound(confidence), said.spread, said.tails];
}
