import type { StudyRow } from "../../db/queries/gauges";
import { fixed, inDigits } from "../../lib/format/numbers";
import { TYPE_ONE } from "../../lib/measurement-systems/study-data";
import { shareStanding, shareWords } from "./gauge-words";

/** Per cents of a study are figures of 0 to 100; the page shows shares. */
const PERCENT = 100;

/** What a study found, in one sentence. */
export function headline({ result, settings }: Pick<StudyRow, "result" | "settings">): string {
  switch (result.kind) {
    case "crossed": {
      const { percentTolerance, percentStudy, ndc } = result.study;
      const classes =
        ndc === null
          ? "it shows no variation of its own"
          : `it tells ${ndc} ${ndc === 1 ? "class" : "classes"} of these parts apart`;
      if (percentTolerance) {
        const share = percentTolerance.grr / PERCENT;
        return `The gauge takes ${shareWords(share)} of the tolerance (${shareStanding(share).word}); ${classes}.`;
      }
      return percentStudy
        ? `The gauge takes ${shareWords(percentStudy.grr / PERCENT)} of the variation seen; ${classes}. No tolerance was stated.`
        : `Nothing varied in this study.`;
    }
    case "type-1": {
      const { Cg, Cgk, p } = result.study;
      const enough = Cg >= TYPE_ONE.asked && Cgk >= TYPE_ONE.asked;
      return `Cg ${fixed(Cg, 2)} and Cgk ${fixed(Cgk, 2)}: ${enough ? "enough" : "not enough"}, at least ${TYPE_ONE.asked} is commonly asked for; ${biasWords(p)}.`;
    }
    case "bias-linearity": {
      const { linearity, pieces } = result;
      if (linearity === null)
        return `One size was measured: ${biasWords(pieces[0]?.bias?.p ?? null)}; linearity needs two sizes.`;
      const slope = linearity.line.slope.p;
      const grows =
        slope !== null && slope < 1 - settings.confidence
          ? "the bias changes with size"
          : "no change of the bias with size can be seen";
      return `${linearity.isFree ? "No bias can be seen anywhere" : "There is a bias"}, and ${grows}.`;
    }
    case "setup": {
      const { setup, repeatability, share } = result.study;
      return share === null
        ? "Nothing varied in this study."
        : `Setting up anew makes ${shareWords(share)} of the variance: its standard deviation is ${inDigits(setup, 3)} beside ${inDigits(repeatability, 3)} within a setup.`;
    }
  }
}

function biasWords(p: number | null): string {
  if (p === null) return "whether there is a bias cannot be tested";
  return p < 0.05 ? "a bias is seen" : "no bias can be seen";
}
