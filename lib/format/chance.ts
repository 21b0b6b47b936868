import { assumptions as english } from "../words/en/assumptions";
import { fixed } from "./numbers";

const LEAST_SHOWN = 0.001;

/** "p = 0.012", "p below 0.001": the chance that a test found, with three decimals. */
export function pOfTest(p: number, words: Pick<typeof english, "p" | "pBelow"> = english): string {
  return p < LEAST_SHOWN ? words.pBelow(fixed(LEAST_SHOWN, 3)) : words.p(fixed(p, 3));
}
