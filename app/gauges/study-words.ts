import type { StudyRow } from "../../db/queries/gauges";
import { asEntered, fixed, inDigits } from "../../lib/format/numbers";
import { TYPE_ONE } from "../../lib/measurement-systems/study-data";
import type { Words } from "../../lib/words/words";
import { shareStanding, shareWords } from "./gauge-words";

/** Per cents of a study are figures of 0 to 100; the page shows shares. */
const PERCENT = 100;

/** What a study found, in one sentence. */
export function headline(
  { result, settings }: Pick<StudyRow, "result" | "settings">,
  { gauges, gaugeStudies }: Pick<Words, "gauges" | "gaugeStudies">,
): string {
  const { headline: said } = gaugeStudies;
  switch (result.kind) {
    case "crossed": {
      const { percentTolerance, percentStudy, ndc } = result.study;
      const classes = ndc === null ? said.noClasses : said.classes(ndc);
      if (percentTolerance) {
        const share = percentTolerance.grr / PERCENT;
        const standing = gauges.shares[shareStanding(share).word];
        return said.ofTolerance(shareWords(share), standing, classes);
      }
      return percentStudy
        ? said.ofVariation(shareWords(percentStudy.grr / PERCENT), classes)
        : said.nothingVaried;
    }
    case "type-1": {
      const { Cg, Cgk, p } = result.study;
      return said.typeOne({
        Cg: fixed(Cg, 2),
        Cgk: fixed(Cgk, 2),
        isEnough: Cg >= TYPE_ONE.asked && Cgk >= TYPE_ONE.asked,
        asked: asEntered(TYPE_ONE.asked),
        bias: biasWords(p, said),
      });
    }
    case "bias-linearity": {
      const { linearity, pieces } = result;
      if (linearity === null) return said.oneSize(biasWords(pieces[0]?.bias?.p ?? null, said));
      const slope = linearity.line.slope.p;
      return said.linearity(linearity.isFree, slope !== null && slope < 1 - settings.confidence);
    }
    case "setup": {
      const { setup, repeatability, share } = result.study;
      return share === null
        ? said.nothingVaried
        : said.setup(shareWords(share), inDigits(setup, 3), inDigits(repeatability, 3));
    }
  }
}

function biasWords(p: number | null, said: Words["gaugeStudies"]["headline"]): string {
  if (p === null) return said.biasUnknown;
  return p < 0.05 ? said.bias : said.noBias;
}
